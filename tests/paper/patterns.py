"""The bundled patterns, laid on home paper once for all tests of this folder."""

from __future__ import annotations

from functools import cache

from draft.pack.files_on_pages import paged_sheets
from draft.pack.printed_files import Printing
from draft.paper.pages.paged_sheet import PagedSheet
from tests.asking import bundled

PATTERNS = ("marlpit", "tidemill", "ropewalk")


@cache
def on_paper(pattern: str, paper: str, *sizes: str) -> PagedSheet:
    """Some sizes of a pattern, or all of them, on one paper, in English."""
    (found,) = paged_sheets(bundled(pattern).garment, Printing((paper,)), sizes or None)
    return found


def on_home_paper(pattern: str) -> tuple[PagedSheet, ...]:
    """All sizes of a pattern on Letter and on A4."""
    return on_paper(pattern, "letter"), on_paper(pattern, "a4")
