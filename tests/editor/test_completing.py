"""What is offered fits its place, everywhere that the grammar knows what can come."""

from __future__ import annotations

import pytest

from draft.base.resources import folder
from draft.editor.complete import Completion, complete
from draft.editor.open_file import OpenFile

TEXT = """\
pattern tunic
    chart  "women.csv"

body
    bust_girth, waist_girth, shoulder_slope
    belly  from 60 cm to 160 cm, about waist_girth  "round the belly"

fabric shell "a firm cotton"

fabric lining "a thin one"

style
    sleeve  long  of long, short, none   "how long the sleeve is"
    depth   6 cm  from 2 cm to 12 cm     "how deep it is"

let
    width = bust_girth / 4
    share = 40 %
    slant = by sleeve: long 4 deg, otherwise 2 deg

template tab "A tab."
    input
        drop  length            "how far it hangs"
        ends  choice of a, b    "how it ends"

    points
        p  at 0, 0
        q  from p: drop down
        r  from p: 2 cm across

    outline
        one    p to q   straight
        two    q to r   straight
        three  r to p   straight

block draft
    points
        low_a  at 0, 0
        low_b  at width, 0
        top    from low_a: depth up
        buttons  3 points from low_a to top

    lines
        hip_line  low_a to top   straight

    outline
        hem     low_a to low_b   straight
        flank   low_b to top     straight
        centre  top to low_a     straight

    darts
        tuck  on hem: 2 cm wide at 3 cm from low_a, to top

piece front from draft
    marks
        pocket_line  line low_a to top
    cut 1 of shell

piece back from draft
    cut 1 of lining

piece loop is tab
    drop = 2 cm
    ends = a
    cut 1 of shell

join
    sides  front.flank to back.flank

check
    slant at most 90 deg  "it is no steeper than upright"
"""


def offered(block: str, line: str, inside: str = "") -> list[Completion]:
    """What is offered behind a line that is added to the text under some blocks."""
    rows = [*([inside] if inside else []), *([("    " if inside else "") + block] if block else [])]
    indent = "    " * len(rows)
    known = OpenFile("tunic.piece", folder("pieces"))
    known.change(TEXT)
    assert known.now.plan is not None, [note.message for note in known.now.notes]
    known.change(TEXT + "\n" + "\n".join([*rows, indent + line]))
    return complete(known.text, known.known, len(known.text), known.kind_of)


PIECE = "piece other from draft"

ONLY = [
    ("", "join", "more  front.", ["hem", "flank", "centre", "hip_line"]),
    ("", "join", "more  front.flank to back.flank, open 3 cm from front.", ["low_a", "low_b", "top"]),
    ("", "", "piece more from ", ["draft", "front", "back", "loop"]),
    ("", "", "piece more from draft, between ", ["hem", "flank", "centre", "hip_line"]),
    ("", "", "piece more is ", ["tab"]),
    ("", "body", "own from 2 cm to 3 cm, about ", ["bust_girth", "waist_girth", "belly", "shoulder_slope"]),
    (PIECE, "", "cut 2 of ", ["shell", "lining"]),
    (PIECE, "moves", "close ", ["tuck", "share"]),
    (PIECE, "moves", "close tuck, open next on ",
     ["hem", "flank", "centre", "hip_line", "draft", "front", "back", "loop"]),
    (PIECE, "points", "new  on hem: 3 cm from ", ["low_a", "low_b"]),
    (PIECE, "points", "new  on low_a to top: 3 cm from ", ["low_a", "top"]),
    (PIECE, "points", "new  by ", ["sleeve"]),
    (PIECE, "", "only for ", ["sleeve"]),
    (PIECE, "", "only for sleeve ", ["long", "short", "none"]),
    ("", "", "when ", ["sleeve"]),
    ("", "", "when sleeve is long or ", ["sleeve", "long", "short", "none"]),
    ("", "booklet", "step ", ["sides", "draft", "front", "back", "loop"]),
]  # fmt: skip


@pytest.mark.parametrize(("inside", "block", "line", "names"), ONLY)
def test_names_are_those_that_fit_and_no_others(inside: str, block: str, line: str, names: list[str]) -> None:
    found = [choice.text for choice in offered(block, line, inside) if choice.what != "word"]
    assert sorted(found) == sorted(names) and found[0] == names[0]


SOME = [
    (PIECE, "points", "new  from ", {"low_a", "top"}, {"hem", "width", "bust_girth", "buttons"}),
    (PIECE, "points", "new  from top: ", {"width", "depth", "bust_girth", "half of"},
     {"share", "slant", "hem", "top", "sleeve"}),
    (PIECE, "points", "new  from top: 3 cm ", {"down", "across", "along", "square"}, {"width", "top"}),
    (PIECE, "points", "new  where ", {"hem", "top"}, {"width"}),
    (PIECE, "points", "new  turned top about low_a: ", {"slant", "shoulder_slope"}, {"width", "share"}),
    (PIECE, "outline", "new  low_a to top   curve leaving square to ", {"hem", "flank"}, {"low_a", "width"}),
    (PIECE, "outline", "new  low_a to top   straight, ", {"allowance", "turned", "on", "unjoined"},
     {"hem", "top"}),
    (PIECE, "outline", "new  low_a to top   straight, allowance ", {"width", "depth"}, {"slant", "share", "top"}),
    (PIECE, "outline", "", {"hem", "centre"}, {"low_a", "width"}),
    (PIECE, "darts", "new  on ", {"hem"}, {"low_a", "width"}),
    (PIECE, "darts", "new  on hem: 2 cm wide at low_a, to ", {"top"}, {"hem", "width"}),
    (PIECE, "darts", "new  on hem: 2 cm wide at low_a, to top, ", {"trued", "pressed"}, {"top"}),
    (PIECE, "marks", "hole  button at ", {"buttons", "top"}, {"hem"}),
    (PIECE, "moves", "", {"close", "slash", "lay", "extend", "hold"}, {"hem"}),
    (PIECE, "moves", "lay back as b, ", {"hem", "top"}, {"width"}),
    (PIECE, "", "grain ", {"along", "up", "bias"}, {"width", "top"}),
    ("", "join", "more  front.flank to back.flank, stretched ", {"share"}, {"width", "slant"}),
    ("", "join", "more  front.flank to back.flank, ", {"eased", "notch", "trued", "quarters", "open"}, {"front"}),
    ("", "join", "more  loop onto ", {"sides", "front"}, {"width"}),
    ("", "join", "more  loop onto front.", {"pocket_line"}, {"hem"}),
    ("", "finished", "chest around = length of ", {"front", "back"}, {"width"}),
    ("", "finished", "chest around = 2 cm over ", {"bust_girth"}, {"shoulder_slope", "share"}),
    ("", "finished", "chest around = 2 cm going ", {"across", "down"}, {"width"}),
    ("", "body", "bust_girth, ", {"hip_girth"}, {"bust_girth", "width"}),
    ("", "fabric", "", {"stretch_across"}, {"width"}),
    ("", "let", "new = by sleeve: ", {"long", "short", "none"}, {"depth"}),
    ("", "let", "new = by ", {"sleeve", "depth", "bust_girth", "size"}, {"front"}),
    ("", "let", "new = larger of width and ", {"depth", "bust_girth"}, {"sleeve"}),
    ("", "let", "", set(), {"width", "depth"}),
    ("", "solve", "so that ", {"width", "depth", "length"}, {"sleeve"}),
    ("piece more is tab", "", "", {"drop", "ends", "cut", "title"}, {"width"}),
    (PIECE, "", "title ", set(), {"width", "top"}),
    (PIECE, "", "", {"points", "outline", "cut", "grain", "moves"}, {"width"}),
    ("", "", "", {"piece", "join", "when", "let", "check"}, {"width"}),
]  # fmt: skip


@pytest.mark.parametrize(("inside", "block", "line", "some", "none"), SOME)
def test_what_fits_is_offered(inside: str, block: str, line: str, some: set[str], none: set[str]) -> None:
    found = {choice.text for choice in offered(block, line, inside)}
    assert some <= found, found
    assert not none & found, found


def test_rows_of_a_point_are_the_choices_of_its_style() -> None:
    found = offered("points", "new  by sleeve\n            ", PIECE)
    assert [choice.text for choice in found] == ["long", "short", "none"]
