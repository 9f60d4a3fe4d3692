"""A shape as the cells of a grid, turned to an angle: where rectangles have room in it, quickly asked.

What is taken out of a shape are cells taken off its grid, and a quarter turn of a grid is the same cells read another
way: neither asks shapely for the shape again.
"""

from __future__ import annotations

from collections.abc import Iterator
from functools import cached_property
from itertools import islice
from typing import Any

import numpy as np

from draft.base.arrays import Bools, Floats, Ints
from draft.base.record import dataclass
from draft.paper.drawing.polygons import mask, rings_of

_MOST_CELLS = 1_000_000
"""A long thin piece at a slant lies on a wide grid: its cells are coarser then."""
_LOOKED_AT = 256
"""Of places in their order so many are looked at at a time."""
_COVERS = 0.75
"""A disc of so many cells about its middle covers a whole cell: one that counts is wholly inside."""


@dataclass(frozen=True)
class Grid:
    """The cells `(rows, columns)` that are free, from `origin` `(2,)` on; `turn` `(2, 2)` takes paper to the grid."""

    free: Bools
    origin: Floats
    cell: float
    turn: Floats

    @classmethod
    def of(cls, shape: Any, angle: float, cell: float) -> Grid:
        """The cells of a shapely shape at an angle in degrees, clockwise, about `cell` mm wide."""
        turn = _turn(angle)
        outer = rings_of(shape)
        if outer:  # what is left of a shape may be a line
            sides = np.ptp(np.concatenate(outer) @ turn.T, axis=0)
            cell = max(cell, float(np.sqrt(np.prod(sides) / _MOST_CELLS)))
        rings = [ring @ turn.T for ring in rings_of(shape.buffer(-_COVERS * cell, quad_segs=2))] if outer else []
        if not rings:
            return cls(np.zeros((1, 1), dtype=bool), np.zeros(2), cell, turn)
        both = np.concatenate(rings)
        origin = both.min(axis=0) - cell
        columns, rows = np.ceil((both.max(axis=0) - origin) / cell).astype(int) + 1
        return cls(mask(rings, origin, (cell, cell), (rows, columns)), origin, cell, turn)

    def turned(self, angle: float, quarters: int) -> Grid:
        """The same cells at an angle that is so many quarter turns on."""
        rows, columns = self.free.shape
        (left, low), (right, high) = self.origin, self.origin + self.cell * np.array([columns, rows])
        begins = ((left, low), (low, -right), (-right, -high), (-high, left))
        return Grid(np.rot90(self.free, quarters % 4), np.array(begins[quarters % 4]), self.cell, _turn(angle))

    def without(self, taken: Any, about: float = 0.0) -> Grid:
        """The cells that touch no part of a shapely shape, nor come nearer to it than so many mm."""
        rings = [ring @ self.turn.T for ring in rings_of(taken.buffer(about + _COVERS * self.cell, quad_segs=2))]
        if not rings:
            return self
        both = np.concatenate(rings)
        first = np.floor((both.min(axis=0) - self.origin) / self.cell).astype(int)
        last = np.ceil((both.max(axis=0) - self.origin) / self.cell).astype(int)
        (left, low), (right, high) = np.maximum(first, 0), np.minimum(last, self.free.shape[::-1])
        if left >= right or low >= high:
            return self
        free, cells = self.free.copy(), (self.cell, self.cell)
        begin = self.origin + self.cell * np.array([left, low])
        free[low:high, left:right] &= ~mask(rings, begin, cells, (int(high - low), int(right - left)))
        return Grid(free, self.origin, self.cell, self.turn)

    def place(self, width: float, height: float, near: tuple[float, float]) -> tuple[float, float] | None:
        """The middle of the free rectangle nearest to a point, or None."""
        return next(self.places(width, height, near, 1), None)

    def places(
        self, width: float, height: float, near: tuple[float, float], most: int
    ) -> Iterator[tuple[float, float]]:
        """Middles of so many free rectangles, nearest to a point first, each half a rectangle apart of all before."""
        middles = self._middles(width, height)
        away = np.round(np.sum((middles - self.turn @ np.array(near)) ** 2, axis=1), 3)
        if most > 1:
            middles = middles[np.argsort(away, kind="stable")]
        elif len(away):
            middles = middles[int(np.argmin(away))][None]
        for best in islice(_apart(middles, np.array([width, height]) / 2), most):
            x, y = best @ self.turn
            yield float(x), float(y)

    @cached_property
    def _sums(self) -> Ints:
        """How many free cells lie above and left of each corner."""
        rows, columns = self.free.shape
        sums = np.zeros((rows + 1, columns + 1), dtype=np.int32)
        np.cumsum(self.free, axis=0, dtype=np.int32, out=sums[1:, 1:])
        np.cumsum(sums[1:, 1:], axis=1, out=sums[1:, 1:])
        return sums

    def _middles(self, width: float, height: float) -> Floats:
        """Of all free rectangles, `(n, 2)` on the turned grid."""
        wide, high = int(np.ceil(width / self.cell)), int(np.ceil(height / self.cell))
        s = self._sums
        if high >= s.shape[0] or wide >= s.shape[1]:
            return np.zeros((0, 2))
        rows_of = s[high:] - s[:-high]
        rows, columns = np.nonzero(rows_of[:, wide:] - rows_of[:, :-wide] == wide * high)
        return np.asarray(self.origin + self.cell * np.stack([columns + wide / 2, rows + high / 2], axis=-1))


def _turn(angle: float) -> Floats:
    """What takes paper to a grid at an angle in degrees, clockwise: `(2, 2)`."""
    a = np.radians(angle)
    return np.array([[np.cos(a), np.sin(a)], [-np.sin(a), np.cos(a)]])


def _apart(middles: Floats, half: Floats) -> Iterator[Floats]:
    """Those of middles `(n, 2)` that lie `half` a rectangle `(2,)` apart of all before them: looked at as asked for."""
    found = list[Floats]()
    for begin in range(0, len(middles), _LOOKED_AT):
        some = middles[begin : begin + _LOOKED_AT]
        if found:
            some = some[np.any(np.abs(some[:, None] - np.array(found)) >= half, axis=2).all(axis=1)]
        while len(some):
            found.append(some[0])
            yield some[0]
            some = some[(np.abs(some - found[-1]) >= half).any(axis=1)]
