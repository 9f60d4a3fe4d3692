"""Single pieces moved a little where their lines would run in the tape between two pages.

A line within two millimetres of a page's edge is cut together with it, or hidden by the tape. Where a piece has room to
be moved so far that none of its lines do, without another page for any size, it is.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from itertools import product
from typing import Any

import numpy as np

from draft.base.arrays import Floats
from draft.paper.drawing.drawing import Footprint, Turn
from draft.paper.pages.nudge import pages_touched
from draft.paper.pages.packing_rules import Packing

_IN_TAPE = 2.0
"""Lines as near to the edge of a page, mm, lie in the tape."""
_SHORT = 15.0
"""So many mm of lines there are no harm."""
_STEPS = (0.0, 3.0, -3.0, 5.0, -5.0, 8.0, -8.0, 12.0, -12.0)
"""How far a piece is moved either way, mm."""
_APART = 3.0
"""How far pieces stay from one another, mm."""


def pieces_nudged(packing: Packing, footprints: Sequence[Footprint], live: tuple[float, float]) -> Packing:
    """The packing with pieces moved off the edges of pages, as far as there is room."""
    turns = list(packing.turns)
    for number, footprint in enumerate(footprints):
        if lines_in_tape(footprint, turns[number], packing, live) > _SHORT:
            turns[number] = _moved(number, turns, footprints, packing, live)
    return replace(packing, turns=tuple(turns))


def lines_in_tape(footprint: Footprint, turn: Turn, packing: Packing, live: tuple[float, float]) -> float:
    """How many mm of a piece's outlines run along an inner edge of a page, within what is taped."""
    rings = [turn.points(ring) for size in footprint.by_size for ring in size]
    if not rings:
        return 0.0
    starts, ways = np.concatenate([r[:-1] for r in rings]), np.concatenate([np.diff(r, axis=0) for r in rings])
    pages = packing.columns, packing.rows
    return sum(_in_tape(starts, ways, axis, live[axis], pages[axis]) for axis in (0, 1))


def _in_tape(starts: Floats, ways: Floats, axis: int, step: float, count: int) -> float:
    level = np.abs(ways[:, axis]) < 0.1 * np.abs(ways[:, 1 - axis])
    at, length = (starts + ways / 2)[level, axis], np.abs(ways[level, 1 - axis])
    edge = np.clip(np.round(at / step), 1, max(count - 1, 1))
    return float(length[np.abs(at - edge * step) < _IN_TAPE].sum()) if count > 1 else 0.0


def _moved(
    number: int, turns: Sequence[Turn], footprints: Sequence[Footprint], packing: Packing, live: tuple[float, float]
) -> Turn:
    """The nearest place with the least of a piece's lines in tape."""
    import shapely

    placed = [_shape(one, turn) for one, turn in zip(footprints, turns, strict=True)]
    others = shapely.union_all([shape for k, shape in enumerate(placed) if k != number]).buffer(_APART, quad_segs=2)
    pages = _Pages(number, turns, footprints, packing, live)
    now = turns[number]
    best, least = now, lines_in_tape(footprints[number], now, packing, live)
    for dx, dy in sorted(product(_STEPS, repeat=2), key=lambda move: move[0] ** 2 + move[1] ** 2):
        turn = Turn(now.quarters, now.dx + dx, now.dy + dy)
        lines = lines_in_tape(footprints[number], turn, packing, live)
        if lines < least - _SHORT and pages.has_room(_shape(footprints[number], turn), others) and pages.no_more(turn):
            best, least = turn, lines
        if least <= _SHORT:
            break
    return best


class _Pages:
    """The pages that all sizes together need, and each: a piece is not moved where one more would be."""

    def __init__(
        self,
        number: int,
        turns: Sequence[Turn],
        footprints: Sequence[Footprint],
        packing: Packing,
        live: tuple[float, float],
    ) -> None:
        self.number, self.turns, self.footprints = number, turns, footprints
        self.sheet = packing.columns, packing.rows, live
        self.least = self._needed(turns[number])

    def has_room(self, shape: Any, others: Any) -> bool:
        """Whether a piece lies on the sheet there and off all others."""
        left, top, right, low = shape.bounds
        columns, rows, live = self.sheet
        inside = left > 0 and top > 0 and right < columns * live[0] and low < rows * live[1]
        return inside and not shape.intersects(others)

    def no_more(self, turn: Turn) -> bool:
        """Whether no size needs another page if the piece lies so."""
        return all(new <= old for new, old in zip(self._needed(turn), self.least, strict=True))

    def _needed(self, turn: Turn) -> list[int]:
        import shapely

        turns = [turn if k == self.number else other for k, other in enumerate(self.turns)]
        both = list(zip(self.footprints, turns, strict=True))
        sizes = range(len(self.footprints[0].by_size))
        by_size = [
            [shapely.Polygon(at.points(ring)) for one, at in both if one.by_size for ring in one.by_size[size]]
            for size in sizes
        ]
        shapes = [shapely.union_all([_shape(one, at) for one, at in both]), *map(shapely.union_all, by_size)]
        return [pages_touched(shape, (0.0, 0.0), *self.sheet) for shape in shapes]


def _shape(footprint: Footprint, turn: Turn) -> Any:
    import shapely

    return shapely.union_all([shapely.Polygon(turn.points(ring)) for ring in footprint.rings])
