"""The last step of laying out: the whole sheet moved within its slack, so that each size needs few pages.

Of equal places the one where few lines run along the edge of a page: such a line is cut through tape, and shows every
error of the taping.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from itertools import product
from typing import Any

import numpy as np

from draft.base.arrays import Bools, Floats
from draft.paper.drawing.drawing import Footprint, Turn
from draft.paper.pages.packing_rules import Packing

_PLACES = 9
_AIR = 5.0
"""So many mm from the outer frame a line is seen beside it, not on it."""
_NEAR = 6.0
"""A line within this many mm of a page's edge runs along it."""


def nudge(packing: Packing, footprints: Sequence[Footprint], live: tuple[float, float]) -> Packing:
    """The packing moved so that it needs no more pages, and the sizes one by one the fewest.

    Of equals the one with the least of its outlines along the edges of pages, then with the most room around it.
    """
    import shapely

    placed = [(footprint, turn) for footprint, turn in zip(footprints, packing.turns, strict=True)]
    rings = [turn.points(ring) for footprint, turn in placed for ring in footprint.rings]
    shape = shapely.union_all([shapely.Polygon(ring) for ring in rings])
    sheet = packing.columns, packing.rows, live
    tried = _by_worth(shape.bounds, [turn.points(r) for footprint, turn in placed for r in _drawn(footprint)], *sheet)
    count = pages_touched(shape, (0.0, 0.0), *sheet)
    good = [move for move in tried if pages_touched(shape, move, *sheet) <= count] or [(0.0, 0.0)]
    sizes = [_of_size(placed, k) for k in range(len(footprints[0].by_size) if footprints else 0)]
    if len(sizes) > 1:
        needs = [sum(pages_touched(one, move, *sheet) for one in sizes) for move in good]
        good = [good[int(np.argmin(needs))]]  # the first of the least: still the best by worth
    dx, dy = good[0]
    return replace(packing, turns=tuple(Turn(t.quarters, t.dx + dx, t.dy + dy) for t in packing.turns))


def _drawn(footprint: Footprint) -> tuple[Floats, ...]:
    return tuple(ring for size in footprint.by_size for ring in size) or footprint.rings


def _of_size(placed: Sequence[tuple[Footprint, Turn]], size: int) -> Any:
    import shapely

    shape = shapely.union_all(
        [shapely.Polygon(turn.points(ring)) for footprint, turn in placed for ring in footprint.by_size[size]]
    )
    shapely.prepare(shape)
    return shape


def _by_worth(
    box: tuple[float, float, float, float], lines: Sequence[Floats], columns: int, rows: int, live: tuple[float, float]
) -> list[tuple[float, float]]:
    """Moves that keep the box on the sheet, those with few lines along page edges first."""
    left, top, right, bottom = box
    across = _moves(-left, columns * live[0] - right)
    down = _moves(-top, rows * live[1] - bottom)
    x_cost, y_cost = (_along_edges(lines, axis, moves, live[axis]) for axis, moves in ((0, across), (1, down)))

    def worth(at: Sequence[int]) -> tuple[float, float]:
        x, y = across[at[0]], down[at[1]]
        edge = min(x + left, columns * live[0] - right - x, y + top, rows * live[1] - bottom - y)
        return round(float(x_cost[at[0]] + y_cost[at[1]]), -1), -round(float(edge), 3)

    return [(float(across[i]), float(down[j])) for i, j in sorted(product(range(_PLACES), repeat=2), key=worth)]


def _moves(first: float, last: float) -> Floats:
    """Places between two ends, a little inside of them if there is room."""
    air = min(_AIR, (last - first) / 2)
    return np.linspace(first + air, last - air, _PLACES)


def _along_edges(lines: Sequence[Floats], axis: int, moves: Floats, step: float) -> Floats:
    """For each move `(n,)` along an axis, how many mm of the lines run near a page's edge that is square to it."""
    starts = np.concatenate([line[:-1] for line in lines])
    ways = np.concatenate([np.diff(line, axis=0) for line in lines])
    level = np.abs(ways[:, axis]) < 0.1 * np.abs(ways[:, 1 - axis])
    at, length = (starts[level, axis] + ways[level, axis] / 2), np.abs(ways[level, 1 - axis])
    off = np.abs((at + moves[:, None] + step / 2) % step - step / 2)
    return np.asarray((length * (off < _NEAR)).sum(axis=1))


def pages_touched(shape: Any, move: tuple[float, float], columns: int, rows: int, live: tuple[float, float]) -> int:
    """How many pages a moved shape needs."""
    return int(pages_met(shape, move, columns, rows, live).sum())


def pages_met(shape: Any, move: tuple[float, float], columns: int, rows: int, live: tuple[float, float]) -> Bools:
    """Which pages `(rows, columns)` a moved shape needs."""
    import shapely

    shapely.prepare(shape)
    x, y = np.meshgrid(np.arange(columns) * live[0] - move[0], np.arange(rows) * live[1] - move[1])
    return np.asarray(shapely.intersects(shape, shapely.box(x, y, x + live[0], y + live[1])))
