"""Every paper, overlapped and edge to edge, nested and one size: how far off their places pages laid by marks are."""

from __future__ import annotations

import numpy as np
import pytest

from draft.pack.files_on_pages import paged_sheets
from draft.pack.printed_files import Printing
from draft.paper.drawing.drawing import PT
from draft.paper.drawing.papers import PAPERS
from draft.paper.pages.page_grid import Assembly
from draft.paper.pages.paged_sheet import PagedSheet, paged_pdf
from tests.asking import bundled
from tests.paper.assembling import assembled_places, read_pages

pytestmark = pytest.mark.slow
MOST = 0.2
"""So many mm off its place a page may lie: half of the width of a cutting line."""


@pytest.mark.parametrize("assembly", ["overlap", "butt"])
@pytest.mark.parametrize("name", PAPERS)
def test_pages_lie_where_they_belong(name: str, assembly: Assembly) -> None:
    for pattern in ("tidemill", "lockside"):
        for sizes in (None, ["M"]):
            (sheet,) = paged_sheets(bundled(pattern).garment, Printing((name,), assembly), sizes)
            off, joined = _off_place(sheet)
            whose, pages = "M" if sizes else "all sizes", len(sheet.grid.pages)
            print(f"\n{pattern}, {whose}, {name}, {assembly}: {joined} of {pages} pages, {off:.3f} mm off at most")
            assert off <= MOST and joined == pages


def _off_place(sheet: PagedSheet) -> tuple[float, int]:
    """By how many mm a page lies off its place at most when marks are laid on one another, and how many are laid."""
    places = assembled_places(read_pages(paged_pdf(sheet)))
    live = np.array(sheet.grid.paper.live)
    wanted = {page.number: np.array([page.column, page.row]) * live for page in sheet.grid.pages}
    first = next(iter(places))
    found = [(np.array(at) - places[first]) * PT - (wanted[number] - wanted[first]) for number, at in places.items()]
    return float(np.linalg.norm(found, axis=1).max()), len(places)
