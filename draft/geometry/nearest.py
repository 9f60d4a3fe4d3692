"""The place on a path that lies nearest to a point."""

from __future__ import annotations

import numpy as np

from draft.base.arrays import Bools, Floats, Ints
from draft.geometry.cubic import blend, derivative, dot, norm, point, second_derivative
from draft.geometry.known_again import known_again
from draft.geometry.length import length_to, segment_lengths, tangent_at

PLACES = 24  # chords on each segment; a hollow narrower than one of them is narrower than a stitch
ON_EDGE = 0.05  # mm: a point this near to an edge lies on it
STEPS = 12  # Newton's steps double the right digits each
_SURE = 8  # places of a distance: of two that are the same but for rounding the first is taken, by every library
SETTLED = 1e-14  # of a segment's parameter: the next step changes no digit that counts


def nearest_place(path: Floats, to: Floats) -> tuple[Floats, Floats]:
    """The place on paths `(B, S, 4, 2)` nearest to points `(B, 2)`: how far along it lies, and how far off: `(B,)`."""
    index, t, off = nearest_spot(path, to)
    seg = path[np.arange(len(path)), index]
    before = np.arange(path.shape[1]) < index[:, None]
    passed = np.zeros(before.shape)
    passed[before] = segment_lengths(path[before])
    return passed.sum(axis=-1) + length_to(seg, t), off


def tangent_near(path: Floats, to: Floats) -> tuple[Floats, Floats]:
    """The unit vectors `(B, 2)` along paths at the places nearest to points `(B, 2)`, and how far off these lie."""
    place, off = nearest_place(path, to)
    return tangent_at(path, place), off


@known_again
def nearest_spot(path: Floats, to: Floats) -> tuple[Ints, Floats, Floats]:
    """The same place as a segment, the parameter on it, and how far off it lies: `(B,)` each.

    A point that is a joint of the path is known by that. Else it is sought on the nearest chord and on the two beside
    it: at a joint the nearest place may lie on either side.
    """
    index, t, at_joint = _joint(path, to)
    off = np.zeros(len(path))
    rows = np.flatnonzero(~at_joint)
    if rows.size:
        index[rows], t[rows], off[rows] = _sought(path[rows], to[rows])
    return index, t, off


def _joint(path: Floats, to: Floats) -> tuple[Ints, Floats, Bools]:
    """The segment and parameter of the first joint or end that a point is, `(B,)`, and whether it is any."""
    joints = np.concatenate([path[:, :, 0], path[:, -1:, 3]], axis=1)
    same = np.all(joints == to[:, None], axis=-1)
    first = np.argmax(same, axis=1)
    last = path.shape[1] - 1
    return np.minimum(first, last), np.where(first > last, 1.0, 0.0), np.asarray(same.any(axis=1))


def _sought(path: Floats, to: Floats) -> tuple[Ints, Floats, Floats]:
    chord = _nearest_chord(path, to)
    chords = np.clip(chord + np.array([[0], [-1], [1]]), 0, path.shape[1] * PLACES - 1)
    indices, ts, offs = _within(path, to, chords)
    best, body = np.argmin(np.round(offs, _SURE), axis=0), np.arange(len(path))
    return indices[best, body], ts[best, body], offs[best, body]


def _nearest_chord(path: Floats, to: Floats) -> Ints:
    """Which chord of paths `(B, S, 4, 2)` lies nearest to points `(B, 2)`; the first of several."""
    x, y = (_sampled(path[..., k]) for k in (0, 1))  # twice as quick as points side by side
    u, v, along_x, along_y = x[:, :-1], y[:, :-1], np.diff(x, axis=1), np.diff(y, axis=1)
    to_x, to_y = to[:, :1], to[:, 1:]
    square = along_x * along_x + along_y * along_y
    share = ((to_x - u) * along_x + (to_y - v) * along_y) / np.where(square > 0, square, 1.0)
    np.clip(share, 0.0, 1.0, out=share)
    off = np.hypot(u + share * along_x - to_x, v + share * along_y - to_y)
    return np.asarray(np.argmin(np.round(off, _SURE), axis=1))


def _sampled(controls: Floats) -> Floats:
    """One coordinate `(B, S * PLACES + 1)` of points on paths, as `sample` has them, of that of their controls."""
    inner = blend([controls[:, :, None, k] for k in range(4)], np.arange(1, PLACES + 1) / PLACES)
    return np.concatenate([controls[:, :1, 0], inner.reshape(len(controls), -1)], axis=1)


def _within(path: Floats, to: Floats, chords: Ints) -> tuple[Ints, Floats, Floats]:
    """The nearest place on what lies over each chord `(K, B)`: its segment, the parameter there, and how far off."""
    index = chords // PLACES
    seg = path[np.arange(len(path)), index]
    low = (chords - index * PLACES) / PLACES
    high = low + 1 / PLACES
    t = (low + high) / 2
    left = np.nonzero(np.ones_like(t, dtype=bool))  # a body comes out the same whatever its neighbours still need
    for _ in range(STEPS):
        now = t[left]
        moved = np.clip(now - _newton(seg[left], now, to[left[1]]), low[left], high[left])
        unsettled = ~(np.abs(moved - now) < SETTLED)
        if not unsettled.any():
            break
        left = (left[0][unsettled], left[1][unsettled])
        t[left] = moved[unsettled]
    tried = np.stack([t, low, high])
    offs = norm(point(seg, tried) - to)
    best = np.argmin(offs, axis=0)[None]
    return index, np.take_along_axis(tried, best, 0)[0], np.take_along_axis(offs, best, 0)[0]


def _newton(seg: Floats, t: Floats, to: Floats) -> Floats:
    """The step towards where the way to the point is square to the curve."""
    away, speed = point(seg, t) - to, derivative(seg, t)
    slope = dot(speed, speed) + dot(away, second_derivative(seg, t))
    safe = slope > 1e-9
    return np.where(safe, dot(away, speed) / np.where(safe, slope, 1.0), 0.0)
