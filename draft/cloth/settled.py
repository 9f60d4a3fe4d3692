"""A lay of many pieces settled: each lowered from where it lies to the lowest place near it, by exact outlines.

Only what lies near a piece is looked at, so that the no-fit regions of all pairs need not be found.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from draft.base.arrays import Floats
from draft.cloth.batches import Shape, Shelf
from draft.cloth.lay_near import Wanted
from draft.cloth.places import free_places, moved
from draft.cloth.search import Put, StripLay

_ASIDE, _DOWN = 30.0, 80.0
"""How far a piece may move from where it lies, mm."""
_ROUNDS = 2
_CORNERS = 400


def settled(wanted: Sequence[Wanted], width: float, shelf: Shelf) -> StripLay:
    """The shapes, the lowest first, each moved as low as it will go near its place while all others lie still.

    They are shapes of any shelf, and those laid are this one's. Where two lie on one another they are left so.
    """
    puts = as_wanted(wanted, width, shelf)
    shapes, at = [put.shape for put in puts], [np.array([put.x, put.y]) for put in puts]
    for _ in range(_ROUNDS):
        for k in np.argsort([place[1] for place in at], kind="stable"):
            at[k] = _lowered(int(k), shapes, at, width, shelf)
    return StripLay.of([Put(one.batch, shape, *place) for one, shape, place in zip(wanted, shapes, at, strict=True)])


def as_wanted(wanted: Sequence[Wanted], width: float, shelf: Shelf) -> list[Put]:
    """The shapes where they should be, but for the hair by which a solver's strip is wider than the cloth.

    They are shapes of any shelf, and those laid are this one's.
    """
    puts = []
    for one in wanted:
        shape = shelf.shape(one.shape.cut_piece, one.shape.across, one.shape.along)
        x, y = np.array([one.x, one.y]) + one.shape.low - shape.low
        puts.append(
            Put(one.batch, shape, min(max(float(x), -float(shape.low[0])), width - float(shape.high[0])), float(y))
        )
    return puts


def _lowered(k: int, shapes: Sequence[Shape], at: Sequence[Floats], width: float, shelf: Shelf) -> Floats:
    """The lowest free move of a shape near its own, beside the others in their places."""
    import shapely

    boxes = np.array([_box(shape, place) for shape, place in zip(shapes, at, strict=True)])
    reached = boxes[k] + np.array([-_ASIDE, -_DOWN, _ASIDE, 0.0])
    near = (boxes[:, :2] < reached[2:]).all(axis=1) & (boxes[:, 2:] > reached[:2]).all(axis=1)
    near[k] = False
    regions = [moved(shelf.no_fit(shapes[j], shapes[k]), *at[j]) for j in np.flatnonzero(near).tolist()]
    (x, y), far = at[k], 1e5
    window = shapely.box(x - _ASIDE, y - _DOWN, x + _ASIDE, y + 1.0)
    outside = shapely.box(x - far, y - far, x + far, y + far).difference(window)
    free = free_places(shapes[k], width, y + far / 2, shapely.union_all([outside, *regions]), _CORNERS)
    lower = [place for place in free if place[1] < y]
    return np.array(min(lower, key=lambda place: (round(place[1], 1), abs(place[0] - x)))) if lower else at[k]


def _box(shape: Shape, place: Floats) -> Floats:
    return np.concatenate([shape.low + place, shape.high + place])
