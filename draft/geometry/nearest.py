"""The place on a path that lies nearest to a point."""

from __future__ import annotations

import numpy as np

from draft.geometry.cubic import Floats, derivative, norm, point, second_derivative
from draft.geometry.flatten import sample
from draft.geometry.length import length_to, segment_lengths

PLACES = 24  # on each segment; the nearest of them lies in the same hollow as the nearest place of all
STEPS = 12  # Newton's steps double the right digits each


def nearest(path: Floats, to: Floats) -> tuple[Floats, Floats]:
    """The place on paths `(B, S, 4, 2)` nearest to points `(B, 2)`: how far along it lies, and how far off: `(B,)`."""
    bodies, count = path.shape[:2]
    seen = sample(path, PLACES)
    best = np.argmin(norm(seen - to[:, None]), axis=1)
    index = np.minimum(best // PLACES, count - 1)
    t = (best - index * PLACES) / PLACES
    body = np.arange(bodies)
    seg = path[body, index]
    low, high = np.clip(t - 1 / PLACES, 0.0, 1.0), np.clip(t + 1 / PLACES, 0.0, 1.0)
    for _ in range(STEPS):
        t = np.clip(t - _newton(seg, t, to), low, high)
    passed = np.where(np.arange(count) < index[:, None], segment_lengths(path), 0.0).sum(axis=-1)
    return passed + length_to(seg, t), norm(point(seg, t) - to)


def _newton(seg: Floats, t: Floats, to: Floats) -> Floats:
    """The step towards where the way to the point is square to the curve."""
    away, speed = point(seg, t) - to, derivative(seg, t)
    slope = np.sum(speed * speed, axis=-1) + np.sum(away * second_derivative(seg, t), axis=-1)
    safe = slope > 1e-9
    return np.asarray(np.where(safe, np.sum(away * speed, axis=-1) / np.where(safe, slope, 1.0), 0.0))
