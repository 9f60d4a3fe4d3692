"""While a line is written: how it goes on, and what the names of the lines before come to."""

from __future__ import annotations

import pytest

from draft.base.resources import folder
from draft.editor.hints import hints
from draft.editor.least_edits import Edit, least_edits
from draft.editor.open_file import OpenFile
from draft.editor.signature import signature
from tests.editor.pattern import PATTERN

POINTS = "piece a\n    points\n        "
OUTLINE = "piece a\n    outline\n        "


@pytest.mark.parametrize(
    ("text", "form", "comes"),
    [
        (POINTS + "b from ", "from POINT: LENGTH DIRECTION, ...", "POINT"),
        (POINTS + "b from c: ", "from POINT: LENGTH DIRECTION, ...", "LENGTH"),
        (POINTS + "b from c: 3 cm ", "from POINT: LENGTH DIRECTION, ...", "DIRECTION"),
        (POINTS + "b from c: 3 cm do", "from POINT: LENGTH DIRECTION, ...", "DIRECTION"),
        (POINTS + "b on edge_a: 3 cm from ", "on EDGE: LENGTH from A", "A"),
        (POINTS + "b strike 3 cm from ", "strike LENGTH from P to A to B going across", "P"),
        (OUTLINE + "x a to ", "EDGE POINT to POINT LEG[, LEG][, OPTION]", "POINT"),
        (OUTLINE + "x a to b curve leaving ", "curve [evenly] [leaving WAY]", "WAY"),
        ("join\n    a b.c to ", 'NAME EDGE [reversed] [then EDGE] to EDGE[, OPTION] "SENTENCE"', "EDGE"),
        ("join\n    a b.c to d.e, open 3 cm ", "open LENGTH from POINT [on the left|on the right]", "from"),
        ("piece a\n    moves\n        close d, open e on ", "close DART, open NAME on EDGE at PLACE", "EDGE"),
        ("let\n    a = larger of b and ", "larger of A and B", "B"),
        ("style\n    a 3 cm from ", 'NAME AMOUNT from LOW to HIGH "SENTENCE"', "LOW"),
        ("when a is ", "when STYLE is [not] CHOICE [or CHOICE] [and STYLE is CHOICE]", "not"),
    ],
)
def test_the_form_of_a_line_shows_what_comes_next(text: str, form: str, comes: str) -> None:
    found = signature(text, len(text))
    assert found and found.form.startswith(form) and found.words
    assert found.form[slice(*found.parts[found.next])] == comes


@pytest.mark.parametrize("text", ["", "# from ", 'pattern a\n    title "from ', "piece a\n    points\n        "])
def test_where_nothing_is_written_nothing_is_shown(text: str) -> None:
    assert signature(text, len(text)) is None


def shown(text: str, size: str = "") -> dict[str, str]:
    """The first word of each line with a figure, and the figure."""
    file = OpenFile("tab.piece", folder("pieces"), size=size)
    file.change(text)
    assert file.figures
    found = hints(file.now, file.known, file.figures, 0, len(text))
    return {text[text.rfind("\n", 0, hint.place) + 1 : hint.place].split()[0]: hint.text for hint in found}


def test_figures_stand_behind_their_lines() -> None:
    found = shown(PATTERN)
    assert found["width"] == "= 14.9 cm" and found["depth"] == "40 % of its range"
    assert found["end"] == "at 14.9 cm, -11 cm / at 14.9 cm, -10 cm"  # of front and back
    assert found["upper"] == "14.9 cm" and found["top"] == "at 0 cm, -2 cm / at 0 cm, -1 cm"
    assert not {"room", "nape", "shape", "drop"} & set(found), "a line that says its figure needs no other"


def test_figures_are_of_the_size_that_is_set() -> None:
    assert shown(PATTERN, "S")["width"] == "= 12.8 cm"  # an eighth of 86 cm, and 2 cm
    assert shown(PATTERN, "none of them")["width"] == "= 14.9 cm"


def test_figures_are_in_the_unit_of_the_file() -> None:
    inches = PATTERN.replace("2 cm", "1 in").replace("1 cm", "1/2 in").replace("3 cm", "1 in").replace("6 cm", "2 in")
    assert shown(inches.replace("12 cm", "5 in").replace("0 cm", "0 in"))["width"].endswith(" in")


@pytest.mark.parametrize(
    ("before", "after", "edits"),
    [
        ("a\nb\nc\n", "a\nb\nc\n", []),
        ("a\nb=1\nc\n", "a\nb = 1\nc\n", [Edit(3, 4, " = ")]),
        ("a\n\n\n\nb\n", "a\n\nb\n", [Edit(3, 5, "")]),
        ("a", "a\n", [Edit(1, 1, "\n")]),
        ("", "a\n", [Edit(0, 0, "a\n")]),
    ],
)
def test_only_what_differs_is_edited(before: str, after: str, edits: list[Edit]) -> None:
    assert least_edits(before, after) == edits
    text = before
    for edit in reversed(edits):
        text = text[: edit.start] + edit.text + text[edit.end :]
    assert text == after
