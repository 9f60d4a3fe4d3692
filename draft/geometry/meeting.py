"""Where two edges meet, for all bodies at once: the first place, the last, or the one nearest to a point."""

from __future__ import annotations

from functools import reduce
from typing import TypeAlias

import numpy as np

from draft.base.arrays import Bools, Floats, Ints
from draft.geometry.cubic import cross, derivative, norm, point
from draft.geometry.flatten import sample

PLACES = 16  # chords on each segment; two meetings within one chord of both edges count as one
STEPS = 20  # Newton's steps; far more than the handful needed
FAR = 1e5  # mm: a line is taken to reach this far both ways, beyond any piece
CLOSE = 1e-6  # mm
_PARTS = 4  # of a run of chords that is looked at more closely
_WITHIN = np.indices((_PARTS, _PARTS)).reshape(2, -1)
_BESIDE = 1e-3  # mm: chords whose boxes are further apart do not cross, whatever is rounded off

Pairs: TypeAlias = tuple[Ints, Ints, Ints]
"""The bodies `(N,)`, and a chord of each of two polylines `(N,)`."""


def line_path(p: Floats, d: Floats) -> Floats:
    """The line through `p` along the unit direction `d`, `(B, 2)` each, as a path of one straight segment."""
    a, b = p - FAR * d, p + FAR * d
    return np.stack([a, a + (b - a) / 3, a + (b - a) * 2 / 3, b], axis=1)[:, None]


def edges_meet(path: Floats, other: Floats, near: Floats | None = None) -> tuple[Floats, Bools]:
    """Where paths `(B, S, 4, 2)` meet others `(B, R, 4, 2)`: the points `(B, 2)`, and where there is one.

    It is the first meeting along `path`, or the one nearest to the points `near` `(B, 2)`. Lines may stand for
    edges (see `line_path`).
    """
    a, b = sample(path, PLACES), sample(other, PLACES)
    pairs = _crossing(a, b)
    body, k, m = _chosen(pairs, a, b, near)
    ok = np.zeros(len(path), dtype=bool)
    ok[body] = True
    first = np.zeros((2, len(path)), dtype=np.intp)  # chords of whoever has no meeting, that there be a point
    first[:, body] = k, m
    _, at_a, at_b = _chords(a, b, np.arange(len(path)), *first)
    return _refine(path, other, (first[0] + at_a) / PLACES, (first[1] + at_b) / PLACES, ok)


def _crossing(a: Floats, b: Floats) -> Pairs:
    """Which chords of polylines `(B, K + 1, 2)` and `(B, M + 1, 2)` cross: the body, and the number of each chord.

    Boxes about ever shorter runs of chords, down to one, tell which need not be looked at.
    """
    boxes = list(zip(_boxes(a), _boxes(b), strict=True))
    body, k, m = (places.ravel() for places in np.indices((len(a), *(low.shape[1] for low, _ in boxes[-1]))))
    for number, ((low, high), (other_low, other_high)) in enumerate(reversed(boxes)):
        if number:
            row, column = (_PARTS * places[:, None] + _WITHIN[way] for way, places in enumerate((k, m)))
            body, k, m = np.repeat(body, _PARTS**2), row.ravel(), column.ravel()
        apart = np.maximum(low[body, k] - other_high[body, m], other_low[body, m] - high[body, k])
        near = np.maximum(apart[:, 0], apart[:, 1]) <= _BESIDE
        body, k, m = body[near], k[near], m[near]
    crossed = _chords(a, b, body, k, m)[0]
    return body[crossed], k[crossed], m[crossed]


def _boxes(points: Floats) -> list[tuple[Floats, Floats]]:
    """The lowest and highest corners of each chord of polylines `(B, K + 1, 2)`, of runs of four, and of segments."""
    boxes = [(np.minimum(points[:, :-1], points[:, 1:]), np.maximum(points[:, :-1], points[:, 1:]))]
    while _PARTS ** len(boxes) <= PLACES:
        low, high = boxes[-1]
        boxes.append((_of_runs(np.minimum, low), _of_runs(np.maximum, high)))
    return boxes


def _of_runs(better: np.ufunc, corners: Floats) -> Floats:
    """Of each run of corners `(B, K, 2)` the least or the greatest: `(B, K / _PARTS, 2)`."""
    found: Floats = reduce(better, [corners[:, first::_PARTS] for first in range(_PARTS)])
    return found


def _chords(a: Floats, b: Floats, body: Ints, k: Ints, m: Ints) -> tuple[Bools, Floats, Floats]:
    """Whether chords of two polylines cross, pair by pair, and at what share of each."""
    start, other = a[body, k], b[body, m]
    da, db = a[body, k + 1] - start, b[body, m + 1] - other
    gap = other - start
    turn = cross(da, db)
    safe = np.abs(turn) > 1e-12
    divisor = np.where(safe, turn, 1.0)
    t, s = cross(gap, db) / divisor, cross(gap, da) / divisor
    slack = 1e-9
    within = (t >= -slack) & (t <= 1 + slack) & (s >= -slack) & (s <= 1 + slack)
    return safe & within, np.clip(t, 0.0, 1.0), np.clip(s, 0.0, 1.0)


def _chosen(pairs: Pairs, a: Floats, b: Floats, near: Floats | None) -> Pairs:
    """Of the chords that cross, those that are wanted: one pair for each body that has any, the bodies in order."""
    body, k, m = pairs
    at_a = _chords(a, b, *pairs)[1]
    if near is None:
        rank = k + at_a
    else:
        start = a[body, k]
        rank = norm(start + at_a[:, None] * (a[body, k + 1] - start) - near[body])
    order = np.lexsort((m, k, rank, body))
    first = order[np.unique(body[order], return_index=True)[1]]
    return body[first], k[first], m[first]


def _refine(path: Floats, other: Floats, t: Floats, s: Floats, ok: Bools) -> tuple[Floats, Bools]:
    """Newton's steps on both curves from where their chords cross, over joints where need be but not far.

    A place is one number: its whole part is the segment, its fraction the parameter there.
    """
    around = (_around(t, path.shape[1]), _around(s, other.shape[1]))
    for _ in range(STEPS):
        one, u = _at(path, t)
        two, v = _at(other, s)
        gap = two - one
        turn = cross(u, v)
        safe = np.abs(turn) > 1e-12
        divisor = np.where(safe, turn, 1.0)
        before = t, s
        t = np.clip(t + np.where(safe, cross(gap, v) / divisor, 0.0), *around[0])
        s = np.clip(s + np.where(safe, cross(gap, u) / divisor, 0.0), *around[1])
        if np.array_equal(before, (t, s)):  # no further step would change anything
            break
    found = _at(path, t)[0]
    return found, ok & (norm(found - _at(other, s)[0]) < CLOSE)


def _around(place: Floats, last: int) -> tuple[Floats, Floats]:
    """From where to where a place may move: two chords either way, within the path."""
    return np.maximum(place - 2 / PLACES, 0.0), np.minimum(place + 2 / PLACES, last)


def _at(path: Floats, place: Floats) -> tuple[Floats, Floats]:
    """The points and velocities `(B, 2)` at places `(B,)` of paths."""
    index = np.minimum(place.astype(int), path.shape[1] - 1)
    seg = path[np.arange(len(path)), index]
    return point(seg, place - index), derivative(seg, place - index)
