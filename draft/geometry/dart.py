"""Trueing an edge across its darts, as it is done on paper: fold the dart shut, draw the edge over it, and cut.

The dart is folded to the side that it is pressed to: towards the edge's start where nothing is said. Unfolded again,
the edge rises to a peak between the legs, so that what is folded away ends where the seam is sewn. An edge drawn
straight may run straight once its darts are shut: they are let into it, and do not bend it. Where it ends at a fold it
runs square to that, in one curve that bends one way: opened out it has neither a peak nor a hollow there.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from draft.base.arrays import Bools, Floats
from draft.base.record import dataclass
from draft.geometry.crossing import edge_meets_line
from draft.geometry.cubic import cross, dot, line, start_tangent, turned, unit
from draft.geometry.dart_leg import leg as leg_of
from draft.geometry.dart_peak import Shutting, bowed_peak, straight_peak
from draft.geometry.length import length, point_at, tangent_at
from draft.geometry.motion import turned_about
from draft.geometry.part import part_along
from draft.geometry.spline import hobby

NO_TURN = 1e-9  # rad: legs whose ends run side by side are shut about a point as good as endlessly far away
AT_FOLD = 1e-6  # mm: a blend that begins nearer to the end of the edge than that reaches it


@dataclass(frozen=True)
class Taken:
    """What a dart or pleat takes from an edge: `width` mm with its middle `at` mm along it, both `(B,)`.

    A dart has its point `to` `(B, 2)`; where the edge is to be trued across it, `over` is for how many mm `(B,)` of
    each side at most, unless it is `let_in` to an edge that is one line from end to end. `pressed` `(B,)` is 1 where it
    is folded towards the edge's end. `bow` is by how many mm `(B,)` its legs are bowed towards one another, less than
    none where apart. `from_fold` and `to_fold` are the ways `(B, 2)` square to a fold.
    """

    at: Floats
    width: Floats
    to: Floats | None = None
    over: Floats | None = None
    let_in: bool = False
    pressed: Floats | None = None
    bow: Floats | None = None
    from_fold: Floats | None = None
    to_fold: Floats | None = None


def true_darts(path: Floats, taken: Sequence[Taken]) -> tuple[Floats, list[Taken]]:
    """Paths `(B, S, 4, 2)` trued across their darts, and what all of them then take, in the order given."""
    order = sorted(range(len(taken)), key=lambda k: float(np.mean(taken[k].at)))
    found = list(taken)
    if taken and all(one.let_in for one in taken):
        path, let_in = _let_in(path, [taken[k] for k in order])
        return path, [let_in[order.index(k)] for k in range(len(taken))]
    for place in reversed(range(len(order))):
        one = found[order[place]]
        if one.to is None or one.over is None:
            continue
        before = found[order[place - 1]] if place else None
        behind = found[order[place + 1]] if place + 1 < len(order) else None
        free = one.at - one.width / 2 - (before.at + before.width / 2 if before else 0.0)
        over = np.minimum(one.over, free / 2 if before else free)
        gap = behind.at - behind.width / 2 - (one.at + one.width / 2) if behind else over
        new, done = _true(path, one, one.to, over, np.minimum(over, gap))
        grown = length(new) - length(path)
        path, found[order[place]] = new, done
        for later in order[place + 1 :]:
            found[later] = replace(found[later], at=found[later].at + grown)
    return path, found


def _true(path: Floats, dart: Taken, to: Floats, over: Floats, behind_it: Floats) -> tuple[Floats, Taken]:
    """The path trued across one dart, `over` mm before it and so many behind it."""
    whole = length(path)
    begin, end = dart.at - dart.width / 2, dart.at + dart.width / 2
    first, last = begin - over, np.minimum(end + behind_it, whole)
    shut = _shutting(path, dart, to)
    ahead = turned_about(path, shut.about, shut.turn)
    knots = np.stack([point_at(path, first), point_at(ahead, last)], axis=1)
    leaving, arriving = tangent_at(path, first), tangent_at(ahead, last)
    if dart.from_fold is not None:
        leaving = np.where((first < AT_FOLD)[:, None], dart.from_fold, leaving)
    if dart.to_fold is not None:
        arriving = np.where((last > whole - AT_FOLD)[:, None], turned(dart.to_fold, shut.turn), arriving)
    drawn = hobby(knots, [leaving, arriving])
    _, cut, _ = edge_meets_line(drawn, shut.on, shut.leg)
    inner, outer = part_along(drawn, np.zeros_like(cut), cut), part_along(drawn, cut, length(drawn))
    before = np.concatenate([part_along(path, np.zeros_like(first), first), inner], axis=1)
    behind = np.concatenate([outer, part_along(ahead, last, whole)], axis=1)
    peak = _peak(dart, shut, before, behind)
    done = replace(dart, at=length(before) + length(peak) / 2, width=length(peak))
    return np.concatenate([before, peak, turned_about(behind, shut.about, -shut.turn)], axis=1), done


def _shutting(path: Floats, dart: Taken, to: Floats) -> Shutting:
    """Legs shut about the dart's point; of those that are bowed two ways the ends are laid along one another."""
    first, last = (point_at(path, dart.at + way * dart.width / 2) for way in (-1, 1))
    leg, other = first - to, last - to
    turn = np.arctan2(cross(other, leg), dot(other, leg))
    straight = Shutting(to, turn, to, leg, to, unit(turned(leg, -turn / 2)))
    if dart.bow is None or not dart.bow.any():
        return straight
    return _chosen(dart.bow != 0, _laid_together(first, last, to, dart.bow), straight)


def _laid_together(first: Floats, last: Floats, to: Floats, bow: Floats) -> Shutting:
    bowed = (leg_of(at, to, way * bow, last - first) for at, way in ((first, 1), (last, -1)))
    leg, other = (-start_tangent(one) for one in bowed)
    turn = np.arctan2(cross(other, leg), dot(other, leg))
    turn = np.where(np.abs(turn) < NO_TURN, NO_TURN, turn)
    about = (first + last) / 2 + turned(first - last, np.array(np.pi / 2)) / (2 * np.tan(turn / 2))[:, None]
    middle = turned_about(first, about, -turn / 2)
    return Shutting(about, turn, first, leg, middle, unit(turned(leg, -turn / 2)))


def _chosen(which: Bools, one: Shutting, other: Shutting) -> Shutting:
    parts = (
        np.where(which if a.ndim == 1 else which[:, None], a, b)
        for a, b in zip(vars(one).values(), vars(other).values(), strict=True)
    )
    return Shutting(*parts)


def _peak(dart: Taken, shut: Shutting, before: Floats, behind: Floats) -> Floats:
    """The edge between the legs, where it lies on what is `before`, or `behind` and shut onto that."""
    if dart.to is not None and dart.bow is not None:
        return bowed_peak(shut, before, behind, dart.pressed, dart.to, dart.bow)
    return straight_peak(shut, before, behind, dart.pressed)


def _let_in(path: Floats, darts: Sequence[Taken]) -> tuple[Floats, list[Taken]]:
    """The path in one line from end to end once all its darts, in their order, are shut."""
    points = [dart.to for dart in darts if dart.to is not None]
    shutting = [_shutting(path, dart, to) for dart, to in zip(darts, points, strict=True)]
    rest = _one_line(path, darts[0], shutting)
    parts: list[Floats] = []
    done = []
    for dart, shut in zip(darts, shutting, strict=True):
        _, cut, _ = edge_meets_line(rest, shut.on, shut.leg)
        before, behind = part_along(rest, np.zeros_like(cut), cut), part_along(rest, cut, length(rest))
        peak = _peak(dart, shut, before, behind)
        parts += [before, peak]
        along = sum(length(part) for part in parts[:-1])
        done.append(replace(dart, at=along + length(peak) / 2, width=length(peak)))
        rest = turned_about(behind, shut.about, -shut.turn)
    return np.concatenate([*parts, rest], axis=1), done


def _one_line(path: Floats, dart: Taken, shutting: Sequence[Shutting]) -> Floats:
    """The line `(B, 1, 4, 2)` from end to end of a path whose darts are shut, square to a fold at either end."""
    start, end, way = path[:, 0, 0], path[:, -1, 3], dart.to_fold
    for shut in reversed(shutting):
        end = turned_about(end, shut.about, shut.turn)
        way = None if way is None else turned(way, shut.turn)
    if dart.from_fold is None and way is None:
        return line(start, end)[:, None]
    return hobby(np.stack([start, end], axis=1), [dart.from_fold, way])
