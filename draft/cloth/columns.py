"""Outlines by columns: how far up and down a shape reaches in each of many narrow columns across the cloth.

For a lay of many pieces that is near enough, and thousands of places are compared at once. What lies between a column's
lowest and highest point counts as taken, so pieces laid by columns never overlap; hollows that open along the cloth are
used, hollows that open across it only where a column passes them by.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from draft.base.arrays import Floats
from draft.cloth.batches import Shape
from draft.cloth.simplified import flipped

UNIT = 0.5
"""Heights are whole multiples of so many mm, rounded outwards: places as high as one another are then equal."""
_WIDE = 4.0
"""About how wide a column is, mm: a piece takes half of that more than its width, and it is an eighth of an inch."""
_EVEN = 12
"""Cloth has a multiple of so many columns, so that halves, quarters and thirds of it end where a column does."""
_WHISKER = 1e-6


@dataclass(frozen=True)
class Columns:
    """The lowest and highest point of a shape in each column `(n,)`, mm from its own lowest and leftmost point."""

    low: Floats
    high: Floats

    def __len__(self) -> int:
        return len(self.low)

    @property
    def key(self) -> bytes:
        """The same for shapes that take the same room."""
        return self.low.tobytes() + self.high.tobytes()

    @property
    def height(self) -> float:
        """What it takes along the cloth, mm."""
        return float(self.high.max())


def column_step(width: float) -> float:
    """How wide a column is on cloth `width` mm wide, in mm."""
    return width / (max(round(width / _WIDE / _EVEN), 1) * _EVEN)


def columns_of(shape: Shape, step: float) -> Columns:
    """The columns, each `step` mm wide, of a shape's true outline."""
    ring = flipped(shape.cut_piece.ring, shape.across, shape.along) + shape.offset
    left = 0.0 if shape.on_fold else float(ring[:, 0].min())
    ring = ring - np.array([left, ring[:, 1].min()])
    return by_columns(_right_of_fold(ring) if shape.on_fold else ring, step)


def by_columns(ring: Floats, step: float) -> Columns:
    """The columns of a ring `(n, 2)` in mm that begins at 0 across and along."""
    count = max(int(np.ceil(ring[:, 0].max() / step - _WHISKER)), 1)
    points = np.concatenate([ring, _crossings(ring, step, count)])
    low, high = np.full(count, np.inf), np.full(count, -np.inf)
    place = points[:, 0] / step
    for side in (-_WHISKER, _WHISKER):  # a point between two columns belongs to both
        column = np.clip(np.floor(place + side).astype(int), 0, count - 1)
        np.minimum.at(low, column, points[:, 1])
        np.maximum.at(high, column, points[:, 1])
    return Columns(np.floor(low / UNIT + _WHISKER) * UNIT, np.ceil(high / UNIT - _WHISKER) * UNIT)


def kept_apart(lying: Columns, coming: Columns) -> tuple[Floats, Floats]:
    """The heights above a lying shape, `(n + m - 1,)` from and to, between which a coming one would lie on it.

    The first entry is for the coming shape furthest left, where its last column meets the lying shape's first.
    """
    beside = np.full(len(coming) - 1, np.inf)
    low = _windows(np.concatenate([beside, lying.low, beside]), len(coming)) - coming.high
    high = _windows(np.concatenate([-beside, lying.high, -beside]), len(coming)) - coming.low
    return np.minimum.reduce(low, axis=1), np.maximum.reduce(high, axis=1)


def _windows(values: Floats, width: int) -> Floats:
    """Every run of so many neighbours, `(n - width + 1, width)`, without copying them."""
    step = values.strides[0]
    return np.ndarray((len(values) - width + 1, width), values.dtype, values, 0, (step, step))


def _crossings(ring: Floats, step: float, count: int) -> Floats:
    """Where the sides of a ring cross from column to column: `(k, 2)`."""
    after = np.roll(ring, -1, axis=0)
    first, last = np.minimum(ring[:, 0], after[:, 0]), np.maximum(ring[:, 0], after[:, 0])
    start = np.ceil(first / step - _WHISKER).astype(int)
    crossed = np.maximum(np.floor(last / step + _WHISKER).astype(int) - start + 1, 0)
    side = np.repeat(np.arange(len(ring)), crossed)
    number = np.arange(len(side)) - np.repeat(np.cumsum(crossed) - crossed, crossed)
    x = (start[side] + number) * step
    run = after[side, 0] - ring[side, 0]
    flat = np.abs(run) < _WHISKER
    share = np.clip((x - ring[side, 0]) / np.where(flat, 1.0, run), 0.0, 1.0)
    y = ring[side, 1] + share * (after[side, 1] - ring[side, 1])
    return np.stack([np.clip(x, 0.0, count * step), y], axis=1)[~flat]


def _right_of_fold(ring: Floats) -> Floats:
    """The half of a ring `(n, 2)` right of 0, with the points at which it crosses 0."""
    import shapely

    low, high = ring.min(axis=0) - 1.0, ring.max(axis=0) + 1.0
    halves = shapely.get_parts(shapely.intersection(shapely.Polygon(ring), shapely.box(0.0, low[1], high[0], high[1])))
    return np.asarray(shapely.get_coordinates(max(halves, key=lambda half: float(half.area)).exterior))
