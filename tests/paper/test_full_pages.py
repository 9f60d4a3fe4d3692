"""The booklet's pages are full, its figures whole, and its last words are those that it uses."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from draft.drafting.drafting import Drafted
from draft.paper.booklet.booklet import book_of
from draft.paper.booklet.booklet_page import Book
from draft.paper.booklet.facts import BookletFacts
from draft.paper.booklet.grading_section import grading_section
from draft.paper.booklet.printing_section import printing_section
from draft.paper.booklet.room_for import roomiest
from draft.paper.drawing.drawing import Item, Label
from draft.paper.drawing.font import text_width, wrapped
from draft.paper.drawing.wording import Wording
from tests.asking import bundled
from tests.paper.patterns import PATTERNS

LEAST = 0.2
"""Of a page that something stands on, so much at least is filled."""


def _facts(drafted: Drafted, language: str = "en", large: tuple[str, ...] = ()) -> BookletFacts:
    return BookletFacts(drafted, tuple(range(len(drafted.garment.sizes))), Wording(language), large=large)


def _lowest(items: list[Item], foot: float) -> float:
    return max(item.y for item in items if isinstance(item, Label) and item.y < foot)


@pytest.mark.parametrize("language", ["en", "de"])
@pytest.mark.parametrize("pattern", PATTERNS)
def test_no_page_holds_a_line_or_two(pattern: str, language: str) -> None:
    book, _ = book_of(_facts(bundled(pattern, "M"), language))
    foot, top = book.format.bottom, book.format.top
    filled = {
        page: (_lowest(items, foot + 1.0) - top) / (foot - top) for page, items in book.pages.items() if items and page
    }
    assert min(filled.values()) > LEAST, filled


def test_words_at_the_end_are_those_that_are_used() -> None:
    def terms(pattern: str) -> set[str]:
        book, _ = book_of(_facts(bundled(pattern, "M")))
        heads = [item.passage for items in book.pages.values() for item in items if item.passage]
        return {passage.text for passage in heads if passage.role == "H3"}

    blouse, tee = terms("lockside"), terms("tidemill")
    assert {"placket", "yoke", "stand", "gathers", "notch"} <= blouse
    assert {"cap", "notch", "jersey"} <= tee
    assert not {"placket", "yoke", "fly"} & tee
    assert "fly" not in blouse


def test_the_roomiest_setting_takes_no_more_pages_than_the_closest() -> None:
    pages = {30: 3.0, 24: 2.0, 20: 2.0, 16: 2.0}
    tried: list[int] = []

    def make(size: int) -> int:
        tried.append(size)
        return size

    assert roomiest((30, 24, 20, 16), make, pages.__getitem__) == 24
    assert tried == [16, 30, 24]


@given(whole=st.integers(0, 99), top=st.sampled_from([1, 3, 5, 7]), wide=st.floats(8.0, 60.0))
def test_a_figure_is_not_parted_from_its_fraction_or_its_unit(whole: int, top: int, wide: float) -> None:
    figure = f"{whole} {top}/8 in"
    lines = wrapped(f"waist about {figure} and then some more words", 3.5, wide)
    assert any(figure in line for line in lines)
    assert " ".join(lines) == f"waist about {figure} and then some more words"
    assert all(text_width(line, 3.5) <= wide or line == figure or " " not in line for line in lines)


def _told(book: Book) -> str:
    passages = dict.fromkeys(i.passage.text for items in book.pages.values() for i in items if i.passage)
    return " ".join(passages)


def test_large_sheets_and_the_projector_are_told_of() -> None:
    book = Book("")
    printing_section(book, _facts(bundled("marlpit", "M"), large=("a0", "roll-36in", "projector")))
    told = _told(book)
    assert "A0 and a roll 36 in wide" in told
    assert "projector.pdf" in told
    bare = Book("")
    printing_section(bare, _facts(bundled("marlpit", "M")))
    assert not _told(bare)


def test_only_a_garment_with_bands_sends_to_the_page_on_bands() -> None:
    said = []
    for pattern in ("marlpit", "boatyard"):
        book = Book("")
        grading_section(book, _facts(bundled(pattern)))
        said.append("The bands, worked out" in _told(book))
    assert said == [True, False]
