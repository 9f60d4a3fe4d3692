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

from draft.base.arrays import Bools, Floats
from draft.paper.drawing.drawing import Footprint, Turn
from draft.paper.pages.nudge import pages_met
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
    taped = [lines_in_tape(one, turn, packing, live) for one, turn in zip(footprints, packing.turns, strict=True)]
    if max(taped, default=0.0) <= _SHORT:
        return packing
    sheet = _Sheet(footprints, packing, live)
    for number in np.flatnonzero(np.array(taped) > _SHORT).tolist():
        sheet.move(number)
    return replace(packing, turns=tuple(sheet.turns))


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


class _Sheet:
    """All pieces as they lie: the shape of each, that with what stays free about it, and the pages that it needs."""

    def __init__(self, footprints: Sequence[Footprint], packing: Packing, live: tuple[float, float]) -> None:
        self.turns = list(packing.turns)
        self._footprints, self._packing, self._live = footprints, packing, live
        self._kept_off = np.empty(len(footprints), dtype=object)
        self._sizes = len(footprints[0].by_size)
        self._needs = np.stack([self._pages(number, turn) for number, turn in enumerate(self.turns)])
        for number, turn in enumerate(self.turns):
            self._kept_off[number] = _shape(footprints[number], turn).buffer(_APART, quad_segs=2)

    def move(self, number: int) -> None:
        """Move a piece to the nearest place with the least of its lines in tape."""
        footprint, now = self._footprints[number], self.turns[number]
        best, least = now, lines_in_tape(footprint, now, self._packing, self._live)
        others = np.delete(self._kept_off, number)
        for dx, dy in sorted(product(_STEPS, repeat=2), key=lambda move: move[0] ** 2 + move[1] ** 2):
            turn = Turn(now.quarters, now.dx + dx, now.dy + dy)
            lines = lines_in_tape(footprint, turn, self._packing, self._live)
            if (
                lines < least - _SHORT
                and self._has_room(_shape(footprint, turn), others)
                and self._no_more(number, self._pages(number, turn))
            ):
                best, least = turn, lines
            if least <= _SHORT:
                break
        if best is not now:
            self.turns[number], self._needs[number] = best, self._pages(number, best)
            self._kept_off[number] = _shape(footprint, best).buffer(_APART, quad_segs=2)

    def _has_room(self, shape: Any, others: Any) -> bool:
        """Whether a piece lies on the sheet there and off all others."""
        import shapely

        left, top, right, low = shape.bounds
        wide, tall = self._packing.columns * self._live[0], self._packing.rows * self._live[1]
        return left > 0 and top > 0 and right < wide and low < tall and not shapely.intersects(others, shape).any()

    def _no_more(self, number: int, pages: Bools) -> bool:
        """Whether no size needs another page, nor all together, if a piece needs these `(1 + sizes, rows, columns)`."""
        others = np.delete(self._needs, number, axis=0).any(axis=0)
        old, new = ((others | one).sum(axis=(1, 2)) for one in (self._needs[number], pages))
        return bool((new <= old).all())

    def _pages(self, number: int, turn: Turn) -> Bools:
        """The pages that a piece needs so, in any size and in each: `(1 + sizes, rows, columns)`."""
        import shapely

        one, packing = self._footprints[number], self._packing
        found = np.zeros((1 + self._sizes, packing.rows, packing.columns), dtype=bool)
        sized = [[shapely.Polygon(turn.points(ring)) for ring in rings] for rings in one.by_size[: self._sizes]]
        for size, shapes in enumerate([[_shape(one, turn)], *sized]):
            for shape in shapes:
                found[size] |= pages_met(shape, (0.0, 0.0), packing.columns, packing.rows, self._live)
        return found


def _shape(footprint: Footprint, turn: Turn) -> Any:
    import shapely

    return shapely.union_all([shapely.Polygon(turn.points(ring)) for ring in footprint.rings])
