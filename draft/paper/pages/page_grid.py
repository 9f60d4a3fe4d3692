"""A sheet cut into printed pages: which pages there are, which edges they share, and which pages each size needs.

Every shared edge has a name of its own, so that no wrong neighbour fits: the letter tells the line of edges down the
sheet and the number the place in that line.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import replace
from functools import cached_property
from typing import Any, Literal, TypeAlias

import numpy as np

from draft.base.arrays import Floats
from draft.base.record import dataclass
from draft.paper.drawing.drawing import Drawing
from draft.paper.drawing.papers import Paper
from draft.paper.pages.crowd import Crowd

Assembly: TypeAlias = Literal["overlap", "butt"]
"""How pages are put together: two edges of each are cut and laid over its neighbours, or all are cut and meet."""

MATCH_RADIUS = 6.5
"""Radius of a match mark, in mm: its name fits in each half."""
_MATCH_CLEAR = MATCH_RADIUS * 1.2 + 0.5
"""So far to each side of the middle of a match mark, in mm, nothing should be drawn: its box, and a little air."""
_PLACES = tuple(0.5 + 0.02 * step * side for step in range(21) for side in ((1, -1) if step else (1,)))
"""Where along a shared edge its match mark may stand, the middle first: it goes where the least is drawn."""
_INSET = 6.0
"""From the corner of a page's printed area to its number, in mm."""
_DIGITS = 4.0
"""A page's number reaches so many mm from its middle."""
_NUMBERS = 9
"""A number stands in the upper left corner, or where else along the upper edge it covers nothing: in so many places."""
_HAIR = 1e-6  # a sheet that is larger than its pages by rounding alone needs no further page


@dataclass(frozen=True)
class Page:
    """One printed page of the sheet, by row and column from 0, and its page number.

    `number_at` is where on the sheet its number may stand so that it covers nothing, in mm; None if nowhere is free.
    """

    row: int
    column: int
    number: int
    number_at: tuple[float, float] | None = None


@dataclass(frozen=True)
class SharedEdge:
    """An edge that two pages share: its name, and the middle of its match mark on the sheet in mm."""

    name: str
    first: Page
    second: Page
    x: float
    y: float

    @property
    def beside(self) -> bool:
        """Whether the second page lies beside the first, not below it."""
        return self.first.row == self.second.row


@dataclass(frozen=True)
class Grid:
    """The sheet's pages in reading order; pages that no piece touches are left out.

    `cut` is whether pages are cut and put together at all: where every piece lies whole on one page, they are not.
    """

    paper: Paper
    pages: tuple[Page, ...]
    shared_edges: tuple[SharedEdge, ...]
    assembly: Assembly = "overlap"

    @cached_property
    def by_place(self) -> dict[tuple[int, int], Page]:
        """Each page by its row and column."""
        return {(page.row, page.column): page for page in self.pages}

    @property
    def shape(self) -> tuple[int, int]:
        """How many columns and rows there are."""
        return max(t.column for t in self.pages) + 1, max(t.row for t in self.pages) + 1

    def corner(self, page: Page) -> tuple[float, float]:
        """Where the page's printed area begins on the sheet, in mm."""
        return page.column * self.paper.live[0], page.row * self.paper.live[1]

    def area(self, page: Page) -> Any:
        """What the page shows of the sheet, as a shapely shape."""
        import shapely

        x, y = self.corner(page)
        return shapely.box(x, y, x + self.paper.live[0], y + self.paper.live[1])

    @property
    def cut(self) -> bool:
        """Whether pages are cut and put together: not where there is one, or every piece lies whole on its own."""
        return bool(self.shared_edges)

    def neighbour(self, page: Page, down: int, right: int) -> Page | None:
        """The page that shares an edge with another, so many rows below and columns beside it."""
        other = self.by_place.get((page.row + down, page.column + right))
        pair = {page, other}
        return other if any({shared.first, shared.second} == pair for shared in self.shared_edges) else None


def grid(
    drawing: Drawing, paper: Paper, first_number: int, assembly: Assembly = "overlap", apart: bool = False
) -> Grid:
    """The pages that a drawing needs, numbered from `first_number`, and the edges that they share.

    Pages that may stay `apart` share an edge only where a piece lies across it.
    """
    import shapely

    wide, tall = paper.live
    needed = shapely.union_all([shapely.Polygon(ring) for ring in drawing.areas] or [_everything(drawing)])
    shapely.prepare(needed)
    columns, rows = (
        max(1, math.ceil(side / step - _HAIR))
        for side, step in zip((drawing.width, drawing.height), paper.live, strict=True)
    )
    places = [
        (row, column)
        for row in range(rows)
        for column in range(columns)
        if needed.intersects(shapely.box(column * wide, row * tall, (column + 1) * wide, (row + 1) * tall))
    ]
    crowd = Crowd(drawing)
    pages = tuple(Page(row, column, first_number + k) for k, (row, column) in enumerate(places))
    whole = Grid(paper, pages, _shared_edges(Grid(paper, pages, ()), crowd), assembly)
    whole = replace(whole, shared_edges=_crossed(drawing, whole)) if apart else whole
    corners = _free_corners(places, paper, crowd, whole.shared_edges)
    return _changed(whole, {page: replace(page, number_at=at) for page, at in zip(pages, corners, strict=True)})


def numbered_from(found: Grid, first_number: int) -> Grid:
    """The same pages under other numbers."""
    return _changed(found, {page: replace(page, number=first_number + k) for k, page in enumerate(found.pages)})


def _changed(found: Grid, pages: Mapping[Page, Page]) -> Grid:
    """The grid with other pages in the place of its own."""
    shared = (replace(one, first=pages[one.first], second=pages[one.second]) for one in found.shared_edges)
    return replace(found, pages=tuple(pages.values()), shared_edges=tuple(shared))


def _crossed(drawing: Drawing, found: Grid) -> tuple[SharedEdge, ...]:
    """The shared edges that some piece lies across."""
    touched = [_touched(footprint.rings, found) for footprint in drawing.footprints]
    return tuple(
        shared
        for shared in found.shared_edges
        if any(shared.first in pages and shared.second in pages for pages in touched)
    )


def _free_corners(
    places: Sequence[tuple[int, int]], paper: Paper, crowd: Crowd, shared: Sequence[SharedEdge]
) -> list[tuple[float, float] | None]:
    """For each page, by its row and column, where along its upper edge nothing is drawn, its lower one, or anywhere.

    Nor does a match mark stand there.
    """
    wide, tall = paper.live
    across, down = (np.linspace(_INSET, side - _INSET, _NUMBERS) for side in (wide, tall))
    inset = np.array([(a, b) for b in (_INSET, tall - _INSET, *down[1:-1]) for a in across])
    corners = np.array([(column * wide, row * tall) for row, column in places]).reshape(-1, 1, 2) + inset
    free = crowd.around(corners.reshape(-1, 2), _INSET).reshape(-1, len(inset)) == 0
    marks = np.array([(one.x, one.y) for one in shared]).reshape(-1, 2)
    for each, ok in zip(corners, free, strict=True):
        off = np.abs(each[:, None] - marks).max(axis=-1)
        ok &= np.all(off > _MATCH_CLEAR + _DIGITS, axis=1)
    first = [each[int(ok.argmax())] if ok.any() else None for each, ok in zip(corners, free, strict=True)]
    return [None if spot is None else (float(spot[0]), float(spot[1])) for spot in first]


def _everything(drawing: Drawing) -> Any:
    import shapely

    return shapely.box(0, 0, drawing.width, drawing.height)


def pages_by_size(drawing: Drawing, found: Grid) -> dict[str, list[int]]:
    """The numbers of the pages that each size needs, in order."""
    return {
        size: sorted(
            {page.number for footprint in drawing.footprints for page in _touched(footprint.by_size[k], found)}
        )
        for k, size in enumerate(drawing.sizes)
    }


_LITTLE = 0.1
"""Of a page: less than this may be drawn by hand instead."""


def little_used(drawing: Drawing, found: Grid) -> list[int]:
    """The numbers of the pages of which pieces and their words cover less than a tenth."""
    import shapely

    covered = shapely.union_all([shapely.Polygon(ring) for ring in drawing.areas])
    areas = shapely.area(shapely.intersection(covered, np.array([found.area(page) for page in found.pages])))
    most = _LITTLE * found.paper.live[0] * found.paper.live[1]
    return [page.number for page, area in zip(found.pages, areas, strict=True) if 0 < area < most]


def pieces_by_page(drawing: Drawing, found: Grid) -> dict[Page, list[str]]:
    """The names of the pieces that each page shows."""
    names: dict[Page, list[str]] = {page: [] for page in found.pages}
    for footprint in drawing.footprints:
        for page in _touched(footprint.rings, found) if footprint.name else ():
            names[page].append(footprint.name)
    return names


def _touched(rings: Sequence[Floats], found: Grid) -> set[Page]:
    """The pages that rings `(n, 2)` touch: of those that the box about each reaches."""
    import shapely

    touched = set()
    for ring in rings:
        (left, top), (right, bottom) = (
            end / np.array(found.paper.live) for end in (ring.min(axis=0), ring.max(axis=0))
        )
        shape = shapely.Polygon(ring)
        shapely.prepare(shape)
        for row in range(math.floor(top - _HAIR), math.floor(bottom + _HAIR) + 1):
            for column in range(math.floor(left - _HAIR), math.floor(right + _HAIR) + 1):
                page = found.by_place.get((row, column))
                if page and shape.intersects(found.area(page)):
                    touched.add(page)
    return touched


def least_pages(drawing: Drawing, paper: Paper) -> int:
    """No packing needs fewer pages than this: the area of the pieces over the printed area of a page."""
    import shapely

    area: float = sum(
        shapely.union_all([shapely.Polygon(ring) for ring in footprint.rings]).area for footprint in drawing.footprints
    )
    return max(1, math.ceil(area / (paper.live[0] * paper.live[1]) - _HAIR))


def _shared_edges(found: Grid, crowd: Crowd) -> tuple[SharedEdge, ...]:
    (wide, tall), shares = found.paper.live, np.array(_PLACES)
    pairs, spots = [], []
    for page in found.pages:
        x, y = found.corner(page)
        beside, below = (found.by_place.get((page.row + r, page.column + c)) for r, c in ((0, 1), (1, 0)))
        if beside:
            pairs.append((_name(2 * page.row, page.column), page, beside))
            spots.append(np.stack([np.full(len(shares), x + wide), y + tall * shares], axis=1))
        if below:
            pairs.append((_name(2 * page.row + 1, page.column), page, below))
            spots.append(np.stack([x + wide * shares, np.full(len(shares), y + tall)], axis=1))
    crowds = crowd.in_squares(np.concatenate(spots), _MATCH_CLEAR).reshape(-1, len(shares)) if spots else ()
    emptiest = [each[int(around.argmin())] for each, around in zip(spots, crowds, strict=True)]
    return tuple(SharedEdge(*pair, float(x), float(y)) for pair, (x, y) in zip(pairs, emptiest, strict=True))


_LETTERS = "abcdefghjkmnpqrstuvwxyz"


def _name(line: int, place: int) -> str:
    """`a1` for the first edge of the first line of edges; after z comes aa. Seams have capitals; no i, l or o."""
    letters = ""
    line += 1
    while line:
        line, rest = divmod(line - 1, len(_LETTERS))
        letters = _LETTERS[rest] + letters
    return f"{letters}{place + 1}"
