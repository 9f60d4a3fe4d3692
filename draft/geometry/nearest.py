"""The place on a path that lies nearest to a point."""

from __future__ import annotations

import numpy as np

from draft.geometry.cubic import Floats, Ints, derivative, dot, norm, point, second_derivative
from draft.geometry.flatten import sample
from draft.geometry.length import length_to, segment_lengths

PLACES = 24  # chords on each segment; a hollow narrower than one of them is narrower than a stitch
ON_EDGE = 0.05  # mm: a point this near to an edge lies on it
STEPS = 12  # Newton's steps double the right digits each


def nearest(path: Floats, to: Floats) -> tuple[Floats, Floats]:
    """The place on paths `(B, S, 4, 2)` nearest to points `(B, 2)`: how far along it lies, and how far off: `(B,)`.

    It is sought on the nearest chord and on the two beside it: at a joint the nearest place may lie on either side.
    """
    chord = _nearest_chord(sample(path, PLACES), to)
    last = path.shape[1] * PLACES - 1
    found = [_within(path, to, np.clip(chord + step, 0, last)) for step in (0, -1, 1)]
    index, t, off = found[0]
    for other_index, other_t, other_off in found[1:]:
        nearer = other_off < off
        index, t = np.where(nearer, other_index, index), np.where(nearer, other_t, t)
        off = np.where(nearer, other_off, off)
    seg = path[np.arange(len(path)), index]
    passed = np.where(np.arange(path.shape[1]) < index[:, None], segment_lengths(path), 0.0).sum(axis=-1)
    return passed + length_to(seg, t), off


def _nearest_chord(seen: Floats, to: Floats) -> Ints:
    """Which chord of polylines `(B, N, 2)` lies nearest to points `(B, 2)`; the first of several."""
    begin, along = seen[:, :-1], np.diff(seen, axis=1)
    square = dot(along, along)
    share = np.clip(dot(to[:, None] - begin, along) / np.where(square > 0, square, 1.0), 0.0, 1.0)
    return np.asarray(np.argmin(norm(begin + share[..., None] * along - to[:, None]), axis=1))


def _within(path: Floats, to: Floats, chord: Ints) -> tuple[Ints, Floats, Floats]:
    """The nearest place on the stretch over one chord: its segment, the parameter there, and how far off it lies."""
    index = chord // PLACES
    seg = path[np.arange(len(path)), index]
    low = (chord - index * PLACES) / PLACES
    high = low + 1 / PLACES
    t = (low + high) / 2
    for _ in range(STEPS):
        t = np.clip(t - _newton(seg, t, to), low, high)
    tried = np.stack([t, low, high])
    off = norm(point(seg, tried) - to)
    best = np.argmin(off, axis=0)
    body = np.arange(len(path))
    return index, tried[best, body], off[best, body]


def _newton(seg: Floats, t: Floats, to: Floats) -> Floats:
    """The step towards where the way to the point is square to the curve."""
    away, speed = point(seg, t) - to, derivative(seg, t)
    slope = dot(speed, speed) + dot(away, second_derivative(seg, t))
    safe = slope > 1e-9
    return np.where(safe, dot(away, speed) / np.where(safe, slope, 1.0), 0.0)
