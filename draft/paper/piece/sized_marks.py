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
from draft.paper.piece.across_lines import level_end, level_runs
from draft.paper.piece.clips import clips
from draft.paper.piece.piece_lines import FLIP, Outlines
from draft.paper.piece.piece_marks import fold_ends


@dataclass(frozen=True)
class Anchor:
    """Where a mark of one size is to be named: a point `(2,)` on paper, and the unit vector `(2,)` into the piece.

    A notch has an `outer` end too, from which a line may lead to a name beside the piece; the name of a drill
    mark may stand all `around` it. Where a mark has lines, `ends` `(k, 2)` are the ends of them, or
    points of those beside which lie others.
    """

    size: int
    point: Floats
    inward: Floats
    outer: Floats | None = None
    around: bool = False
    ends: Floats | None = None


_SAMPLES = 15
"""So many points of each bar of a level, or of what lies between the lines of a pleat."""
_RIGHT = np.array([1.0, 0.0])


def families(outlines: Sequence[Outlines]) -> list[list[Anchor]]:
    """The anchors of every mark of a piece, those of one mark in all its sizes together."""
    found: dict[_Key, list[Anchor]] = {}
    for size, one in enumerate(outlines):
        for key, point, inward, outer in _notches(one):
            found.setdefault(key, []).append(Anchor(size, point, inward, outer))
        for key, point, inward, ends in (*_takeups(one), *_inner_darts(one), *_clips(one)):
            found.setdefault(key, []).append(Anchor(size, point, inward, ends=ends))
        for key, point, ends, drilled in _marks(one):
            found.setdefault(key, []).append(Anchor(size, point, _RIGHT, around=drilled, ends=ends))
    return list(found.values())


_Key = tuple[str, int]
_Found = Iterator[tuple[_Key, Floats, Floats, Floats | None]]


def _notches(one: Outlines) -> Iterator[tuple[_Key, Floats, Floats, Floats]]:
    """The inner ends of notches and the outer ones behind them; of two strokes, the middle between them."""
    for number, strokes in one.notch_strokes:
        outer, inner = (strokes[:, 0, at].mean(axis=0) * FLIP for at in (0, 3))
        bare = not one.piece.edge(one.piece.notches[number].edge).allowance
        point, other = (outer, inner) if bare else (inner, outer)
        yield ("notch", number), point, unit(point - other), other


def _takeups(one: Outlines) -> _Found:
    """The points of darts, and the inner ends of pleats."""
    for number, takeup in enumerate(one.piece.takeups):
        if not one.has(takeup):
            continue
        point, way = one.sewing_ruler(takeup.edge).place(float(takeup.at[one.body]))
        inward = -cubic.right_of(way) * one.outward
        end = _end(takeup, one.body, point, inward)
        aside = way * float(takeup.width[one.body]) / 2
        ends = None if takeup.to is not None else np.linspace(end - aside, end + aside, _SAMPLES) * FLIP
        yield ("takeup", number), end * FLIP, unit(inward if takeup.to is None else end - point) * FLIP, ends


def _inner_darts(one: Outlines) -> _Found:
    """The first point of each dart that lies within the piece."""
    for number, dart in enumerate(one.piece.inner_darts):
        if one.has(dart):
            tip, other = dart.to[one.body] * FLIP, dart.other[one.body] * FLIP
            yield ("inner dart", number), tip, unit(tip - other), None


def _clips(one: Outlines) -> _Found:
    """The inner ends of clips."""
    for number, line in enumerate(clips(one)):
        yield ("clip", number), line[1], unit(line[1] - line[0]), line


def _end(takeup: Takeup, body: int, point: Floats, inward: Floats) -> Floats:
    if takeup.to is not None:
        return np.asarray(takeup.to[body])
    return point + inward * (float(takeup.length[body]) if takeup.length is not None else 0.0)


def _marks(one: Outlines) -> Iterator[tuple[_Key, Floats, Floats | None, bool]]:
    """Each place of a row, and the ends of lines; and whether it is a drill mark and nothing longer."""
    for number, mark in enumerate(one.piece.marks):
        for place, (point, ends) in enumerate(_of_mark(one, mark)):
            yield (f"mark {number}", place), point, ends, mark.drill and not mark.fastening


def _of_mark(one: Outlines, mark: Mark) -> list[tuple[Floats, Floats | None]]:
    if mark.drill:
        return [(point, None) for point in places(mark, one.body) * FLIP]
    points = mark.points[one.body] * FLIP
    if mark.line == "lengthen" or not np.isfinite(points).all():
        return []
    if mark.line == "level":
        bars = level_runs(one, mark)[1:]
        return [
            (
                level_end(one, mark) * FLIP,
                np.concatenate([np.linspace(bar[0, 0], bar[-1, 3], _SAMPLES) for bar in bars]),
            )
        ]
    parts = fold_ends(points) if mark.line == "fold" else [points[[0, -1]]]
    return [(points[-1], np.concatenate(parts))]
