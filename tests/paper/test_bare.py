"""A pattern without seam allowances: its lines are called seam lines, and no text speaks of a width of nothing."""

from __future__ import annotations

import re

import pytest

from draft.drafting.checked import draft_and_check
from draft.drafting.request import Request, Whom
from draft.pack.pack import pack_files
from draft.pack.paper_request import PaperRequest
from draft.seams.bare import is_bare
from tests.paper.reading import page_count, text_of

_NOTHING = re.compile(r"(?<![\d,.])0 (cm|in|Zoll)\b")


def _packed(pattern: str, language: str, allowance: float = 0.0) -> dict[str, bytes]:
    drafted = draft_and_check(Request(pattern, Whom(sizes=("M",)), allowance=allowance), whole=True)
    assert is_bare(drafted.garment) == (allowance == 0.0)
    return dict(pack_files(drafted, PaperRequest(pages=("a4",), language=language, cloth=())))


def _whole(data: bytes) -> str:
    return " ".join(" ".join(text_of(data, page).split()) for page in range(page_count(data)))


@pytest.mark.parametrize(
    "language, seam_line, cutting", [("en", "seam line", "cut here"), ("de", "Nahtlinie", "hier zuschneiden")]
)
def test_lines_are_seam_lines_in_key_and_booklet(language: str, seam_line: str, cutting: str) -> None:
    files = _packed("ropewalk", language)
    key, book = text_of(files["pattern-a4.pdf"], 0), _whole(files["booklet.pdf"])
    assert seam_line in key and cutting not in key
    assert seam_line in book and not _NOTHING.search(book)


def test_hems_keep_theirs() -> None:
    book = _whole(_packed("ropewalk", "en")["booklet.pdf"])
    assert "No seam allowance included" in book and "Hem 1⅝ in (4 cm)" in book
