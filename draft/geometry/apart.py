"""How far apart two lines lie: the largest distance from a place on either to the nearest place on the other."""

from __future__ import annotations

import numpy as np

from draft.base.arrays import Floats, Ints
from draft.geometry.cubic import dot, norm, point
from draft.geometry.flatten import sample
from draft.geometry.nearest import nearest_place

PLACES = 32
"""Chords on each segment, to choose the place; how far off it is, is then found on the curves themselves."""

ALIKE = 1e-6
"""Places whose distances differ by less, mm, are as far off: the first is taken, whatever a machine rounds off."""

_AT_ONCE = 1 << 19
"""So many pairs of a place and a chord are looked at together: what they need stays near the processor."""


def farthest(path: Floats, other: Floats) -> tuple[Floats, Floats]:
    """How far apart paths `(B, S, 4, 2)` and `(B, R, 4, 2)` lie, in mm `(B,)`, and where on the one: points `(B, 2)`.

    It is the Hausdorff distance: lines that run alike but for their direction lie 0 apart. The place is that on either
    line which is farthest from the other.
    """
    count = max(1, _AT_ONCE // (PLACES * PLACES * path.shape[1] * other.shape[1]))
    some = [slice(first, first + count) for first in range(0, len(path), count)]
    found = [_farthest_places(path[bodies], other[bodies]) for bodies in some]
    at_there, at_back = (np.concatenate([np.zeros((0, 2)), *places]) for places in zip(*found, strict=True))
    there, back = nearest_place(other, at_there)[1], nearest_place(path, at_back)[1]
    return np.maximum(there, back), np.where((back > there + ALIKE)[:, None], at_back, at_there)


def _farthest_places(path: Floats, other: Floats) -> tuple[Floats, Floats]:
    """The point of each path that lies farthest from the other, and of the other from it: `(B, 2)` each."""
    line, beyond = sample(path, PLACES), sample(other, PLACES)
    x, y = (line[:, :, None, axis] - beyond[:, None, :, axis] for axis in (0, 1))
    gaps = x * x + y * y
    return _farthest_place(path, line, beyond, gaps.min(axis=2)), _farthest_place(other, beyond, line, gaps.min(axis=1))


def _farthest_place(path: Floats, seen: Floats, line: Floats, near: Floats) -> Floats:
    """The point of paths that lies farthest from a polyline: `(B, 2)`; sought coarsely, then beside what was found.

    `near` is the square of how far each of the points seen lies from the nearest point of the line `(B, N)`.
    """
    worst = _worst(seen, line, near) / PLACES
    places = np.clip(worst[:, None] + np.linspace(-1, 1, 2 * PLACES + 1) / PLACES, 0.0, path.shape[1])
    index = np.minimum(places.astype(int), path.shape[1] - 1)
    body = np.arange(len(path))
    finer = point(path[body[:, None], index], places - index)
    found: Floats = finer[body, _first_farthest(_off(finer, line))]
    return found


def _worst(seen: Floats, line: Floats, near: Floats) -> Ints:
    """Which of the points seen `(B, N, 2)` lies farthest from polylines `(B, M, 2)`.

    Between its ends a chord comes nearer than both by no more than half its length allows: points that for all that lie
    nearer than another one are not measured.
    """
    half = dot(*[np.diff(line, axis=1)] * 2).max(axis=1) / 4
    least = np.sqrt(np.maximum(near - half[:, None], 0.0)).max(axis=1) * (1 - _ROUNDED) - 2 * ALIKE
    row, place = np.nonzero(near >= np.maximum(least, 0.0)[:, None] ** 2)
    off = np.zeros(near.shape)
    off[row, place] = _from_chords(seen[row, place][:, None], line[row, :-1], np.diff(line, axis=1)[row]).min(axis=-1)
    return _first_farthest(off)


def _first_farthest(off: Floats) -> Ints:
    """Where distances `(B, N)` are greatest: `(B,)`."""
    return np.asarray(np.argmax(off >= off.max(axis=1, keepdims=True) - ALIKE, axis=1))


def _off(seen: Floats, line: Floats) -> Floats:
    """How far points `(B, N, 2)` that lie close together are from polylines `(B, M, 2)`: `(B, N)`.

    Only chords that may be the nearest to any of them are measured: from one point to the next the distance changes by
    no more than they lie apart.
    """
    begin, along = line[:, :-1], np.diff(line, axis=1)
    middle = seen[:, seen.shape[1] // 2, None]
    reach = norm(seen - middle).max(axis=1)
    from_middle = _from_chords(middle, begin, along)
    most = from_middle.min(axis=1) + 2 * reach
    row, chord = np.nonzero(~(from_middle > (most * (1 + _ROUNDED) + _ROUNDED)[:, None]))
    off = _from_chords(seen[row], begin[row, chord, None], along[row, chord, None])
    return np.asarray(np.minimum.reduceat(off, np.searchsorted(row, np.arange(len(seen))), axis=0))


_ROUNDED = 1e-6
"""Far more than what reckoning rounds off."""


def _from_chords(seen: Floats, begin: Floats, along: Floats) -> Floats:
    """How far points lie from chords, each from where it begins and along it, `(..., 2)` and broadcast: `(...)`."""
    square = dot(along, along)
    gap = seen - begin
    share = np.clip(dot(gap, along) / np.where(square > 0, square, 1.0), 0.0, 1.0)
    return norm(gap - share[..., None] * along)
