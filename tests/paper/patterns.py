"""The bundled patterns, laid on home paper once for all tests of this folder."""

from __future__ import annotations

from functools import cache

from draft.pack.printed_files import Printing, tiled_sheets
from draft.paper.pages.tiled import Tiled
from tests.asking import bundled

PATTERNS = ("marlpit", "tidemill", "ropewalk")


@cache
def on_home_paper(pattern: str) -> tuple[Tiled, ...]:
    """All sizes of a pattern on Letter and on A4, in English."""
    return tuple(tiled_sheets(bundled(pattern).garment, Printing(("letter", "a4"))))
