"""Names of marks in a row inside the piece, in the order of their marks, each with a fine line to its own."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import islice
from typing import Any, TypeAlias

import numpy as np

from draft.base.arrays import Bools, Floats
from draft.paper.drawing.drawing import Item
from draft.paper.drawing.room import Spot, spot_shapes
from draft.paper.piece.clutter import KEPT, Clutter
from draft.paper.piece.leaders import leaders_of, to_upright
from draft.paper.piece.sized_marks import Anchor
from draft.paper.piece.sizes_drawn import Sizes

_DEEP = tuple(float(deep) for deep in range(5, 75, 5))
_ASIDE = (0.0, 6.0, -6.0, 12.0, -12.0, 20.0, -20.0, 30.0, -30.0)
"""Where a row is tried, mm: so deep inside of its marks, and so far aside of their middle."""
_GAP = 1.6


def in_row(anchors: Sequence[Anchor], sizes: Sizes, clutter: Clutter, found: Sequence[list[Item]]) -> bool:
    """Gather the names in a row inside the piece, with leaders; whether any row has room."""
    for number, (row, spots) in _roomy(_rows(_in_order(anchors, sizes), sizes), sizes, clutter):
        if _run_clear(_leaders(row, spots), spot_shapes(spots, KEPT), clutter):
            row, spots = _uncrossed(row, spots, number, sizes, clutter)
            for anchor, spot, leader in zip(row, spots, _leaders(row, spots), strict=True):
                clutter.take(spot.shape(KEPT))
                clutter.take(leader)
                found[anchor.size].extend(sizes.led(anchor, spot, leader))
            return True
    return False


_Row: TypeAlias = tuple[list[Anchor], list[Spot]]
"""Marks in their order, and the places of their names."""


def _roomy(rows: Iterator[_Row], sizes: Sizes, clutter: Clutter) -> Iterator[tuple[int, _Row]]:
    """The rows whose names all have room, by their numbers: those that lie as deep are looked at at once."""
    for first in range(0, len(_DEEP) * len(_ASIDE), len(_ASIDE)):
        some = list(islice(rows, len(_ASIDE)))
        every = [anchor for row, _ in some for anchor in row]
        room = _have_room(every, spot_shapes([spot for _, spots in some for spot in spots], KEPT), sizes, clutter)
        for k in np.flatnonzero(room.reshape(len(some), -1).all(axis=1)).tolist():
            yield first + k, some[k]


def _stand_clear(row: Sequence[Anchor], spots: Sequence[Spot], sizes: Sizes, clutter: Clutter) -> bool:
    """Whether the names of a row have room, and no leader runs through a name or other words."""
    shapes = spot_shapes(spots, KEPT)
    return bool(_have_room(row, shapes, sizes, clutter).all()) and _run_clear(_leaders(row, spots), shapes, clutter)


def _leaders(row: Sequence[Anchor], spots: Sequence[Spot]) -> Any:
    middles, wide = np.array([(spot.x, spot.y) for spot in spots]), np.array([spot.width for spot in spots])
    return leaders_of(row, middles, wide, spots[0].height, spots[0].angle)


def _uncrossed(
    row: list[Anchor], spots: list[Spot], number: int, sizes: Sizes, clutter: Clutter
) -> tuple[list[Anchor], list[Spot]]:
    """The row with names changed about until no two leaders cross, if they have room so too."""
    import shapely

    tried, places = list(row), list(spots)
    for _ in range(len(row) ** 2):
        leaders = _leaders(tried, places)
        first, second = np.nonzero(np.triu(shapely.crosses(leaders[:, None], leaders[None]), 1))
        if not len(first):
            return (tried, places) if _stand_clear(tried, places, sizes, clutter) else (row, spots)
        k, other = int(first[0]), int(second[0])
        tried[k], tried[other] = tried[other], tried[k]
        tried, places = next(islice(_rows(tried, sizes), number, None))
    return row, spots


def _frame(anchors: Sequence[Anchor], sizes: Sizes) -> tuple[Floats, Floats, int]:
    """The marks `(n, 2)` and the way into the piece as words stand upright, and along which axis their row runs."""
    turn = to_upright(sizes.surface.upright)
    points = np.array([anchor.point for anchor in anchors]) @ turn.T
    inward = turn @ np.mean([anchor.inward for anchor in anchors], axis=0)
    return points, inward, 0 if abs(inward[1]) >= abs(inward[0]) else 1


def _in_order(anchors: Sequence[Anchor], sizes: Sizes) -> list[Anchor]:
    """As their marks stand along the row."""
    points, _, axis = _frame(anchors, sizes)
    return [anchors[k] for k in np.argsort(points[:, axis], kind="stable")]


def _rows(row: list[Anchor], sizes: Sizes) -> Iterator[_Row]:
    """A row of marks in this order, and the places of their names, the nearest row first."""
    points, inward, axis = _frame(row, sizes)
    turn = to_upright(sizes.surface.upright)
    takes = np.array([sizes.wide(anchor) if axis == 0 else sizes.high for anchor in row]) + _GAP
    along = np.cumsum(takes) - takes / 2 - takes.sum() / 2 + points[:, axis].mean()
    into = np.sign(inward[1 - axis]) or 1.0
    deepest = (points[:, 1 - axis] * into).max()
    half = (sizes.high if axis == 0 else max(sizes.wide(anchor) for anchor in row)) / 2
    for deep in _DEEP:
        for aside in _ASIDE:
            middles = np.empty((len(row), 2))
            middles[:, axis], middles[:, 1 - axis] = along + aside, into * (deepest + deep + half)
            yield row, [sizes.spot(anchor, at) for anchor, at in zip(row, middles @ turn, strict=True)]


def _have_room(anchors: Sequence[Anchor], shapes: Any, sizes: Sizes, clutter: Clutter) -> Bools:
    """Which names of marks, shapes `(n,)`, lie in their size's outline and clear of all."""
    import shapely

    own = np.array(sizes.shapes)[[anchor.size for anchor in anchors]]
    free = np.asarray(shapely.contains(own, shapes))
    free[free] = clutter.free(shapes[free])
    return free


def _run_clear(leaders: Any, shapes: Any, clutter: Clutter) -> bool:
    """Whether no leader `(n,)` runs through another name than its own, shapes `(n,)`, nor through other words."""
    import shapely

    crossed = shapely.intersects(leaders[:, None], shapes[None])
    return bool(crossed.sum() == np.trace(crossed) and clutter.off_words(leaders).all())
