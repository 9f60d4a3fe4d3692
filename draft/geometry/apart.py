"""How far apart two lines lie: the largest distance from a place on either to the nearest place on the other."""

from __future__ import annotations

import numpy as np

from draft.base.arrays import Floats
from draft.geometry.cubic import dot, norm, point
from draft.geometry.flatten import sample
from draft.geometry.nearest import nearest_place

PLACES = 32
"""Chords on each segment, to choose the place; how far off it is, is then found on the curves themselves."""


def farthest(path: Floats, other: Floats) -> tuple[Floats, Floats]:
    """How far apart paths `(B, S, 4, 2)` and `(B, R, 4, 2)` lie, in mm `(B,)`, and where on the one: points `(B, 2)`.

    It is the Hausdorff distance: lines that run alike but for their direction lie 0 apart. The place is that on either
    line which is farthest from the other.
    """
    at_there, at_back = _farthest_place(path, other), _farthest_place(other, path)
    there, back = nearest_place(other, at_there)[1], nearest_place(path, at_back)[1]
    return np.maximum(there, back), np.where((back > there)[:, None], at_back, at_there)


def _farthest_place(path: Floats, other: Floats) -> Floats:
    """The point of paths that lies farthest from other paths: `(B, 2)`; sought coarsely, then beside what was found."""
    line = sample(other, PLACES)
    worst = np.argmax(_off(sample(path, PLACES), line), axis=1) / PLACES
    places = np.clip(worst[:, None] + np.linspace(-1, 1, 2 * PLACES + 1) / PLACES, 0.0, path.shape[1])
    index = np.minimum(places.astype(int), path.shape[1] - 1)
    body = np.arange(len(path))
    seen = point(path[body[:, None], index], places - index)
    found: Floats = seen[body, np.argmax(_off(seen, line), axis=1)]
    return found


def _off(seen: Floats, line: Floats) -> Floats:
    """How far points `(B, N, 2)` lie from polylines `(B, M, 2)`: `(B, N)`."""
    begin, along = line[:, None, :-1], np.diff(line, axis=1)[:, None]
    square = dot(along, along)
    gap = seen[:, :, None] - begin
    share = np.clip(dot(gap, along) / np.where(square > 0, square, 1.0), 0.0, 1.0)
    return np.asarray(norm(gap - share[..., None] * along).min(axis=-1))
