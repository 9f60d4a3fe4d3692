"""Pieces as cells of a grid, and tables of what a piece touches wherever it is put: looked up, never worked out twice.

The table of a piece and something else tells for every offset of the piece from it whether the two meet. What is asked
of a whole sheet is then a few slices of such tables, one on the other.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import cached_property
from typing import Any

import numpy as np
from numpy.typing import NDArray

from draft.base.arrays import Bools, Floats
from draft.base.record import dataclass
from draft.paper.drawing.drawing import Turn
from draft.paper.drawing.polygons import mask

Counts = NDArray[np.uint8] | NDArray[np.int16] | NDArray[np.int32]

_KEPT = 8e6
"""Bytes of transforms that are kept."""
_FINER = 4  # pieces are sampled so many times finer than a cell, and a cell counts if any of its samples does


@dataclass(frozen=True, eq=False)
class GridPiece:
    """A piece in one quarter turn, and which cells it touches."""

    turn: Turn
    cells: Bools

    @cached_property
    def area(self) -> int:
        """In cells."""
        return int(self.cells.sum())

    @property
    def shape(self) -> tuple[int, int]:
        """Rows and columns of cells."""
        return self.cells.shape[0], self.cells.shape[1]


@dataclass(frozen=True, eq=False)
class Table:
    """Whether a piece meets something at each offset from it; `first` is the least offset, down and right, in cells.

    It is kept as what is added to counts, or put in their place, which needs no casting each time.
    """

    meets: Counts
    first: tuple[int, int]

    def at(self, row: int, column: int) -> bool:
        """Whether they meet where the piece lies so far below and to the right of it."""
        i, j = row - self.first[0], column - self.first[1]
        return 0 <= i < self.meets.shape[0] and 0 <= j < self.meets.shape[1] and bool(self.meets[i, j])

    def seen_from_the_other(self) -> Table:
        """The same table by the offsets of the other thing from the piece."""
        last = (self.first[k] + self.meets.shape[k] - 1 for k in (0, 1))
        return Table(self.meets[::-1, ::-1], (-next(last), -next(last)))

    def on(self, places: Counts, row: int, column: int) -> tuple[Counts, Any]:
        """Of an array `(rows, columns)` over the piece's places, the part that is near something at `row`, `column`.

        The table there comes with it, of the same shape.
        """
        top, left = row + self.first[0], column + self.first[1]
        bottom, right = top + self.meets.shape[0], left + self.meets.shape[1]
        a, b = max(top, 0), max(left, 0)
        part = places[a : max(a, bottom), b : max(b, right)]
        return part, self.meets[a - top : a - top + part.shape[0], b - left : b - left + part.shape[1]]


def grid_pieces(rings: Sequence[Floats], cell: Floats, upright: bool) -> list[GridPiece]:
    """A piece of rings `(n, 2)` in its quarter turns, each once; `cell` `(2,)` is a cell's width and height in mm."""
    found: list[GridPiece] = []
    for quarters in range(1 if upright else 4):
        turned = _grid_piece(rings, cell, quarters)
        if not any(np.array_equal(turned.cells, other.cells) for other in found):
            found.append(turned)
    return found


def _grid_piece(rings: Sequence[Floats], cell: Floats, quarters: int) -> GridPiece:
    turned = [Turn(quarters).points(ring) for ring in rings]
    points, fine = np.concatenate(turned), cell / _FINER
    corner = points.min(axis=0) - fine
    columns, rows = np.ceil((points.max(axis=0) + fine - corner) / cell).astype(int)
    inside = mask(turned, corner, (fine[0], fine[1]), (rows * _FINER, columns * _FINER))
    grown = any_in_windows(np.pad(inside, 1), 3, 3)  # what lies between two samples counts too
    cells = np.asarray(grown.reshape(rows, _FINER, columns, _FINER).any(axis=(1, 3)))
    return GridPiece(Turn(quarters, float(-corner[0]), float(-corner[1])), cells)


def with_page(piece: GridPiece, tall: int, wide: int, of: np.dtype[Any]) -> Table:
    """A piece and a page of so many cells, for counts of a type of numbers."""
    rows, columns = piece.shape
    around = np.pad(piece.cells, ((tall - 1, tall - 1), (wide - 1, wide - 1)))
    meets = any_in_windows(around, tall, wide)[::-1, ::-1]
    return Table(np.ascontiguousarray(meets, dtype=of), (1 - rows, 1 - columns))


def cells_by_page(piece: GridPiece, row: int, column: int, tall: int, wide: int) -> NDArray[np.int32]:
    """How many cells of a piece lie on each page it reaches, from the page that its top left corner is on.

    That corner lies `row` and `column` cells below and to the right of the page's own.
    """
    height, width = piece.shape
    rows, columns = (
        np.clip(np.arange(-at, size, step), 0, None) for at, size, step in ((row, height, tall), (column, width, wide))
    )
    counted = np.add.reduceat(piece.cells.astype(np.int32), rows, axis=0)
    return np.asarray(np.add.reduceat(counted, columns, axis=1))


class Waves:
    """Pieces and how they meet one another, by Fourier transforms that are kept: each piece has many neighbours."""

    def __init__(self) -> None:
        self._kept: dict[tuple[int, bool, tuple[int, int]], NDArray[np.complexfloating[Any, Any]]] = {}
        self._room = _KEPT

    def with_piece(self, piece: GridPiece, other: GridPiece, taken: np.uint8 | np.int16 | np.int32) -> Table:
        """A piece and another one, with a cell between them; `taken` stands in the table where they meet."""
        rows, columns = (a + b + 1 for a, b in zip(piece.shape, other.shape, strict=True))
        room = _quick(rows), _quick(columns)
        waves = self._of(piece, True, room) * self._of(other, False, room)
        shared = np.fft.irfft2(waves, s=room)[:rows, :columns] > 0.5
        return Table(np.where(shared, taken, taken.dtype.type(0)), (-piece.shape[0], -piece.shape[1]))

    def _of(self, piece: GridPiece, spaced: bool, room: tuple[int, int]) -> NDArray[np.complexfloating[Any, Any]]:
        """Of a piece as it lies, or `spaced` of one a cell larger all round, the other way about."""
        known = id(piece), spaced, room
        if known not in self._kept:
            cells = any_in_windows(np.pad(piece.cells, 2), 3, 3)[::-1, ::-1] if spaced else piece.cells
            waves = np.fft.rfft2(cells.astype(np.float32), s=room)
            self._room -= waves.nbytes
            if self._room < 0:
                self._kept.clear()
                self._room = _KEPT
            self._kept[known] = waves
        return self._kept[known]


def any_in_windows(cells: Bools, tall: int, wide: int) -> Bools:
    """Whether any of the cells `(rows, columns)` is set in each window of this size, by the window's first corner.

    Gives `(rows - tall + 1, columns - wide + 1)`.
    """
    return _any_along(_any_along(cells, tall, 0), wide, 1)


def _any_along(cells: Bools, size: int, axis: int) -> Bools:
    """Whether any of so many cells one behind the other is set: windows of one, two, four, ... laid over each other."""
    cells, width = np.moveaxis(cells, axis, 0), 1
    while width < size:
        step = min(width, size - width)
        cells, width = cells[:-step] | cells[step:], width + step
    return np.moveaxis(cells, 0, axis)


def _quick(size: int) -> int:
    """A size from here on that a Fourier transform is quick with: one of few, so that transforms serve again."""
    step = 1 << max(2, size.bit_length() - 3)
    rounded = -(-size // step)
    return step * (8 if rounded == 7 else rounded)  # so that no prime factor is above 5
