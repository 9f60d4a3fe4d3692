"""Names of marks in a row inside the piece, in the order of their marks, each with a fine line to its own."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from typing import Any

import numpy as np

from draft.base.arrays import Bools, Floats
from draft.paper.drawing.drawing import Item
from draft.paper.drawing.room import Spot, rectangles
from draft.paper.piece.clutter import KEPT, Clutter
from draft.paper.piece.leaders import leaders_of, to_upright
from draft.paper.piece.sized_marks import Anchor
from draft.paper.piece.sizes_drawn import Sizes
from draft.paper.piece.tags import name_wide

_DEEP = tuple(float(deep) for deep in range(5, 75, 5))
_ASIDE = (0.0, 6.0, -6.0, 12.0, -12.0, 20.0, -20.0, 30.0, -30.0)
"""Where a row is tried, mm: so deep inside of its marks, and so far aside of their middle."""
HEAD_DEEP = tuple(float(deep) for deep in range(4, 60, 2))
HEAD_ASIDE = tuple(float(side * k) for k in range(0, 40, 4) for side in ((1, -1) if k else (1,)))
"""The same of a row with a word above it, before all is enlarged."""
GAP = 1.6
"""Between names, mm, before all is enlarged."""


def in_row(anchors: Sequence[Anchor], sizes: Sizes, clutter: Clutter, found: Sequence[list[Item]]) -> bool:
    """Gather the names in a row inside the piece, with leaders; whether any row has room."""
    return _in_row(_in_order(anchors, sizes), "", sizes, clutter, found)


def headed_row(anchors: Sequence[Anchor], sizes: Sizes, clutter: Clutter, found: Sequence[list[Item]]) -> bool:
    """The same of marks that have a word of their own, which is said once above their sizes, beyond either end."""
    plain, word = [replace(anchor, word="") for anchor in _in_order(anchors, sizes)], anchors[0].word
    other = [replace(anchor, inward=-anchor.inward) for anchor in plain]
    return any(_in_row(row, word, sizes, clutter, found) for row in (plain, other))


def _in_row(row: list[Anchor], word: str, sizes: Sizes, clutter: Clutter, found: Sequence[list[Item]]) -> bool:
    """The row, below a word if there is one, which belongs to each of its sizes."""
    for number, middles in _roomy(row, sizes, clutter):
        if _run_clear(_leaders(row, middles, sizes), _shapes(row, middles, sizes), clutter):
            row, middles = _uncrossed(row, middles, number, sizes, clutter)
            head = _above(row, middles, word, sizes)
            if word and not _head_clear(row, middles, head, sizes, clutter):
                continue
            for anchor in row if word else ():
                found[anchor.size].append(sizes.heading(word, head))
                clutter.take(head.shape(KEPT))
            for anchor, middle, leader in zip(row, middles, _leaders(row, middles, sizes), strict=True):
                spot = sizes.spot(anchor, middle)
                clutter.take(spot.shape(KEPT))
                clutter.take(leader)
                found[anchor.size].extend(sizes.led(anchor, spot, leader))
            return True
    return False


def _roomy(row: list[Anchor], sizes: Sizes, clutter: Clutter) -> Iterator[tuple[tuple[int, int], Floats]]:
    """The rows whose names all have room, by their numbers: those that lie as deep are looked at at once."""
    for deep, rows in enumerate(_rows(row, sizes)):
        shapes = _shapes(row * len(rows), rows.reshape(-1, 2), sizes)
        room = _have_room(row * len(rows), shapes, sizes, clutter).reshape(len(rows), -1).all(axis=1)
        yield from (((deep, k), rows[k]) for k in np.flatnonzero(room).tolist())


def _shapes(row: Sequence[Anchor], middles: Floats, sizes: Sizes) -> Any:
    """The names of a row about middles `(n, 2)` as shapely shapes, with what they keep clear."""
    wide = np.array([sizes.wide(anchor) for anchor in row])
    return rectangles(middles, np.full(len(row), sizes.surface.upright), wide, sizes.high, KEPT)


def _stand_clear(row: Sequence[Anchor], middles: Floats, sizes: Sizes, clutter: Clutter) -> bool:
    """Whether the names of a row have room, and no leader runs through a name or other words."""
    shapes = _shapes(row, middles, sizes)
    has_room = bool(_have_room(row, shapes, sizes, clutter).all())
    return has_room and _run_clear(_leaders(row, middles, sizes), shapes, clutter)


def _above(row: Sequence[Anchor], middles: Floats, word: str, sizes: Sizes) -> Spot:
    """The place of a word above the middle of a row, as words stand upright."""
    turn = to_upright(sizes.surface.upright)
    upright = middles @ turn.T
    low, high = upright.min(axis=0), upright.max(axis=0)
    at = np.array([(low[0] + high[0]) / 2, low[1] - sizes.high - GAP * sizes.surface.enlarged])
    x, y = (float(part) for part in at @ turn)
    return Spot(x, y, name_wide(word, sizes.surface), sizes.high, sizes.surface.upright)


def _head_clear(row: Sequence[Anchor], middles: Floats, head: Spot, sizes: Sizes, clutter: Clutter) -> bool:
    """Whether a word above a row lies in its sizes' outlines and clear of all, also of the row's own leaders."""
    import shapely

    shape = head.shape(KEPT)
    inside = all(sizes.shapes[anchor.size].contains(shape) for anchor in row)
    leaders = _leaders(row, middles, sizes)
    return inside and bool(clutter.free(np.array([shape])).all()) and not shapely.intersects(leaders, shape).any()


def _leaders(row: Sequence[Anchor], middles: Floats, sizes: Sizes) -> Any:
    wide = np.array([sizes.wide(anchor) for anchor in row])
    return leaders_of(row, middles, wide, sizes.high, sizes.surface.upright)


def _uncrossed(
    row: list[Anchor], middles: Floats, number: tuple[int, int], sizes: Sizes, clutter: Clutter
) -> tuple[list[Anchor], Floats]:
    """The row with names changed about until no two leaders cross, if they have room so too."""
    import shapely

    tried, places = list(row), middles
    for _ in range(len(row) ** 2):
        leaders = _leaders(tried, places, sizes)
        first, second = np.nonzero(np.triu(shapely.crosses(leaders[:, None], leaders[None]), 1))
        if not len(first):
            return (tried, places) if _stand_clear(tried, places, sizes, clutter) else (row, middles)
        k, other = int(first[0]), int(second[0])
        tried[k], tried[other] = tried[other], tried[k]
        places = _rows(tried, sizes)[number]
    return row, middles


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


def _rows(row: list[Anchor], sizes: Sizes) -> Floats:
    """The middles of the names of marks in this order `(deep, aside, n, 2)`, the nearest row first."""
    points, inward, axis = _frame(row, sizes)
    wide = np.array([sizes.wide(anchor) for anchor in row])
    scale = sizes.surface.enlarged
    deep, aside = np.array(_DEEP), np.array(_ASIDE)
    if row[0].alike:
        deep, aside = np.array(HEAD_DEEP) * scale, np.array(HEAD_ASIDE)
    takes = (wide if axis == 0 else np.full(len(row), sizes.high)) + GAP * scale
    along = np.cumsum(takes) - takes / 2 - takes.sum() / 2 + points[:, axis].mean()
    into = np.sign(inward[1 - axis]) or 1.0
    half = (sizes.high if axis == 0 else wide.max()) / 2
    middles = np.empty((len(deep), len(aside), len(row), 2))
    middles[..., axis] = along + scale * aside[:, None]
    middles[..., 1 - axis] = into * ((points[:, 1 - axis] * into).max() + deep[:, None, None] + half)
    return np.asarray(middles @ to_upright(sizes.surface.upright))


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
