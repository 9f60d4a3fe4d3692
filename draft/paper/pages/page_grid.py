"""A sheet cut into printed pages: which pages there are, which edges they share, and which pages each size needs.

Every shared edge has a name of its own, so that no wrong neighbour fits: the letter tells the line of edges down the
sheet and the number the place in that line.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from typing import Any, Literal, TypeAlias

from draft.base.arrays import Floats
from draft.geometry.flatten import polyline
from draft.paper.drawing.drawing import Drawing, Label
from draft.paper.drawing.papers import Paper
from draft.paper.drawing.room import label_spot

Assembly: TypeAlias = Literal["overlap", "butt"]
"""How pages are put together: two edges of each are cut and laid over its neighbours, or all are cut and meet."""

MATCH_RADIUS = 6.5
"""Radius of a match mark, in mm: its name fits in each half."""
_MATCH_CLEAR = MATCH_RADIUS * 1.2 * 2**0.5 + 0.5
"""So far from the middle of a match mark, in mm, nothing should be drawn: to its box's corner, and a little air."""
_PLACES = tuple(0.5 + 0.035 * step * side for step in range(12) for side in ((1, -1) if step else (1,)))
"""Where along a shared edge its match mark may stand, the middle first: it goes where the least is drawn."""
_MANY = 1000  # a line under a match mark still shows, a word does not
_INSET = 6.0
"""From the corner of a page's printed area to its number, in mm."""
_HAIR = 1e-6  # a sheet that is larger than its pages by rounding alone needs no further page


@dataclass(frozen=True)
class Page:
    """One printed page of the sheet, by row and column from 0, and its page number.

    `number_at` is where on the sheet its number may stand so that it covers nothing, in mm; None if no corner is free.
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
    pages = tuple(
        Page(row, column, first_number + k, _free_corner(column * wide, row * tall, paper, crowd))
        for k, (row, column) in enumerate(places)
    )
    whole = Grid(paper, pages, _shared_edges(Grid(paper, pages, ()), crowd), assembly)
    return (
        replace(whole, shared_edges=tuple(j for j in whole.shared_edges if _crossed(j, drawing, whole)))
        if apart
        else whole
    )


def _crossed(shared: SharedEdge, drawing: Drawing, found: Grid) -> bool:
    return any(
        _touches([footprint.rings], found, shared.first) and _touches([footprint.rings], found, shared.second)
        for footprint in drawing.footprints
    )


def _free_corner(x: float, y: float, paper: Paper, crowd: Crowd) -> tuple[float, float] | None:
    wide, tall = paper.live
    corners = [(x + a, y + b) for b in (_INSET, tall - _INSET) for a in (_INSET, wide - _INSET)]
    return next((corner for corner in corners if not crowd.around(corner, _INSET)), None)


def _everything(drawing: Drawing) -> Any:
    import shapely

    return shapely.box(0, 0, drawing.width, drawing.height)


def pages_by_size(drawing: Drawing, found: Grid) -> dict[str, list[int]]:
    """The numbers of the pages that each size needs, in order."""
    return {
        size: [
            page.number
            for page in found.pages
            if _touches([footprint.by_size[k] for footprint in drawing.footprints], found, page)
        ]
        for k, size in enumerate(drawing.sizes)
    }


def pieces_on(drawing: Drawing, found: Grid, page: Page) -> list[str]:
    """The names of the pieces that a page shows."""
    return [
        footprint.name
        for footprint in drawing.footprints
        if footprint.name and _touches([footprint.rings], found, page)
    ]


def _touches(shapes: Sequence[Sequence[Floats]], found: Grid, page: Page) -> bool:
    import shapely

    area = found.area(page)
    return any(area.intersects(shapely.Polygon(ring)) for rings in shapes for ring in rings)


def least_pages(drawing: Drawing, paper: Paper) -> int:
    """No packing needs fewer pages than this: the area of the pieces over the printed area of a page."""
    import shapely

    area: float = sum(
        shapely.union_all([shapely.Polygon(ring) for ring in footprint.rings]).area for footprint in drawing.footprints
    )
    return max(1, math.ceil(area / (paper.live[0] * paper.live[1]) - _HAIR))


class Crowd:
    """What is drawn on the sheet, for finding where it is empty."""

    def __init__(self, drawing: Drawing) -> None:
        import shapely

        items = list(drawing.items())
        self._words = shapely.STRtree([label_spot(item).shape() for item in items if isinstance(item, Label)])
        runs = (run for item in items if not isinstance(item, Label) for run in item.runs)
        self._lines = shapely.STRtree([shapely.LineString(polyline(run)) for run in runs])

    def around(self, spot: tuple[float, float], radius: float) -> int:
        """How much comes within `radius` mm of a point: lines, and words, each of which counts for many lines."""
        import shapely

        counts = (
            len(tree.query(shapely.Point(spot), predicate="dwithin", distance=radius))
            for tree in (self._lines, self._words)
        )
        return next(counts) + _MANY * next(counts)


def _shared_edges(found: Grid, crowd: Crowd) -> tuple[SharedEdge, ...]:
    wide, tall = found.paper.live
    shared_edges = []
    for page in found.pages:
        x, y = found.corner(page)
        beside, below = (found.by_place.get((page.row + r, page.column + c)) for r, c in ((0, 1), (1, 0)))
        if beside:
            spots = [(x + wide, y + tall * share) for share in _PLACES]
            shared_edges.append(SharedEdge(_name(2 * page.row, page.column), page, beside, *_emptiest(spots, crowd)))
        if below:
            spots = [(x + wide * share, y + tall) for share in _PLACES]
            shared_edges.append(SharedEdge(_name(2 * page.row + 1, page.column), page, below, *_emptiest(spots, crowd)))
    return tuple(shared_edges)


def _emptiest(spots: Sequence[tuple[float, float]], crowd: Crowd) -> tuple[float, float]:
    return min(spots, key=lambda spot: crowd.around(spot, _MATCH_CLEAR))


def _name(line: int, place: int) -> str:
    """`A1` for the first edge of the first line of edges; after Z comes AA."""
    letters = ""
    line += 1
    while line:
        line, rest = divmod(line - 1, 26)
        letters = chr(ord("A") + rest) + letters
    return f"{letters}{place + 1}"
