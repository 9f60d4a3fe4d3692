"""Drawing one edge: straight legs, and curves that run smoothly through their points.

Inside an edge the line has no corner: a curve takes up the direction of a straight leg beside it. Corners are where
edges meet.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from itertools import groupby

import numpy as np

from draft.geometry.cubic import line
from draft.geometry.spline import hobby
from draft.words.directions import unit
from draft.words.word import Floats

Way = Callable[[Floats], Floats]
"""A direction `(B, 2)`, given the chord of the curve beside it `(B, 2)` to choose a side by."""


@dataclass(frozen=True)
class LegWays:
    """One leg: whether it is a curve, and the directions asked for at its two ends."""

    curved: bool
    start: Way | None
    end: Way | None


def draw(knots: Sequence[Floats], legs: Sequence[LegWays]) -> Floats:
    """The segments `(B, S, 4, 2)` of an edge through the knots, `(B, 2)` each, one more than the legs."""
    bodies = max(len(knot) for knot in knots)
    points = np.stack([np.broadcast_to(knot, (bodies, 2)) for knot in knots], axis=1)
    parts = []
    for curved, run in groupby(range(len(legs)), key=lambda k: legs[k].curved):
        places = list(run)
        if curved:
            parts.append(_curve(points, legs, places[0], places[-1] + 1))
        else:
            parts += [line(points[:, k], points[:, k + 1])[:, None] for k in places]
    return np.concatenate(parts, axis=1)


def _curve(points: Floats, legs: Sequence[LegWays], first: int, last: int) -> Floats:
    """The spline through knots `first` to `last`."""
    directions = [_direction(points, legs, k, first, last) for k in range(first, last + 1)]
    return hobby(points[:, first : last + 1], directions)


def _direction(points: Floats, legs: Sequence[LegWays], k: int, first: int, last: int) -> Floats | None:
    """The direction at knot `k`: the one asked for, else that of a straight leg beside the curve."""
    after = legs[k].start if k < last else None
    before = legs[k - 1].end if k > first else None
    way = after or before
    if way:
        near = k if k < last else k - 1
        return np.broadcast_to(way(points[:, near + 1] - points[:, near]), points[:, k].shape)
    straight = k - 1 if k == first and k > 0 else k if k == last and k < len(legs) else None
    if straight is None:
        return None
    return _straight_way(points, straight, beside=k if k == first else k - 1)


def _straight_way(points: Floats, leg: int, beside: int) -> Floats:
    """The direction of a straight leg; where it has no length, of the chord beside it."""
    way, fits = unit(points[:, leg + 1] - points[:, leg])
    chord, _ = unit(points[:, beside + 1] - points[:, beside])
    return np.where(fits[:, None], way, chord)
