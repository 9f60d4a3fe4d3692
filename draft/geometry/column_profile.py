"""Outlines by columns: how far up and down a shape reaches in each of many narrow columns across a strip.

To lay many shapes that is near enough, and thousands of places are compared at once. What lies between a column's
lowest and highest point counts as taken, so shapes laid by columns never overlap; hollows that open along the strip
are used, hollows that open across it only where a column passes them by.
"""

from __future__ import annotations

from collections.abc import Sequence

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
    return kept_apart_from_each([lying], coming)[0]


def kept_apart_from_each(lying: Sequence[Columns], coming: Columns) -> list[tuple[Ints, Ints]]:
    """The heights `(n + m - 1,)` as `kept_apart` has them, above each of several lying shapes, found at once."""
    wide = len(coming)
    beside = np.full(wide - 1, NOWHERE, dtype=np.int32)
    lows = np.concatenate([part for one in lying for part in (beside, one.low.astype(np.int32))] + [beside])
    highs = np.concatenate([part for one in lying for part in (-beside, one.high.astype(np.int32))] + [-beside])
    count = len(lows) - wide + 1
    low, high = lows[:count] - np.int32(coming.high[0]), highs[:count] - np.int32(coming.low[0])
    for column in range(1, wide):  # column by column, so that no table of every two columns is made
        np.minimum(low, lows[column : column + count] - np.int32(coming.high[column]), out=low)
        np.maximum(high, highs[column : column + count] - np.int32(coming.low[column]), out=high)
    ends = np.cumsum([len(one) + wide - 1 for one in lying])[:-1]
    return list(zip(np.split(low, ends), np.split(high, ends), strict=True))


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
