"""A few pieces laid on a strip where others lie already: each at its lowest place, by columns."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

import numpy as np

from draft.base.arrays import Floats, Ints
from draft.base.record import dataclass
from draft.cloth.batches import Batch, Shape
from draft.cloth.places import FIT
from draft.cloth.search import Put
from draft.cloth.simplified import flipped
from draft.geometry.column_profile import NOWHERE, UNIT, Columns, by_columns, kept_apart_from_each


@dataclass(frozen=True)
class _Lying:
    """A piece as it takes room: its columns, the first of them on the strip, and its height in units."""

    columns: Columns
    first: int
    height: int


def laid_beside(puts: Sequence[Put], batches: Iterable[Batch], width: float, step: float) -> list[Put] | None:
    """All pieces, with those of the batches beside them, the largest first, on a strip `width` mm wide.

    Columns are `step` mm wide. None where a piece is wider than the strip.
    """
    found, count = list(puts), int((width + FIT) / step)
    lying = [_lying(put.shape, put.x, put.y, step) for put in puts]
    places = [batch for batch in batches for _ in range(batch.count)]
    for batch in sorted(places, key=lambda batch: -batch.area):
        tried = [(*_lowest(lying, shape, count, step), k) for k, shape in enumerate(batch.shapes)]
        height, column, way = min(tried, key=lambda one: (round(one[0]), *one[1:]))
        if height >= NOWHERE * UNIT:
            return None
        shape = batch.shapes[way]
        x, y = column * step - float(shape.low[0]), height - float(shape.high[1])
        found.append(Put(len(found), shape, x, y))
        lying.append(_lying(shape, x, y, step))
    return found


def _lying(shape: Shape, x: float, y: float, step: float) -> _Lying:
    """A shape moved by `x` and `y` mm, by the columns that it touches."""
    ring = _true(shape) + np.array([x, y])
    low = ring.min(axis=0)
    first, height = max(int(np.floor(low[0] / step + 1e-6)), 0), int(np.floor(low[1] / UNIT + 1e-6))
    start = np.array([first * step, height * UNIT])
    return _Lying(by_columns(np.maximum(ring - start, 0.0), step), first, height)


def _lowest(lying: Sequence[_Lying], shape: Shape, count: int, step: float) -> tuple[float, int]:
    """How high a shape ends at its lowest free place, mm, and the first column of that; the leftmost of such."""
    coming = by_columns(_true(shape) - shape.low, step)
    places = count - len(coming) + 1
    if places < 1:
        return NOWHERE * UNIT, 0
    apart = kept_apart_from_each([one.columns for one in lying], coming) if lying else []
    low, high = np.full((len(lying), places), NOWHERE), np.full((len(lying), places), -NOWHERE)
    for k, (one, (lower, upper)) in enumerate(zip(lying, apart, strict=True)):
        at = np.arange(len(lower)) + one.first - len(coming) + 1
        there = (at >= 0) & (at < places)
        low[k, at[there]], high[k, at[there]] = lower[there] + one.height, upper[there] + one.height
    heights = _free(low, high, places)
    column = int(heights.argmin())
    return float(heights[column] * UNIT + shape.high[1] - shape.low[1]), column


def _free(low: Ints, high: Ints, places: int) -> Ints:
    """The lowest heights `(places,)` that lie between none of `low` and `high` `(lying, places)`."""
    heights = np.zeros(places, dtype=int)
    while True:
        hit = (low < heights) & (heights < high)
        raised = np.maximum(heights, np.where(hit, high, 0).max(axis=0, initial=0))
        if np.array_equal(raised, heights):
            return heights
        heights = raised


def _true(shape: Shape) -> Floats:
    """The shape's true outline `(n, 2)`, mm."""
    return flipped(shape.cut_piece.ring, shape.across, shape.along) + shape.offset
