"""How many pages a pattern is printed on, size by size: a studio that sells paper prices them."""

from __future__ import annotations

from draft.drafting.drafting import Drafted
from draft.pack.files_on_pages import paged_sheets
from draft.pack.paper_request import PaperRequest
from draft.pack.printed_files import Printing
from draft.paper.pages.sheet import drafted_bodies

_GUIDE = 1


def printed_pages(drafted: Drafted, paper: PaperRequest) -> list[int] | None:
    """Pages of each size alone on the first paper for a home printer, the guide too; None where there is none."""
    if not paper.pages:
        return None
    garment, printing = drafted.to_cut, Printing(paper.pages[:1], paper.assembly)
    sizes = [garment.sizes[body] for body in drafted_bodies(garment)]
    return [len(paged_sheets(garment, printing, [size])[0].grid.pages) + _GUIDE for size in sizes]
