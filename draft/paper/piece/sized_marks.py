"""Which size a notch, a dart or a mark belongs to: the points that its size's name is set beside.

One mark of a piece is a family: it has a place in each size.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

import numpy as np

from draft.base.arrays import Floats
from draft.base.record import dataclass
from draft.garment.garment import Mark, Takeup
from draft.garment.marks import places
from draft.geometry import cubic
from draft.geometry.cubic import unit
from draft.paper.piece.across_lines import level_end
from draft.paper.piece.piece_lines import FLIP, Outlines


@dataclass(frozen=True)
class Anchor:
    """Where a mark of one size is to be named: a point `(2,)` on paper, and the unit vector `(2,)` into the piece."""

    size: int
    point: Floats
    inward: Floats


def families(outlines: Sequence[Outlines]) -> list[list[Anchor]]:
    """The anchors of every mark of a piece, those of one mark in all its sizes together."""
    found: dict[tuple[str, int], list[Anchor]] = {}
    for size, one in enumerate(outlines):
        for key, point, inward in (*_notches(one), *_takeups(one), *_inner_darts(one), *_marks(one)):
            found.setdefault(key, []).append(Anchor(size, point, inward))
    return list(found.values())


_Found = Iterator[tuple[tuple[str, int], Floats, Floats]]


def _notches(one: Outlines) -> _Found:
    """The inner ends of notches; of two strokes, the middle between them."""
    for number, strokes in one.notch_strokes:
        outer, inner = (strokes[:, 0, at].mean(axis=0) * FLIP for at in (0, 3))
        bare = not one.piece.edge(one.piece.notches[number].edge).allowance
        yield ("notch", number), outer if bare else inner, unit(outer - inner if bare else inner - outer)


def _takeups(one: Outlines) -> _Found:
    """The points of darts, and the inner ends of pleats."""
    for number, takeup in enumerate(one.piece.takeups):
        if not one.has(takeup):
            continue
        point, way = one.sewing_ruler(takeup.edge).place(float(takeup.at[one.body]))
        inward = -cubic.right_of(way) * one.outward
        end = _end(takeup, one.body, point, inward)
        yield ("takeup", number), end * FLIP, unit(inward if takeup.to is None else end - point) * FLIP


def _inner_darts(one: Outlines) -> _Found:
    """The first point of each dart that lies within the piece."""
    for number, dart in enumerate(one.piece.inner_darts):
        if one.has(dart):
            tip, other = dart.to[one.body] * FLIP, dart.other[one.body] * FLIP
            yield ("inner dart", number), tip, unit(tip - other)


def _end(takeup: Takeup, body: int, point: Floats, inward: Floats) -> Floats:
    if takeup.to is not None:
        return np.asarray(takeup.to[body])
    return point + inward * (float(takeup.length[body]) if takeup.length is not None else 0.0)


def _marks(one: Outlines) -> _Found:
    """Each place of a row, and the ends of lines."""
    for number, mark in enumerate(one.piece.marks):
        for place, point in enumerate(_of_mark(one, mark)):
            yield (f"mark {number}", place), point * FLIP, np.array([1.0, 0.0])


def _of_mark(one: Outlines, mark: Mark) -> Floats:
    if mark.drill:
        return places(mark, one.body)
    points = mark.points[one.body]
    if mark.line == "lengthen" or not np.isfinite(points).all():
        return np.zeros((0, 2))
    return level_end(one, mark)[None] if mark.line == "level" else np.asarray(points[-1:])
