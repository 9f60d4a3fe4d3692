"""Laying many pieces on pages: down a strip some pages wide, the width that takes the fewest pages.

Tables of every two pieces wherever they may lie on a whole sheet grow with the square of both; of a coat they are too
many. By columns a strip of pages is filled from its top, each piece as far up as it will go in a quarter turn of it.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

import numpy as np

from draft.base.arrays import Floats
from draft.base.record import dataclass
from draft.geometry.column_profile import UNIT, Columns, by_columns
from draft.geometry.ground import Clearances, Page, Place
from draft.geometry.in_order import InOrder, Kind, Laid
from draft.paper.drawing.drawing import Turn

_STEP = 5.0
"""About how wide a column is, mm: a page has some forty."""
_SHARE = 0.8
"""Of pages laid full so much is piece, about."""
_BROADER = (0.7, 0.85, 1.0, 1.2)
"""Strips tried, as wide as a square of all pages times this."""
_BETTERED = 1_200
"""Pieces laid again in other orders, on the best strip."""


@dataclass(frozen=True)
class _Way:
    """A piece in one quarter turn, grown by half of what lies between two: its columns, and where they begin, mm."""

    turn: int
    columns: Columns
    corner: Floats


class _Strip:
    """The pieces on a strip some pages wide."""

    def __init__(
        self,
        ways: Sequence[Sequence[_Way]],
        areas: Sequence[float],
        clear: Clearances,
        page: Page,
        whole: Sequence[int],
    ) -> None:
        flat = iter(clear.numbers([(way.columns, False) for each in ways for way in each]))
        self.ways = [{next(flat): way for way in each} for each in ways]
        self.page = replace(page, whole=frozenset(shape for number in whole for shape in self.ways[number]))
        self.kinds = [Kind(tuple(each), 1, area) for each, area in zip(self.ways, areas, strict=True)]

    def pages(self, laid: Laid) -> int:
        """How many pages the places touch."""
        touched = {page for kind, place in zip(laid.order, laid.places, strict=True) for page in self._on(kind, place)}
        return len(touched)

    def _on(self, kind: int, place: Place) -> Iterator[tuple[int, int]]:
        columns, wide = self.ways[kind][place.shape].columns, self.page.columns
        for across in range(place.column // wide, (place.column + len(columns) - 1) // wide + 1):
            part = slice(max(across * wide - place.column, 0), (across + 1) * wide - place.column)
            first = int((place.height + columns.low[part].min()) * UNIT // self.page.height)
            last = int(((place.height + columns.high[part].max()) * UNIT - 0.01) // self.page.height)
            yield from ((across, down) for down in range(first, last + 1))


def lay_many(
    pieces: Sequence[Sequence[Floats]],
    live: tuple[float, float],
    gap: float,
    upright: Sequence[int] = (),
    whole: Sequence[int] = (),
    roll: bool = False,
) -> tuple[list[Turn], int, int]:
    """How each piece, by its rings `(n, 2)` in mm, is turned and moved, and the columns and rows of pages.

    `live` is the printed area of a page in mm, and `gap` lies between two pieces. `upright` and `roll` as in the rules
    of a packing, and `whole` are the pieces that cross no edge of a page that they fit on.
    """
    count = max(round(live[0] / _STEP), 4)
    step = live[0] / count
    ways = [_ways(rings, step, gap, number in upright) for number, rings in enumerate(pieces)]
    areas = [float(np.sum(each[0].columns.high - each[0].columns.low)) * step * UNIT for each in ways]
    clear = Clearances()
    strip = _Strip(ways, areas, clear, Page(count, live[1]), whole)
    broad = [1] if roll else _broad(ways, sum(areas) / (live[0] * live[1]), count)
    strips = [InOrder(strip.kinds, across * count, step, clear, strip.page) for across in broad]
    laid = [(order, order.start) for order in strips if order.start]
    if not laid:  # some piece is wider than every strip that was tried
        widest = -(-max(len(way.columns) for each in ways for way in each) // count)
        order = InOrder(strip.kinds, widest * count, step, clear, strip.page)
        laid = [(order, start) for start in (order.start,) if start]
    order, start = min(laid, key=lambda one: (strip.pages(one[1]), one[1].length))
    best = min((start, order.bettered(start, _BETTERED)), key=lambda one: (strip.pages(one), one.length))
    turns = {kind: _turn(strip.ways[kind][p.shape], p, step) for kind, p in zip(best.order, best.places, strict=True)}
    reached = max(p.column + len(clear.shapes[p.shape]) for p in best.places)
    return [turns[k] for k in range(len(pieces))], -(-reached // count), int(np.ceil((best.length - 0.01) / live[1]))


def _ways(rings: Sequence[Floats], step: float, gap: float, upright: bool) -> list[_Way]:
    import shapely

    shape = shapely.union_all([shapely.Polygon(ring) for ring in rings]).buffer(gap / 2, quad_segs=4)
    points = [shapely.get_coordinates(part.exterior)[:-1] for part in shapely.get_parts(shape)]
    found = []
    for quarters in range(1 if upright else 4):
        turned = [Turn(quarters).points(ring) for ring in points]
        corner = np.min([ring.min(axis=0) for ring in turned], axis=0)
        found.append(_Way(quarters, _joined([ring - corner for ring in turned], step), corner))
    return list({way.columns.key: way for way in reversed(found)}.values())[::-1]


def _joined(rings: Sequence[Floats], step: float) -> Columns:
    """The columns of several rings `(n, 2)` as if they were one shape."""
    return by_columns(np.concatenate(rings), step) if len(rings) == 1 else _over(rings, step)


def _over(rings: Sequence[Floats], step: float) -> Columns:
    import shapely

    hull = shapely.convex_hull(shapely.multipoints(np.concatenate(rings)))
    return by_columns(shapely.get_coordinates(hull.exterior)[:-1], step)


def _broad(ways: Sequence[Sequence[_Way]], full: float, count: int) -> list[int]:
    """Widths of strips to try, in pages, for pieces that fill so many pages."""
    side = np.sqrt(full / _SHARE)
    least = max(-(-min(len(way.columns) for way in each) // count) for each in ways)
    return sorted({max(least, round(side * share), 1) for share in _BROADER})


def _turn(way: _Way, place: Place, step: float) -> Turn:
    x, y = np.array([place.column * step, place.height * UNIT]) - way.corner
    return Turn(way.turn, float(x), float(y))
