"""The outer line of a closed path that crosses itself: what is left of an allowance where it runs into itself.

The parallel of an outline with hollows too tight for it, or with an edge shorter than its corners need, winds twice
around the cloth that is covered twice. The line to cut is where the winding number turns from none to one.
"""

from __future__ import annotations

from itertools import pairwise

import numpy as np

from draft.base.arrays import Bools, Floats
from draft.geometry.area import outline_area
from draft.geometry.cubic import cross, derivative, norm, point, right_of, unit
from draft.geometry.flatten import flatten
from draft.geometry.tangle import close_up, join_up, part_from, self_crossings, without_loops

FINE = 1e-3
"""Winding numbers are counted on a polyline this near (mm) to the path."""

ASIDE = 0.01
"""They are counted this far (mm) to both sides of each run: clear of the polyline, and less than a cut shows."""

SPECK = 1.0
"""A loop no longer than this (mm) is no more than the point of a bend, and is left out whichever way it winds."""

_AT_ONCE = 400_000
"""Points times sides that are looked at in one table."""

BRIDGE = 0.1
"""Runs too short to tell their sides (mm) may be left out, if what is next begins within this of the last."""


def outer_line(path: Floats, out: int) -> Floats:
    """The line around what a closed path `(N, 4, 2)` winds about, of its own segments: `(K, 4, 2)`, closed.

    `out` is 1 where the path runs counterclockwise and -1 where it runs clockwise. Holes are left out, and so is
    what it winds about the wrong way. A path that does not cross itself is returned as it is.
    """
    if not len(self_crossings(path, closed=True)):
        return path
    path = close_up(without_loops(path, SPECK))
    crossings = self_crossings(path, closed=True)
    if not len(crossings):
        return path
    runs = _runs(path, np.unique(crossings))
    kept = [s for s, outer in zip(runs, _are_outer(runs, path, out), strict=True) if outer]
    loops = sorted(_loops(kept), key=lambda loop: out * outline_area(loop))
    return close_up(without_loops(loops[-1], SPECK)) if loops else path


def _runs(path: Floats, places: Floats) -> list[Floats]:
    """The path parted at its crossings, in order, what runs over its first point in one."""
    size = float(len(path))
    inner = [part_from(path, float(a), float(b)) for a, b in pairwise(places)]
    around = join_up([part_from(path, float(places[-1]), size), part_from(path, 0.0, float(places[0]))])
    return [run for run in [around, *inner] if len(run)]


def _are_outer(runs: list[Floats], path: Floats, out: int) -> Bools:
    """Which runs have cloth on their inner side and none on their outer side."""
    longest = np.stack([s[norm(s[:, 3] - s[:, 0]).argmax()] for s in runs])
    middle = point(longest, 0.5)
    aside = ASIDE * out * right_of(unit(derivative(longest, 0.5)))
    line = flatten(path, FINE)
    outside, inside = (out * winding_numbers(middle + way * aside, line) for way in (1, -1))
    outer: Bools = (inside >= 1) & (outside <= 0)
    return outer


def winding_numbers(points: Floats, line: Floats) -> Floats:
    """How often a closed polyline `(M, 2)` winds counterclockwise about each of the points `(P, 2)`: `(P,)`."""
    few = max(_AT_ONCE // max(len(line), 1), 1)
    parts = [_winding(points[k : k + few], line) for k in range(0, len(points), few)]
    return np.concatenate(parts) if parts else np.zeros(0)


def _winding(points: Floats, line: Floats) -> Floats:
    begins_below = line[:, 1] <= points[:, 1, None]
    ends_below = np.roll(begins_below, -1, axis=1)
    point, side = np.nonzero(begins_below != ends_below)  # few sides pass a point's own height: the rest do not count
    begin = line[side]
    left = cross(line[(side + 1) % len(line)] - begin, points[point] - begin) > 0
    up = begins_below[point, side]
    turn = np.where(up, left.astype(float), left - 1.0)
    count: Floats = np.bincount(point, turn, len(points)).astype(float)
    return count


def _loops(runs: list[Floats]) -> list[Floats]:
    """Runs joined end to end into closed paths; those that do not close are dropped."""
    loops, left = [], list(runs)
    while left:
        loop = [left.pop(0)]
        while left and norm(loop[-1][-1, 3] - loop[0][0, 0]) > ASIDE:
            gaps = [float(norm(loop[-1][-1, 3] - s[0, 0])) for s in left]
            nearest = int(np.argmin(gaps))
            if gaps[nearest] > BRIDGE:
                break
            loop.append(left.pop(nearest))
        if norm(loop[-1][-1, 3] - loop[0][0, 0]) <= BRIDGE:
            loops.append(close_up(join_up(loop)))
    return loops
