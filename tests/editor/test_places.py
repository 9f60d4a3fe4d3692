"""Places as editors count them, and the blocks that they stand in."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from draft.base.resources import folder
from draft.editor.open_file import OpenFile
from draft.editor.positions import UTF_8, UTF_16, UTF_32, offset_of, place_of
from draft.editor.surroundings import surroundings
from tests.editor.pattern import PATTERN

TEXT = "ab\n\u00e4\U0001f9f5c\n\nd"  # letters of one, two and four bytes, of one and two units in UTF-16


@pytest.mark.parametrize(("encoding", "letter"), [(UTF_8, 6), (UTF_16, 3), (UTF_32, 2)])
def test_letters_are_counted_in_the_units_agreed_on(encoding: str, letter: int) -> None:
    offset = TEXT.index("c")
    assert place_of(TEXT, offset, encoding) == (1, letter)
    assert offset_of(TEXT, 1, letter, encoding) == offset


@given(st.text("a\u00e4\U0001f9f5\n", max_size=30), st.sampled_from([UTF_8, UTF_16, UTF_32]), st.integers(0, 30))
def test_there_and_back(text: str, encoding: str, offset: int) -> None:
    offset = min(offset, len(text))
    assert offset_of(text, *place_of(text, offset, encoding), encoding) == offset


def test_a_place_past_the_end_is_the_end() -> None:
    assert offset_of("ab\nc", 0, 99) == 2
    assert offset_of("ab\nc", 9, 0) == 4


@pytest.mark.parametrize(
    ("words", "above", "owner"),
    [
        ("room  =", ("let",), ""),
        ("end   from", ('template half "Half of the tab."', "points"), "template half"),
        ("drop = room", ("piece front is half",), "piece front"),
        ("pattern tab", (), ""),
    ],
)
def test_the_lines_that_a_place_stands_under(words: str, above: tuple[str, ...], owner: str) -> None:
    here = surroundings(PATTERN, PATTERN.index(words) + 3)
    assert here.above == above and here.owner == owner and here.before == words[:3]


def test_an_empty_line_stands_where_its_spaces_end() -> None:
    assert surroundings("let\n    a = 1 cm\n    ", 21).above == ("let",)
    assert surroundings("let\n    a = 1 cm\n", 17).above == ()


def test_line_ends_of_any_sort_are_one() -> None:
    document = OpenFile("tab.piece", folder("pieces"))
    document.change(PATTERN.replace("\n", "\r\n"))
    assert document.text == PATTERN and not list(document.notes())


def test_a_place_on_a_later_row_stands_on_its_line() -> None:
    text = "join\n    neck  band.long to back.neck,  # long\n            "
    here = surroundings(text, len(text))
    assert here.above == ("join",)
    assert here.before == "neck  band.long to back.neck, "


@pytest.mark.parametrize("odd", ["\f", "\x1c", "\x85", "\u2028"])
def test_a_row_of_nothing_but_a_control_character_heads_no_block(odd: str) -> None:
    text = f"body\n  {odd}\n      a"
    assert isinstance(surroundings(text, len(text)).block, str)
    assert surroundings(f"{odd}\n    a", len(odd) + 6).block == ""
