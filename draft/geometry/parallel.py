"""Lines parallel to a smooth run of segments: what a seam allowance is made of, before its corners.

The parallel of a cubic is no cubic, so it is fitted, see `draft.geometry.fitted`; where a bend is tighter than the
distance the parallel turns back, and is fitted from one cusp to the next.
"""

from __future__ import annotations

import numpy as np

from draft.base.arrays import Bools, Floats, Ints
from draft.base.record import dataclass
from draft.geometry.cubic import cross, dot, end_tangent, line, norm, right_of, start_tangent
from draft.geometry.fitted import fitted, relative_speed
from draft.geometry.length import point_at, tangent_at

TOLERANCE = 0.01
"""A hundredth of a millimetre: a twentieth of the thinnest line that a home printer draws."""

KINK = 1e-6
"""Segments that turn by more than this (rad) at their joint meet in a corner; a smaller turn parts no parallels."""

MOTE = 1e-6
"""A segment no larger than this (mm) is what rounding left where lines meet: it has no way of its own."""

SCAN = 64
"""Each segment is scanned at this many places for its parallel turning back."""


@dataclass(frozen=True)
class Parallel:
    """The parallel of one smooth run, at a signed distance: positive to the right of travel.

    `path` is `(N, 4, 2)`; `start`, `end` are the points of the run itself and `leave`, `arrive` its directions there.
    `lead` and `trail` count the segments at either end that run backwards, inside a bend tighter than the distance.
    """

    path: Floats
    distance: float
    start: Floats
    end: Floats
    leave: Floats
    arrive: Floats
    lead: int = 0
    trail: int = 0

    def carried(self, reach: float) -> Floats:
        """The path carried on straight at both ends by `reach` mm: `(N + 2, 4, 2)`."""
        first, last = self.path[0, 0], self.path[-1, 3]
        before, after = line(first - reach * self.leave, first), line(last, last + reach * self.arrive)
        return np.concatenate([before[None], self.path, after[None]])

    def source_at(self, distance: float) -> Floats:
        """The point `(2,)` of the run itself beside the parallel at `distance` mm along it."""
        beside, along = (f(self.path[None], distance)[0] for f in (point_at, tangent_at))
        return np.asarray(beside - self.distance * right_of(along))

    def backwards(self) -> Parallel:
        """The same line, run the other way."""
        path = np.ascontiguousarray(self.path[::-1, ::-1])
        return Parallel(path, -self.distance, self.end, self.start, -self.arrive, -self.leave, self.trail, self.lead)


def smooth_runs(path: Floats) -> list[Floats]:
    """A path `(S, 4, 2)` parted where it turns a corner, without its segments of no length, or of next to none."""
    kept = path[norm(path - path[:, :1]).max(axis=-1) > MOTE]
    arriving, leaving = end_tangent(kept)[:-1], start_tangent(kept)[1:]
    turn = np.abs(np.arctan2(cross(arriving, leaving), dot(arriving, leaving)))
    return np.split(kept, np.nonzero(turn > KINK)[0] + 1) if len(kept) else []


def parallel(run: Floats, distance: float, tolerance: float = TOLERANCE) -> Parallel:
    """The parallel of a smooth run `(S, 4, 2)` at `distance` mm, within `tolerance` mm.

    Inside a bend tighter than the distance it runs backwards for a while, between two cusps: a loop, as yet.
    """
    path, backwards = _fitted(run, distance, tolerance) if distance else (run.copy(), np.zeros(len(run), dtype=bool))
    forwards = np.nonzero(~backwards)[0]
    lead, trail = (int(forwards[0]), len(path) - 1 - int(forwards[-1])) if len(forwards) else (0, 0)
    leave, arrive = start_tangent(run[0]), end_tangent(run[-1])
    return Parallel(path, distance, run[0, 0], run[-1, 3], leave, arrive, lead, trail)


def _fitted(run: Floats, distance: float, tolerance: float) -> tuple[Floats, Bools]:
    """The parallel's cubics `(N, 4, 2)`, and which of them run backwards."""
    aside = np.full(len(run), distance)
    _, fits, backwards = fitted(run, *between_cusps(run, aside), aside, tolerance)
    return fits, backwards


def between_cusps(seg: Floats, distance: Floats) -> tuple[Ints, Floats, Floats]:
    """Parts `(index, from, to)` of segments `(N, 4, 2)` between the places where their parallels turn back.

    `distance` `(N,)` is that of each. Parts come in order.
    """
    at = np.linspace(0, 1, SCAN + 1)
    forward = relative_speed(seg, at, distance) > 0
    every = np.arange(len(seg))
    index, k = np.nonzero(forward[:, 1:] != forward[:, :-1])
    if not len(index):
        return every, np.zeros(len(seg)), np.ones(len(seg))
    places = _bisect(seg[index], at[k], at[k + 1], distance[index])
    index = np.concatenate([every, index])
    low = np.concatenate([np.zeros(len(seg)), places])
    order = np.lexsort((low, index))
    index, low = index[order], low[order]
    last = np.append(index[1:] != index[:-1], True)
    return index, low, np.where(last, 1.0, np.append(low[1:], 1.0))


def _bisect(seg: Floats, low: Floats, high: Floats, distance: Floats) -> Floats:
    before = relative_speed(seg, low[:, None], distance)[:, 0] > 0
    for _ in range(50):
        middle = (low + high) / 2
        same = (relative_speed(seg, middle[:, None], distance)[:, 0] > 0) == before
        low, high = np.where(same, middle, low), np.where(same, high, middle)
    return (low + high) / 2
