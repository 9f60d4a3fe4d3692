"""Which pages of an older printing have to be changed: those that show a piece which differs.

That can be said where both versions are laid out alike: the same grid of pages, and what has not changed at its place.
"""

from __future__ import annotations

from collections.abc import Collection

import numpy as np

from draft.base.record import dataclass
from draft.paper.drawing.drawing import Drawing, Footprint
from draft.paper.pages.page_grid import Grid, pieces_by_page
from draft.paper.pages.paged_sheet import PagedSheet

_NEAR = 0.1
"""mm: what lies no further from its old place is printed as before."""


@dataclass(frozen=True)
class PagesAgain:
    """One paper, and the numbers of its pages that differ; None where all do."""

    paper: str
    numbers: tuple[int, ...] | None


def pages_again(old: PagedSheet, new: PagedSheet, titles: Collection[str]) -> PagesAgain:
    """The pages of one paper that show a piece whose title is among these, in either version."""
    paper = new.grid.paper.name
    if not _alike(old.grid, new.grid) or not _in_place(old.drawing, new.drawing, titles):
        return PagesAgain(paper, None)
    shown = [pair for one in (old, new) for pair in pieces_by_page(one.drawing, one.grid).items()]
    return PagesAgain(paper, tuple(sorted({page.number for page, names in shown if set(names) & set(titles)})))


def _alike(old: Grid, new: Grid) -> bool:
    places = [[(page.row, page.column, page.number) for page in grid.pages] for grid in (old, new)]
    return places[0] == places[1]


def _in_place(old: Drawing, new: Drawing, titles: Collection[str]) -> bool:
    """Whether every piece that has not changed lies where it lay."""
    before = {one.name: one for one in old.footprints}
    kept = [one for one in new.footprints if one.name not in titles]
    return all(one.name in before and _near(before[one.name], one) for one in kept)


def _near(one: Footprint, other: Footprint) -> bool:
    boxes = [np.concatenate([np.stack([r.min(axis=0), r.max(axis=0)]) for r in each.rings]) for each in (one, other)]
    return boxes[0].shape == boxes[1].shape and bool(np.allclose(boxes[0], boxes[1], rtol=0.0, atol=_NEAR))
