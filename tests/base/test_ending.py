"""The end of a line is found soon, however long the line is."""

from __future__ import annotations

import re

import pytest

from draft.base.ending import LOOK, ending
from draft.base.resources import folder
from draft.editor.complete import complete
from draft.editor.hover import hover
from draft.editor.lookup import symbol_at, word_at
from draft.editor.open_file import OpenFile
from tests.project.checkout import ROOT


def test_what_a_text_ends_with_is_found() -> None:
    found = ending(r"(\w+)\s*\.\s*$", "length of front . ")
    assert found and found[1] == "front"
    assert ending(r"[\d.]+$", "9" * 1000 + "x") is None
    assert ending(r"a.*$", "a" + "b" * LOOK) is None


def test_no_search_looks_for_the_end_of_a_line_from_each_of_its_letters() -> None:
    files = [path for room in ("editor", "language") for path in sorted((ROOT / "draft" / room).glob("*.py"))]
    found = [(path.name, call) for path in files for call in re.findall(r're\.search\(rf?".*\$".*', path.read_text())]
    assert files and not found


@pytest.mark.parametrize(
    "line",
    [
        "    a = " + "a" * 300_000,
        "    a = 1 cm" + " " * 300_000 + "+",
        "    a = " + "9" * 300_000 + "x y",
        "    a" * 60_000,
    ],
    ids=["name", "blanks", "figure", "words"],
)
def test_an_editor_is_answered_on_a_line_of_hundreds_of_thousands_of_letters(line: str) -> None:
    text = f"let\n{line}\n    b = 1 cm\n"
    document = OpenFile("long.piece", folder("pieces"))
    document.change(text)
    for place in (len(text) - 20, 200_000, 5):
        hover(document.now, document.known, document.figures, place)
        complete(document.text, document.known, place)
        symbol_at(document.now, document.known, place)
        assert word_at(document.now, place) is None or place <= len(text)
