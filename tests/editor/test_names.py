"""What a name means where, and which new names it can be given."""

from __future__ import annotations

from pathlib import Path

import pytest

from draft.base.notes import Source
from draft.base.resources import folder
from draft.editor.analysis import Analysis, analyse
from draft.editor.finding import symbols
from draft.editor.rename import Refused, rename
from draft.editor.symbols import NameSort
from draft.language.reader import read_partly
from draft.plan.library import read_texts
from tests.editor.pattern import PATTERN
from tests.project.checkout import ROOT

FILES = [*sorted(folder("pieces").glob("*.piece")), *sorted((ROOT / "tests" / "good").rglob("*.piece"))]

# The style `end` and the edge `end`; the value `room` and that of one piece; a piece with lines of its own.
TWICE = """\
pattern twice
    title "Twice"

style
    end  soft  of soft, flat   "how it ends"

let
    room  = 2 cm
    shape = by end: soft 1 cm, flat 0 cm

template strip
    points
        a     at 0, 0
        b     from a: room across
        c     from b: shape + 1 cm up
        mine  from a: 1 cm up

    outline
        low   a to b   straight, turned up
        end   b to c   straight, only for end soft
        end   b to c   curve, only for end flat
        back  c to a   straight

piece one is strip
    let
        extra = room

    cut 1

piece two is strip
    points
        far  on end: 50 % from b

    cut 1

piece flap
    let
        room = 3 cm

    points
        a  at 0, 0
        b  at room, 0
        c  at 0, room

    outline
        low   a to b   straight
        side  b to c   straight
        back  c to a   straight

    cut 1

join
    ends  one.end to two.end, only for end soft

booklet
    step ends     "Sew the ends."
    step one.low  "Hem it."
"""


def look(text: str) -> Analysis:
    found = analyse(Source("a.piece", text), folder("pieces"))
    assert not found.notes, found.notes
    return found


def renamed(text: str, words: str, name: str, into: int = 0) -> str:
    for span in reversed(rename(look(text), text.index(words) + into, name, folder("pieces"))):
        text = text[: span.start] + name + text[span.end :]
    look(text)
    return text


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.stem)
def test_every_name_of_a_file_means_something(path: Path) -> None:
    texts = read_texts(path)
    found = analyse(texts.main.span.source, path.parent).symbols
    assert not found.unknown
    assert all(o.span.text == o.symbol.name for o in found.occurrences)
    assert {o.symbol for o in found.occurrences if not o.declares} <= {
        o.symbol for o in found.occurrences if o.declares
    }


def test_a_style_an_edge_and_an_option_of_one_name_are_told_apart() -> None:
    found = look(TWICE).symbols
    style = found.declared["", "end"]
    edge = found.declared["template strip", "end"]
    assert style.sort is NameSort.STYLE and len(found.of(style)) == 5
    assert edge.sort is NameSort.EDGE and [o.declares for o in found.of(edge)] == [True, True, False, False, False]
    assert len(found.of(found.declared["style end", "soft"])) == 5


def test_a_name_of_a_piece_comes_before_that_of_the_pattern() -> None:
    found = look(TWICE).symbols
    place = look(TWICE).source.text.index("extra = room") + 8
    here = found.at(found.occurrences[0].span.source, place)
    assert here and here.symbol == found.declared["", "room"]
    assert len(found.of(found.declared["piece flap", "room"])) == 3


@pytest.mark.parametrize(
    ("words", "into", "name"),
    [
        ("end  soft", 0, "finish"),
        ("soft  of", 0, "bent"),
        ("end   b to c   straight", 0, "short"),
        ("shape =", 0, "rounding"),
        ("piece one", 6, "first"),
        ("template strip", 9, "tape"),
        ("mine", 0, "own"),
        ("ends  one", 0, "both"),
        ("far  on", 0, "middle"),
    ],
)
def test_a_new_name_takes_the_place_of_the_old_one_everywhere(words: str, into: int, name: str) -> None:
    old = TWICE[TWICE.index(words) + into :].split()[0]
    before = look(TWICE).symbols
    known = before.at(before.occurrences[0].span.source, TWICE.index(words) + into)
    assert known and known.span.text == old
    after = renamed(TWICE, words, name, into)
    assert after.count(name) == len({o.span for o in before.of(known.symbol)})
    back = renamed(after, name, old)
    assert back == TWICE


@pytest.mark.parametrize(
    ("words", "into", "name", "reason"),
    [
        ("shape =", 0, "room", "another meaning"),
        ("extra =", 0, "mine", "another meaning"),  # the template's, which the piece has too
        ("mine", 0, "far", "another meaning"),  # one of its pieces has that name
        ("shape =", 0, "mine", "another meaning"),  # the template would then mean its own point
        ("room  = ", 0, "c", "another meaning"),
        ("soft  of", 0, "flat", "another meaning"),
        ("shape =", 0, "across", "word of the language"),
        ("shape =", 0, "2nd", "cannot be a name"),
        ("shape =", 0, "", "cannot be a name"),
        ("cut 1", 0, "slice", "no name here"),
    ],
)
def test_a_name_that_would_change_the_meaning_is_refused(words: str, into: int, name: str, reason: str) -> None:
    with pytest.raises(Refused, match=reason):
        rename(look(TWICE), TWICE.index(words) + into, name, folder("pieces"))


def test_a_name_that_means_two_things_is_refused() -> None:
    text = TWICE.replace("piece one is strip\n", "piece one is strip\n    only for end soft\n")
    text = text.replace(
        "template strip",
        "template other\n" + TWICE[TWICE.index("    points") : TWICE.index("piece one")] + "template strip",
    )
    text = text.replace("piece two", "piece one is other\n    only for end flat\n    cut 1\n\npiece two")
    with pytest.raises(Refused, match="some places mean both"):
        rename(look(text), text.index("end   b to c"), "other_end", folder("pieces"))


def test_names_that_are_not_the_files_own_stay() -> None:
    text = PATTERN + "\npiece band is folded_band\n    opening = 20 cm\n    cut 1\n"
    for words, reason in (
        ("bust_girth", "fixed"),
        ("folded_band", "belongs to a file"),
        ("opening", "belongs to a file"),
    ):
        with pytest.raises(Refused, match=reason):
            rename(look(text), text.index(words), "other", folder("pieces"))


def test_no_name_is_changed_while_lines_cannot_be_read() -> None:
    text = PATTERN.replace("room  = 2 cm", "room  = = 2 cm")
    now = analyse(Source("a.piece", text), folder("pieces"))
    with pytest.raises(Refused, match="cannot be read"):
        rename(now, text.index("width ="), "other", folder("pieces"))


def test_a_row_that_cannot_be_read_has_no_names() -> None:
    text = "pattern a\n\npiece tab\n    points\n        tip by shape\n            pointed  frght middle: 4 cm across\n"
    file, notes = read_partly(Source("a.piece", text))
    assert file is not None and notes
    assert [ref.text for ref in symbols(file).unknown] == ["shape"]


def test_a_text_too_large_for_a_pattern_is_not_read() -> None:
    found = analyse(Source("a.piece", 'pattern a\n    title "' + "a" * 1_100_000), Path())
    assert [note.message for note in found.notes] == ["this text is over 1 MB, too large for a pattern"]
    assert not found.whole and found.symbols.occurrences == []
