"""Outlines by columns: how far up and down a shape reaches in each of many narrow columns across a strip.

To lay many shapes that is near enough, and thousands of places are compared at once. What lies between a column's
lowest and highest point counts as taken, so shapes laid by columns never overlap; hollows that open along the strip
are used, hollows that open across it only where a column passes them by.
"""

from __future__ import annotations

import numpy as np

from draft.base.arrays import Floats, Ints, repeated
from draft.base.record import dataclass

UNIT = 0.5
"""Heights are whole multiples of so many mm, rounded outwards: places as high as one another are then equal."""
NOWHERE = 1 << 30
"""A height, in units, that nothing reaches."""
_WHISKER = 1e-6


@dataclass(frozen=True)
class Columns:
    """The lowest and highest point of a shape in each column `(n,)`, in `UNIT`s from its own lowest point."""

    low: Ints
    high: Ints

    def __len__(self) -> int:
        return len(self.low)

    @property
    def key(self) -> bytes:
        """The same for shapes that take the same room."""
        return self.low.tobytes() + self.high.tobytes()

    @property
    def height(self) -> int:
        """What it takes along the strip, in units."""
        return int(self.high.max())


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
    return Columns(np.floor(low / UNIT + _WHISKER).astype(int), np.ceil(high / UNIT - _WHISKER).astype(int))


def kept_apart(lying: Columns, coming: Columns) -> tuple[Ints, Ints]:
    """The heights above a lying shape, `(n + m - 1,)` from and to, between which a coming one would lie on it.

    The first entry is for the coming shape furthest left, where its last column meets the lying shape's first.
    """
    beside = np.full(len(coming) - 1, NOWHERE)
    low = _windows(np.concatenate([beside, lying.low, beside]), len(coming)) - coming.high
    high = _windows(np.concatenate([-beside, lying.high, -beside]), len(coming)) - coming.low
    return low.min(axis=1), high.max(axis=1)


def _windows(values: Ints, width: int) -> Ints:
    """Every run of so many neighbours, `(n - width + 1, width)`, without copying them."""
    step = values.strides[0]
    shape = len(values) - width + 1, width
    return np.lib.stride_tricks.as_strided(values, shape, (step, step), writeable=False)


def _crossings(ring: Floats, step: float, count: int) -> Floats:
    """Where the sides of a ring cross from column to column: `(k, 2)`."""
    after = np.roll(ring, -1, axis=0)
    first, last = np.minimum(ring[:, 0], after[:, 0]), np.maximum(ring[:, 0], after[:, 0])
    start = np.ceil(first / step - _WHISKER).astype(int)
    crossed = np.maximum(np.floor(last / step + _WHISKER).astype(int) - start + 1, 0)
    side, number = repeated(crossed)
    x = (start[side] + number) * step
    run = after[side, 0] - ring[side, 0]
    flat = np.abs(run) < _WHISKER
    share = np.clip((x - ring[side, 0]) / np.where(flat, 1.0, run), 0.0, 1.0)
    y = ring[side, 1] + share * (after[side, 1] - ring[side, 1])
    return np.asarray(np.stack([np.clip(x, 0.0, count * step), y], axis=1)[~flat])
