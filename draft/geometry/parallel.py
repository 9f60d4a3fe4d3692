"""Lines parallel to a smooth run of segments: what a seam allowance is made of, before its corners.

The parallel of a cubic is no cubic, so it is fitted: cubics with the true ends and the true derivatives there
(c' scaled by 1 + distance * curvature), halved until each is within tolerance of the true parallel.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from draft.geometry.cubic import (
    Bools,
    Floats,
    Ints,
    cross,
    curvature,
    derivative,
    dot,
    end_tangent,
    line,
    norm,
    point,
    right_of,
    start_tangent,
    unit,
)
from draft.geometry.length import point_at, tangent_at

TOLERANCE = 0.01
"""A hundredth of a millimetre: a twentieth of the thinnest line that a home printer draws."""

KINK = 1e-6
"""Segments that turn by more than this (rad) at their joint meet in a corner; a smaller turn parts no parallels."""

HALVINGS = 12
"""No piece is halved more often: what is left then is a cusp some thousandths of the segment wide."""

STANDSTILL = 1e-6
"""Where a handle lies on its point the direction is taken this share of the piece further inside."""

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
    """A path `(S, 4, 2)` parted where it turns a corner, without its segments of no length."""
    kept = path[norm(path - path[:, :1]).max(axis=-1) > 0]
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
    index, low, high = _between_cusps(run, distance)
    done: list[tuple[Ints, Floats, Floats, Bools]] = []
    for step in range(HALVINGS + 1):
        fit = _fit(run[index], low, high, distance)
        good = (_miss(fit, run[index], low, high, distance) <= tolerance) | (step == HALVINGS)
        backwards = 1 + distance * curvature(run[index], (low + high) / 2) < 0
        done.append((index[good], low[good], fit[good], backwards[good]))
        if good.all():
            break
        index, low, high = index[~good], low[~good], high[~good]
        middle = (low + high) / 2
        index, low, high = np.tile(index, 2), np.concatenate([low, middle]), np.concatenate([middle, high])
    indices, starts, fits, backward = (np.concatenate(column) for column in zip(*done, strict=True))
    order = np.lexsort((starts, indices))
    return fits[order], backward[order].astype(bool)


def _between_cusps(run: Floats, distance: float) -> tuple[Ints, Floats, Floats]:
    """Each segment's stretches `(index, from, to)` between the places where its parallel turns back."""
    at = np.linspace(0, 1, SCAN + 1)
    forward = 1 + distance * curvature(run[:, None], at) > 0
    index, k = np.nonzero(forward[:, 1:] != forward[:, :-1])
    places = _bisect(run[index], at[k], at[k + 1], distance) if len(index) else at[k]
    every = np.arange(len(run))
    index = np.concatenate([every, index])
    low = np.concatenate([np.zeros(len(run)), places])
    order = np.lexsort((low, index))
    index, low = index[order], low[order]
    last = np.append(index[1:] != index[:-1], True)
    return index, low, np.where(last, 1.0, np.append(low[1:], 1.0))


def _bisect(seg: Floats, low: Floats, high: Floats, distance: float) -> Floats:
    before = 1 + distance * curvature(seg, low) > 0
    for _ in range(50):
        middle = (low + high) / 2
        same = (1 + distance * curvature(seg, middle) > 0) == before
        low, high = np.where(same, middle, low), np.where(same, high, middle)
    return (low + high) / 2


def _fit(seg: Floats, low: Floats, high: Floats, distance: float) -> Floats:
    """The cubics `(M, 4, 2)` with the ends of the true parallel between two parameters and its derivatives there."""
    wide = high - low
    first, velocity_first = _true(seg, low, low + STANDSTILL * wide, distance)
    last, velocity_last = _true(seg, high, high - STANDSTILL * wide, distance)
    third = wide[:, None] / 3
    return np.stack([first, first + third * velocity_first, last - third * velocity_last, last], axis=-2)


def _true(seg: Floats, t: Floats, inside: Floats, distance: float) -> tuple[Floats, Floats]:
    """The true parallel's points and derivatives at `t`; directions from `inside` where the segment stands still."""
    moving = norm(derivative(seg, t)) > STANDSTILL * norm(derivative(seg, inside))
    at = np.where(moving, t, inside)
    velocity = derivative(seg, at)
    stretch = 1 + distance * curvature(seg, at)
    return point(seg, t) + distance * right_of(unit(velocity)), stretch[..., None] * velocity


def _miss(fit: Floats, seg: Floats, low: Floats, high: Floats, distance: float) -> Floats:
    """How far at most `(M,)` the fitted cubics, at a few places, lie from the true parallel.

    The true point at the same parameter may lie ahead or behind: one step along the parallel goes to the nearest.
    """
    share = np.arange(1, 8) / 8
    drawn = point(fit[:, None], share)
    t = low[:, None] + (high - low)[:, None] * share
    seg = seg[:, None]
    true, velocity = _true(seg, t, t, distance)
    square = dot(velocity, velocity)
    ahead = np.where(square > 0, dot(drawn - true, velocity) / np.where(square > 0, square, 1.0), 0.0)
    nearest = np.clip(t + ahead, low[:, None], high[:, None])
    miss: Floats = norm(drawn - _true(seg, nearest, nearest, distance)[0]).max(axis=-1)
    return miss
