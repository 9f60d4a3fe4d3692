"""The booklet of a pack shows how the garment will sit, where that is asked for and it can be dressed."""

from __future__ import annotations

import io

import pikepdf
import pypdfium2
import pytest

from draft.drafting.checked import draft_and_check
from draft.drafting.request import Request, Whom
from draft.pack.pack import pack_files
from draft.pack.paper_request import PaperRequest
from draft.sitting.sit_told import telling
from draft.sitting.sitting_of import Asked, Sitting, Subject
from tests.asking import bundled
from tests.paper.test_worn_pictures import READING
from tests.sitting.made_up import worn

BOOK = PaperRequest(pages=(), cloth=(), units="cm", sit=True, holds=("booklet", "html"))


def _sat(subject: Subject, asked: Asked) -> Sitting:
    """Dresses nothing: the time that it takes is another test's."""
    return Sitting(worn(), READING, telling(READING, subject.by_ease))


def test_a_page_of_the_booklet_shows_it(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("draft.sitting.sitting_of.sitting_of", _sat)
    files = pack_files(bundled("marlpit", "M"), BOOK)
    text = files["booklet.html"].decode()
    for said in (
        "How it will sit",
        "What to do",
        "A form of the measures in the chart, not you.",
        "The hem lies 2.5 cm higher",
    ):
        assert said in text, said
    pages = [page.get_textpage().get_text_range() for page in pypdfium2.PdfDocument(files["booklet.pdf"])]
    (page,) = [page for page in pages if "How it will sit" in page and "Stretched by" in page]
    assert "What to do" in page and "On you folds will lie elsewhere" in page  # all of it stands on one page
    with pikepdf.open(io.BytesIO(files["booklet.pdf"])) as book, book.open_outline() as outline:
        titles = [one.title for one in outline.root]
    assert "How it will sit" in titles


def test_without_being_asked_it_shows_nothing_and_what_cannot_be_dressed_is_cautioned() -> None:
    plain = PaperRequest(pages=(), cloth=(), units="cm", holds=("html",))
    assert "How it will sit" not in pack_files(bundled("marlpit", "M"), plain)["booklet.html"].decode()
    warned: list[str] = []
    drafted = draft_and_check(Request("boatyard", Whom(sizes=("M",))))
    files = pack_files(drafted, BOOK, warn=lambda note: warned.append(note.message))
    assert any("does not show how it will sit: it has legs" in one for one in warned)
    assert "How it will sit" not in files["booklet.html"].decode()
