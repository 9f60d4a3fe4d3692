"""The bundled patterns, laid on home paper once for all tests of this folder."""

from __future__ import annotations

from functools import cache

from draft.drafting.checked import draft_and_check
from draft.drafting.drafting import Drafted
from draft.pack.printed_files import Printing, paged_sheets
from draft.paper.pages.paged_sheet import PagedSheet
from tests.asking import asked

PATTERNS = ("marlpit", "tidemill", "ropewalk")


@cache
def checked(pattern: str) -> Drafted:
    """A pattern in all its sizes."""
    return draft_and_check(asked(pattern))


@cache
def on_home_paper(pattern: str) -> tuple[PagedSheet, ...]:
    """All sizes of a pattern on Letter and on A4, in English."""
    return tuple(paged_sheets(checked(pattern).garment, Printing(("letter", "a4"))))
