"""Where two edges meet, for all bodies at once: the first place, the last, or the one nearest to a point."""

from __future__ import annotations

import numpy as np

from draft.base.arrays import Bools, Floats, Ints
from draft.geometry.cubic import cross, derivative, norm, point
from draft.geometry.flatten import sample

PLACES = 16  # chords on each segment; two meetings within one chord of both edges count as one
STEPS = 20  # Newton's steps; far more than the handful needed
FAR = 1e5  # mm: a line is taken to reach this far both ways, beyond any piece
CLOSE = 1e-6  # mm


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
    crossed, at_a, at_b = _chords(a, b)
    chosen = _choose(crossed, a, at_a, near)
    ok = np.asarray(crossed.any(axis=(1, 2)))
    body = np.arange(len(path))
    k, m = np.unravel_index(chosen, crossed.shape[1:])
    t, s = k + at_a[body, k, m], m + at_b[body, k, m]
    return _refine(path, other, t / PLACES, s / PLACES, ok)


def _chords(a: Floats, b: Floats) -> tuple[Bools, Floats, Floats]:
    """Which chords of two polylines cross, `(B, K, M)`, and at what share of each."""
    da, db = np.diff(a, axis=1)[:, :, None], np.diff(b, axis=1)[:, None]
    gap = b[:, None, :-1] - a[:, :-1, None]
    turn = cross(da, db)
    safe = np.abs(turn) > 1e-12
    divisor = np.where(safe, turn, 1.0)
    t, s = cross(gap, db) / divisor, cross(gap, da) / divisor
    slack = 1e-9
    within = (t >= -slack) & (t <= 1 + slack) & (s >= -slack) & (s <= 1 + slack)
    return safe & within, np.clip(t, 0.0, 1.0), np.clip(s, 0.0, 1.0)


def _choose(crossed: Bools, a: Floats, at_a: Floats, near: Floats | None) -> Ints:
    """The flat index of the crossing that is wanted, for each body."""
    if near is None:
        rank = np.arange(crossed.shape[1])[None, :, None] + at_a
    else:
        places = a[:, :-1, None] + at_a[..., None] * np.diff(a, axis=1)[:, :, None]
        rank = norm(places - near[:, None, None])
    flat = np.where(crossed, rank, np.inf).reshape(len(crossed), -1)
    return np.asarray(np.argmin(flat, axis=1))


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
        t = np.clip(t + np.where(safe, cross(gap, v) / divisor, 0.0), *around[0])
        s = np.clip(s + np.where(safe, cross(gap, u) / divisor, 0.0), *around[1])
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
