"""Names of marks in a row inside the piece, in the order of their marks, each with a fine line to its own."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import pairwise
from typing import Any

import numpy as np

from draft.base.arrays import Bools, Floats, Ints
from draft.base.record import dataclass
from draft.paper.drawing.drawing import Item
from draft.paper.drawing.room import Spot, rectangles
from draft.paper.piece.clutter import KEPT, Clutter
from draft.paper.piece.leaders import leaders_of, to_upright
from draft.paper.piece.sized_marks import Anchor
from draft.paper.piece.sizes_drawn import Sizes
from draft.paper.piece.tag_places import name_wide

_DEEP = tuple(float(deep) for deep in range(5, 75, 5))
_ASIDE = (0.0, 6.0, -6.0, 12.0, -12.0, 20.0, -20.0, 30.0, -30.0)
"""Where a row is tried, mm: so deep inside of its marks, and so far aside of their middle."""
_LOOKED_AT = (0, 1, 4)
"""Rows of so many depths are looked at at once: most marks have one near them, and some have none."""
_FEW = 9
"""Of so many rows that have room the lines are looked at at once."""
HEAD_DEEP = tuple(float(deep) for deep in range(4, 60, 2))
HEAD_ASIDE = tuple(float(side * k) for k in range(0, 40, 4) for side in ((1, -1) if k else (1,)))
"""The same of a row with a word above it, before all is enlarged."""
GAP = 1.6
"""Between names, mm, before all is enlarged."""


def in_row(anchors: Sequence[Anchor], sizes: Sizes, clutter: Clutter, found: Sequence[list[Item]]) -> bool:
    """Gather the names in a row inside the piece, with leaders; whether any row has room."""
    return _in_row(_Row.of(_in_order(anchors, sizes), sizes), "", clutter, found)


def headed_row(anchors: Sequence[Anchor], sizes: Sizes, clutter: Clutter, found: Sequence[list[Item]]) -> bool:
    """The same of marks that have a word of their own, which is said once above their sizes, beyond either end."""
    plain, word = [replace(anchor, word="") for anchor in _in_order(anchors, sizes)], anchors[0].word
    other = [replace(anchor, inward=-anchor.inward) for anchor in plain]
    return any(_in_row(_Row.of(row, sizes), word, clutter, found) for row in (plain, other))


def _in_row(row: _Row, word: str, clutter: Clutter, found: Sequence[list[Item]]) -> bool:
    """The row, below a word if there is one, which belongs to each of its sizes."""
    sizes = row.sizes
    for number, places in _clear_rows(row, clutter):
        tidy, middles = _uncrossed(row, places, number, clutter)
        leaders, head = tidy.leaders(middles), _above(middles, word, sizes)
        if word and not _head_clear(row, leaders, head, clutter):
            continue
        clutter.take(*tidy.shapes(middles), *leaders, *((head.shape(KEPT),) if word else ()))
        for anchor, middle, leader in zip(tidy.anchors, middles, leaders, strict=True):
            found[anchor.size].extend([sizes.heading(word, head)] if word else [])
            found[anchor.size].extend(sizes.led(anchor, sizes.spot(anchor, middle), leader))
        return True
    return False


@dataclass(frozen=True)
class _Row:
    """Marks in the order of their names, how `wide` each of these is `(n,)`, and what its size is cut to."""

    anchors: Sequence[Anchor]
    wide: Floats
    inside: Any
    sizes: Sizes

    @classmethod
    def of(cls, anchors: Sequence[Anchor], sizes: Sizes) -> _Row:
        """Marks in this order."""
        wide = np.array([sizes.wide(anchor) for anchor in anchors])
        return cls(anchors, wide, np.array(sizes.shapes)[[anchor.size for anchor in anchors]], sizes)

    def shapes(self, middles: Floats) -> Any:
        """The names about middles `(..., n, 2)` as shapely shapes `(..., n)`, with what they keep clear."""
        wide = np.broadcast_to(self.wide, middles.shape[:-1]).ravel()
        upright, high = self.sizes.surface.upright, self.sizes.high
        return rectangles(middles.reshape(-1, 2), upright, wide, high, KEPT).reshape(middles.shape[:-1])

    def leaders(self, middles: Floats) -> Any:
        """The lines from the marks to their names about middles `(..., n, 2)`, `(..., n)`."""
        return leaders_of(self.anchors, middles, self.wide, self.sizes.high, self.sizes.surface.upright)

    def turned_about(self, one: int, other: int) -> _Row:
        """The same with two of the marks changed about."""
        order = np.arange(len(self.anchors))
        order[[one, other]] = other, one
        return _Row([self.anchors[k] for k in order.tolist()], self.wide[order], self.inside[order], self.sizes)


def _clear_rows(row: _Row, clutter: Clutter) -> Iterator[tuple[tuple[int, int], Floats]]:
    """The rows whose names have room and whose lines run clear, by their numbers: some are looked at at once."""
    rows = _rows(row)
    for begin, end in pairwise((*_LOOKED_AT, len(rows))):
        some = rows[begin:end].reshape(-1, len(row.anchors), 2)
        roomy = _roomy(row, some, clutter)
        for few in np.split(roomy, range(_FEW, len(roomy), _FEW)):
            for number in few[_run_clear(row, some[few], clutter)].tolist():
                deep, aside = divmod(number, rows.shape[1])
                yield (begin + deep, aside), some[number]


def _roomy(row: _Row, rows: Floats, clutter: Clutter) -> Ints:
    """Which rows, middles of names `(rows, n, 2)`, have room for all: most are out of the question by their ends."""
    import shapely

    left = np.arange(len(rows))
    for number in dict.fromkeys((0, len(row.anchors) - 1, *range(len(row.anchors)))):
        shapes = rectangles(rows[left, number], row.sizes.surface.upright, row.wide[number], row.sizes.high, KEPT)
        free = np.asarray(shapely.contains(row.inside[number], shapes))
        free[free] = clutter.free(shapes[free])
        left = left[free]
        if not len(left):
            break
    return left


def _run_clear(row: _Row, rows: Floats, clutter: Clutter) -> Bools:
    """Of which rows `(rows, n, 2)` no leader runs through another name than its own, nor through other words."""
    import shapely

    leaders = row.leaders(rows)
    clear: Bools = np.asarray(clutter.off_words(leaders.ravel()).reshape(leaders.shape).all(axis=1))
    if clear.any() and len(row.anchors) > 1:
        crossed = shapely.intersects(leaders[clear][:, :, None], row.shapes(rows[clear])[:, None])
        clear[clear] = crossed.sum(axis=(1, 2)) == np.trace(crossed, axis1=1, axis2=2)
    return clear


def _above(middles: Floats, word: str, sizes: Sizes) -> Spot:
    """The place of a word above the middle of a row of names about middles `(n, 2)`, as words stand upright."""
    turn = to_upright(sizes.surface.upright)
    upright = middles @ turn.T
    low, high = upright.min(axis=0), upright.max(axis=0)
    at = np.array([(low[0] + high[0]) / 2, low[1] - sizes.high - GAP * sizes.surface.enlarged])
    x, y = (float(part) for part in at @ turn)
    return Spot(x, y, name_wide(word, sizes.surface), sizes.high, sizes.surface.upright)


def _head_clear(row: _Row, leaders: Any, head: Spot, clutter: Clutter) -> bool:
    """Whether a word above a row lies in its sizes' outlines and clear of all, also of the row's own leaders `(n,)`."""
    import shapely

    shape = head.shape(KEPT)
    inside = all(one.contains(shape) for one in row.inside)
    return inside and bool(clutter.free(np.array([shape])).all()) and not shapely.intersects(leaders, shape).any()


def _uncrossed(row: _Row, middles: Floats, number: tuple[int, int], clutter: Clutter) -> tuple[_Row, Floats]:
    """The row with names changed about until no two leaders cross, if they have room so too."""
    import shapely

    tried, places = row, middles
    for _ in range(len(row.anchors) ** 2):
        leaders = tried.leaders(places)
        first, second = np.nonzero(np.triu(shapely.crosses(leaders[:, None], leaders[None]), 1))
        if not len(first):
            if tried is row or (len(_roomy(tried, places[None], clutter)) and _run_clear(tried, places[None], clutter)):
                return tried, places
            break
        tried = tried.turned_about(int(first[0]), int(second[0]))
        places = _rows(tried)[number]
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


def _rows(row: _Row) -> Floats:
    """The middles of the names of marks in this order `(deep, aside, n, 2)`, the nearest row first."""
    sizes, wide = row.sizes, row.wide
    points, inward, axis = _frame(row.anchors, sizes)
    scale = sizes.surface.enlarged
    deep, aside = np.array(_DEEP), np.array(_ASIDE)
    if row.anchors[0].alike:
        deep, aside = np.array(HEAD_DEEP) * scale, np.array(HEAD_ASIDE)
    takes = (wide if axis == 0 else np.full(len(wide), sizes.high)) + GAP * scale
    along = np.cumsum(takes) - takes / 2 - takes.sum() / 2 + points[:, axis].mean()
    into = np.sign(inward[1 - axis]) or 1.0
    half = (sizes.high if axis == 0 else wide.max()) / 2
    middles = np.empty((len(deep), len(aside), len(wide), 2))
    middles[..., axis] = along + scale * aside[:, None]
    middles[..., 1 - axis] = into * ((points[:, 1 - axis] * into).max() + deep[:, None, None] + half)
    return np.asarray(middles @ to_upright(sizes.surface.upright))
