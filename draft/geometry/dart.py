"""Trueing an edge across its darts, as it is done on paper: fold the dart shut, draw the edge over it, and cut.

The dart is folded towards the edge's start. Unfolded again, the edge rises to a peak between the legs, so that what is
folded away ends where the seam is sewn.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from draft.base.arrays import Floats
from draft.geometry.crossing import edge_meets_line
from draft.geometry.cubic import cross, dot, line, reverse, turned, unit
from draft.geometry.length import length, point_at, tangent_at
from draft.geometry.part import part_along
from draft.geometry.spline import hobby


@dataclass(frozen=True)
class Taken:
    """What a dart or pleat takes from an edge: `width` mm with its middle `at` mm along it, both `(B,)`.

    A dart has its point `to` `(B, 2)`; where the edge is to be trued across it, `over` is for how many mm `(B,)` of
    each side at most.
    """

    at: Floats
    width: Floats
    to: Floats | None = None
    over: Floats | None = None


def true_darts(path: Floats, taken: Sequence[Taken]) -> tuple[Floats, list[Taken]]:
    """Paths `(B, S, 4, 2)` trued across their darts, and what all of them then take, in the order given."""
    order = sorted(range(len(taken)), key=lambda k: float(np.mean(taken[k].at)))
    found = list(taken)
    for place in reversed(range(len(order))):
        one = found[order[place]]
        if one.to is None or one.over is None:
            continue
        before = found[order[place - 1]] if place else None
        free = one.at - one.width / 2 - (before.at + before.width / 2 if before else 0.0)
        new, done = _true(path, one, one.to, np.minimum(one.over, free / 2 if before else free))
        grown = length(new) - length(path)
        path, found[order[place]] = new, done
        for later in order[place + 1 :]:
            found[later] = Taken(found[later].at + grown, found[later].width, found[later].to, found[later].over)
    return path, found


def _true(path: Floats, dart: Taken, to: Floats, over: Floats) -> tuple[Floats, Taken]:
    """The path trued across one dart, `over` mm before it and as much behind."""
    whole = length(path)
    begin, end = dart.at - dart.width / 2, dart.at + dart.width / 2
    first, last = begin - over, np.minimum(end + over, whole)
    leg, other = point_at(path, begin) - to, point_at(path, end) - to
    turn = np.arctan2(cross(other, leg), dot(other, leg))
    ahead = _turned(path, to, turn)
    knots = np.stack([point_at(path, first), point_at(ahead, last)], axis=1)
    drawn = hobby(knots, [tangent_at(path, first), tangent_at(ahead, last)])
    _, cut, _ = edge_meets_line(drawn, to, leg)
    inner, outer = part_along(drawn, np.zeros_like(cut), cut), part_along(drawn, cut, length(drawn))
    before = np.concatenate([part_along(path, np.zeros_like(first), first), inner], axis=1)
    behind = np.concatenate([_turned(outer, to, -turn), part_along(path, last, whole)], axis=1)
    half = _half_peak(before, to, unit(leg), unit(turned(leg, -turn / 2)))
    peak = np.concatenate([half, reverse(_mirrored(half, to, unit(turned(leg, -turn / 2))))], axis=1)
    width = length(peak)
    done = Taken(length(before) + width / 2, width, dart.to, dart.over)
    return np.concatenate([before, peak, behind], axis=1), done


def _half_peak(before: Floats, to: Floats, leg: Floats, axis: Floats) -> Floats:
    """From the first leg to the dart's axis, the edge lies on what is before it; straight where that is too short."""
    folded = reverse(_mirrored(before, to, leg))
    _, reach, ok = edge_meets_line(folded, to, axis)
    start = folded[:, 0, 0]
    along = dot(start - to, axis)[:, None] * axis + to
    return np.where(
        ok[:, None, None, None], part_along(folded, np.zeros_like(reach), reach), _straight(start, along, folded)
    )


def _straight(start: Floats, end: Floats, like: Floats) -> Floats:
    """A line `(B, S, 4, 2)` in as many segments as another path; all but the first have no length."""
    rest = np.broadcast_to(end[:, None, None], (len(end), like.shape[1] - 1, 4, 2))
    return np.concatenate([line(start, end)[:, None], rest], axis=1)


def _turned(path: Floats, about: Floats, angle: Floats) -> Floats:
    """Paths `(B, S, 4, 2)` turned about a point `(B, 2)` by radians `(B,)`."""
    centre = about[:, None, None]
    return turned(path - centre, angle[:, None, None]) + centre


def _mirrored(path: Floats, on: Floats, along: Floats) -> Floats:
    """Paths `(B, S, 4, 2)` mirrored over the lines through `on` along unit vectors, both `(B, 2)`."""
    centre, way = on[:, None, None], along[:, None, None]
    away = path - centre
    return centre + 2 * dot(away, way)[..., None] * way - away
