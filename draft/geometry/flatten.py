"""Curves as polylines, for what only knows straight lines: clipping, containment, checks against other programs."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from draft.base.arrays import Floats, Ints, repeated
from draft.geometry.cubic import evenly, is_straight, norm, point, weighed, weights

MOST_CHORDS = 4096
"""No segment has more chords than this, whatever the tolerance asks: a metre in quarters of a mm."""

SAMPLES = 16
"""Points on a curved segment that is only looked at: on a 300 mm curve of a garment the chords stay within 0.1 mm."""


def flatten(path: Floats, tolerance: float = 0.05) -> Floats:
    """One body's path `(S, 4, 2)` as a polyline `(N, 2)` of points on it, nowhere further from it than `tolerance` mm.

    Each segment is parted evenly in its parameter, as often as Wang's bound on the second differences of its controls
    asks: G. Wang, "The subdivision method for finding the intersection between two Bezier curves or surfaces" (1984),
    from memory. A straight segment at even speed has one chord.
    """
    if not len(path):
        return np.zeros((0, 2))
    return np.concatenate([path[:1, 0], _along(path, _chords(path, tolerance))])


def flatten_each(paths: Sequence[Floats], tolerance: float = 0.05) -> tuple[Floats, Ints]:
    """Paths `(S, 4, 2)`, each as `flatten` has it: all their points `(N, 2)`, and which path each is of `(N,)`."""
    sizes = np.array([len(path) for path in paths], dtype=np.intp)
    every = np.concatenate([np.zeros((0, 4, 2)), *paths])
    chords = _chords(every, tolerance)
    of = np.repeat(np.repeat(np.arange(len(paths)), sizes), chords)
    begun = np.nonzero(sizes)[0]
    at = np.searchsorted(of, begun)
    firsts = every[(np.cumsum(sizes) - sizes)[begun], 0]
    return np.insert(_along(every, chords), at, firsts, axis=0), np.insert(of, at, begun)


def sample(path: Floats, n: int) -> Floats:
    """Points `(B, S * n + 1, 2)` on paths `(B, S, 4, 2)`: n to each segment, even in its parameter, and the first."""
    by = weights(np.arange(1, n + 1) / n)
    found = np.empty((len(path), path.shape[1] * n + 1, 2))
    found[:, 0] = path[:, 0, 0]
    for axis in (0, 1):  # parameters last: numpy is quickest along them
        along = weighed([path[:, :, k, axis, None] for k in range(4)], by)
        found[:, 1:, axis] = along.reshape(len(path), -1)
    return found


def polyline(path: Floats, n: int = SAMPLES) -> Floats:
    """One body's path `(S, 4, 2)` as points on it `(N, 2)`, both ends included: n to each curved segment.

    They are even in its parameter; a straight segment gives its ends only.
    """
    return polyline_each([path], n)[0]


def polyline_each(paths: Sequence[Floats], n: int = SAMPLES) -> list[Floats]:
    """Paths `(S, 4, 2)`, each as `polyline` has it: quicker than one by one."""
    if not paths:
        return []
    every = np.concatenate(paths) if len(paths) > 1 else paths[0]
    along = evenly(every, n)
    keep = np.ones(along.shape[:2], dtype=bool)
    keep[is_straight(every), 1:] = False
    before = np.concatenate([[0], np.cumsum(keep.sum(axis=1))])  # points before each segment
    ends, points = np.cumsum([len(path) for path in paths]), along[keep]
    return [
        np.concatenate([points[before[end - len(path)] : before[end]], path[-1:, 3]])
        for path, end in zip(paths, ends.tolist(), strict=True)
    ]


def _along(path: Floats, chords: Ints) -> Floats:
    """The points `(N, 2)` that part each segment `(S, 4, 2)` into its number of chords, without its first."""
    which, order = repeated(chords)
    return point(path[which], (order + 1) / chords[which])


def _chords(path: Floats, tolerance: float) -> Ints:
    bend = norm(path[:, 2:] - 2 * path[:, 1:-1] + path[:, :-2]).max(axis=-1)
    counts = np.ceil(np.sqrt(0.75 * bend / tolerance))  # 3 * 2 / 8: the degree's part of Wang's bound
    return np.asarray(np.clip(counts, 1, MOST_CHORDS), dtype=np.intp)
