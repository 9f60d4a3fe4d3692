"""Drawing one edge: straight legs, arcs, parts of other edges, and curves that run smoothly through their points.

Inside an edge the line has no corner: a curve takes up the direction of the leg beside it. Corners are where edges
meet.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence

import numpy as np

from draft.base.arrays import Bools, Floats
from draft.base.record import dataclass
from draft.geometry.arc import arc, are_opposite
from draft.geometry.cubic import NO_LENGTH, curvature, line, norm
from draft.geometry.ends import end_directions
from draft.geometry.even_curve import evenly_bent
from draft.geometry.outwards import beside_all
from draft.geometry.part import part_between
from draft.geometry.spline import hobby
from draft.language.tree import LegSort
from draft.words.directions import unit_or_across

Way = Callable[[Floats], Floats]
"""A direction `(B, 2)`, given the chord of the curve beside it `(B, 2)` to choose a side by."""


NOT_ROUND = "the two ends of this arc do not lie at one distance from its centre"
HALF_ROUND = "the two ends of this arc lie opposite one another, so it could run either way: set a point between them"
NOT_ON_EDGE = "the ends of this leg do not lie on the edge that it follows"


@dataclass(frozen=True)
class LegShape:
    """One leg: its sort, the directions asked for at its ends, an arc's centre or the edge to follow, those beside.

    A curve that bends `evenly` has no step of its curvature, neither inside nor to what lies beside it.
    """

    sort: LegSort
    start: Way | None = None
    end: Way | None = None
    about: Floats | None = None
    along: tuple[Floats, ...] = ()
    evenly: bool = False


@dataclass(frozen=True)
class Drawn:
    """The segments of an edge `(B, S, 4, 2)`, and for each leg that can fail what is then wrong and where."""

    path: Floats
    failures: tuple[tuple[int, str, Bools], ...]


def draw(knots: Sequence[Floats], legs: Sequence[LegShape]) -> Drawn:
    """The edge through the knots, `(B, 2)` each, one more than the legs."""
    bodies = max(len(knot) for knot in knots)
    points = np.stack([np.broadcast_to(knot, (bodies, 2)) for knot in knots], axis=1)
    fixed: dict[int, Floats] = {}
    failures: list[tuple[int, str, Bools]] = []
    for k, leg in enumerate(legs):
        if leg.sort != "curve":
            fixed[k] = _fixed(points[:, k], points[:, k + 1], leg, k, failures)
    parts = []
    k = 0
    while k < len(legs):
        last = k + 1
        if legs[k].sort == "curve":
            while last < len(legs) and legs[last].sort == "curve":
                last += 1
            parts.append(_curve(points, legs, fixed, k, last))
        else:
            parts.append(fixed[k])
        k = last
    return Drawn(np.concatenate(parts, axis=1), tuple(failures))


def _fixed(a: Floats, b: Floats, leg: LegShape, k: int, failures: list[tuple[int, str, Bools]]) -> Floats:
    """A leg that takes nothing from its neighbours."""
    if leg.sort == "arc":
        assert leg.about is not None
        centre = np.broadcast_to(leg.about, a.shape)
        path, fits = arc(centre, a, b)
        half = are_opposite(centre, a, b)
        failures += [(k, NOT_ROUND, ~fits & ~half), (k, HALF_ROUND, half)]
        return path
    if leg.sort == "beside":
        return beside_all(list(leg.along), a, b)
    if leg.sort == "following":
        assert leg.about is not None
        path, fits = part_between(leg.about, a, b)
        failures.append((k, NOT_ON_EDGE, ~fits))
        return path
    return line(a, b)[:, None]


def _curve(points: Floats, legs: Sequence[LegShape], fixed: dict[int, Floats], first: int, last: int) -> Floats:
    """The spline through knots `first` to `last`."""
    directions = [_direction(points, legs, fixed, k, first, last) for k in range(first, last + 1)]
    path = hobby(points[:, first : last + 1], directions)
    if not any(leg.evenly for leg in legs[first:last]):
        return path
    nothing = np.full(len(points), np.nan)
    before = _bend(fixed[first - 1][:, -1], 1.0) if first > 0 else nothing
    after = _bend(fixed[last][:, 0], 0.0) if last < len(legs) else nothing
    return evenly_bent(path, before, after)


def _bend(seg: Floats, at: float) -> Floats:
    """The curvature of a leg where it meets a curve `(B,)`; not a number where it has no length."""
    return np.where(norm(seg[:, 3] - seg[:, 0]) > NO_LENGTH, curvature(seg, at), np.nan)


def _direction(
    points: Floats, legs: Sequence[LegShape], fixed: dict[int, Floats], k: int, first: int, last: int
) -> Floats | None:
    """The direction at knot `k`: the one asked for, else that of the leg beside the curve."""
    after = legs[k].start if k < last else None
    before = legs[k - 1].end if k > first else None
    way = after or before
    if way:
        near = k if k < last else k - 1
        return np.broadcast_to(way(points[:, near + 1] - points[:, near]), points[:, k].shape)
    if k == first and k > 0:
        return _beside(end_directions(fixed[k - 1])[1], points[:, k + 1] - points[:, k])
    if k == last and k < len(legs):
        return _beside(end_directions(fixed[k])[0], points[:, k] - points[:, k - 1])
    return None


def _beside(way: Floats, chord: Floats) -> Floats:
    """The direction of a leg; where it has no length, of the chord beside it."""
    return np.where((norm(way) > 0.5)[:, None], way, unit_or_across(chord)[0])
