"""Where a pattern is lengthened or shortened: told for the pieces that are sewn to one another there."""

from __future__ import annotations

import pytest

from draft.paper.booklet.booklet import book_of
from draft.paper.booklet.booklet_page import Book
from draft.paper.booklet.facts import BookletFacts
from draft.paper.booklet.longer_section import changed_alike, longer_section
from draft.paper.drawing.wording import Wording
from tests.asking import bundled


def _told(book: Book) -> str:
    return " ".join(dict.fromkeys(i.passage.text for items in book.pages.values() for i in items if i.passage))


@pytest.mark.parametrize(
    "pattern, pieces",
    [
        ("netloft", [({"back", "front"}, 1), ({"sleeve"}, 1)]),
        ("lockside", [({"front", "placket", "back"}, 2), ({"sleeve"}, 1)]),
        ("boatyard", [({"front", "back"}, 2)]),
    ],
)
def test_pieces_sewn_to_one_another_across_a_line_are_changed_alike(
    pattern: str, pieces: list[tuple[set[str], int]]
) -> None:
    found = [(set(one.pieces), one.lines) for one in changed_alike(bundled(pattern, "M").garment, 0)]
    assert found == pieces


@pytest.mark.parametrize("language, words", [("en", "Front and back"), ("de", "Länger oder kürzer")])
def test_the_booklet_tells_how_and_of_which_pieces(language: str, words: str) -> None:
    book, _ = book_of(BookletFacts(bundled("boatyard", "M"), (0,), Wording(language)))
    told = _told(book)
    assert words in told and Wording(language).say("longer.two") in told
    assert Wording(language).say("piece.lengthen") in told


def test_nothing_is_told_where_no_piece_has_such_a_line() -> None:
    drafted = bundled("roundhouse", "M")
    assert not changed_alike(drafted.garment, 0)
    book = Book("")
    longer_section(book, BookletFacts(drafted, (0,), Wording()))
    assert not _told(book)


@pytest.mark.parametrize(
    "pattern, lengths",
    [("boatyard", "side length 104.4 cm"), ("slipway", "side length 94 cm"), ("tidemill", ""), ("breakwater", "")],
)
def test_a_length_that_all_sizes_share_is_told(pattern: str, lengths: str) -> None:
    drafted = bundled(pattern)
    book, facts = Book(""), BookletFacts(drafted, tuple(range(len(drafted.garment.sizes))), Wording("en", "cm"))
    longer_section(book, facts)
    assert ("All sizes have the same length here" in _told(book)) == bool(lengths)
    assert lengths in " ".join(_told(book).split())
    alone = Book("")
    longer_section(alone, BookletFacts(drafted, (0,), Wording("en", "cm")))
    assert "All sizes have" not in _told(alone)
