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

    def has_room(self, width: float, height: float) -> bool:
        """Whether any rectangle of this size is free: if it is, so are all smaller ones."""
        free = self._free(width, height)
        return free is not None and bool(free.any())

    def place(self, width: float, height: float, near: tuple[float, float]) -> tuple[float, float] | None:
        """The middle of the free rectangle nearest to a point, or None."""
        return next(self.places(width, height, near, 1), None)

    def places(
        self, width: float, height: float, near: tuple[float, float], most: int
    ) -> Iterator[tuple[float, float]]:
        """Middles of so many free rectangles, nearest to a point first, each half a rectangle apart of all before."""
        free = self._free(width, height)
        if free is None:
            return
        rows, columns = np.nonzero(free)
        wide, high = self._cells(width), self._cells(height)
        middles = self.origin + self.cell * np.stack([columns + wide / 2, rows + high / 2], axis=-1)
        away = np.round(np.sum((middles - self.turn @ np.array(near)) ** 2, axis=1), 3)
        if most > 1:
            order = np.argsort(away, kind="stable")
            half = self._cells(height / 2), self._cells(width / 2)
            chosen: Iterator[int] = islice(_apart(rows[order], columns[order], half, free.shape), most)
        else:
            order = np.array([int(np.argmin(away))] if len(away) else [], dtype=np.intp)
            chosen = iter(range(len(order)))
        for number in chosen:
            x, y = (middles[order[number]] @ self.turn).tolist()
            yield x, y

    @cached_property
    def _sums(self) -> Ints:
        """How many free cells lie above and left of each corner."""
        rows, columns = self.free.shape
        sums = np.zeros((rows + 1, columns + 1), dtype=np.int32)
        np.cumsum(self.free, axis=0, dtype=np.int32, out=sums[1:, 1:])
        np.cumsum(sums[1:, 1:], axis=1, out=sums[1:, 1:])
        return sums

    def _cells(self, length: float) -> int:
        """So many cells a length reaches over."""
        return int(np.ceil(length / self.cell))

    def _free(self, width: float, height: float) -> Bools | None:
        """Whether the rectangle from each cell on is free; None if it is larger than the grid."""
        wide, high = self._cells(width), self._cells(height)
        s = self._sums
        if high >= s.shape[0] or wide >= s.shape[1]:
            return None
        rows_of = s[high:] - s[:-high]
        return np.asarray(rows_of[:, wide:] - rows_of[:, :-wide] == wide * high)


def _turn(angle: float) -> Floats:
    """What takes paper to a grid at an angle in degrees, clockwise: `(2, 2)`."""
    a = np.radians(angle)
    return np.array([[np.cos(a), np.sin(a)], [-np.sin(a), np.cos(a)]])


def _apart(rows: Ints, columns: Ints, half: tuple[int, int], shape: tuple[int, int]) -> Iterator[int]:
    """The numbers of those cells that lie `half` a rectangle apart of all before them: looked at as asked for."""
    near = np.zeros(shape, dtype=bool)
    flat, (high, wide) = near.reshape(-1), half
    cells = rows * shape[1] + columns
    for begin in range(0, len(cells), _LOOKED_AT):
        some = cells[begin : begin + _LOOKED_AT]
        for number in (begin + np.flatnonzero(~flat[some])).tolist():
            if not flat[cells[number]]:
                yield number
                row, column = rows[number], columns[number]
                near[max(row - high + 1, 0) : row + high, max(column - wide + 1, 0) : column + wide] = True
