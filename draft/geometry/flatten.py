"""Curves as polylines, for what only knows straight pieces: clipping, containment, checks against other programs."""

from __future__ import annotations

import math

import numpy as np

from draft.geometry.cubic import Floats, norm, point

MOST_PIECES = 4096
"""No segment is cut into more pieces than this, whatever the tolerance asks: a metre in quarters of a mm."""


def flatten(path: Floats, tolerance: float = 0.05) -> Floats:
    """One body's path `(S, 4, 2)` as a polyline `(N, 2)` of points on it, nowhere further from it than `tolerance` mm.

    Each segment is cut evenly in its parameter, as often as Wang's bound on the second differences of its controls
    asks: G. Wang, "The subdivision method for finding the intersection between two Bezier curves or surfaces" (1984),
    from memory. A straight segment at even speed stays in one piece.
    """
    if not len(path):
        return np.zeros((0, 2))
    parts = [point(seg, np.arange(1, n + 1) / n) for seg, n in zip(path, _pieces(path, tolerance), strict=True)]
    return np.concatenate([path[:1, 0], *parts])


def sample(path: Floats, n: int) -> Floats:
    """Points `(B, S * n + 1, 2)` on paths `(B, S, 4, 2)`: n to each segment, even in its parameter, and the first."""
    inner = point(path[:, :, None], np.arange(1, n + 1) / n)
    return np.concatenate([path[:, :1, 0], inner.reshape(len(path), -1, 2)], axis=1)


def _pieces(path: Floats, tolerance: float) -> list[int]:
    bend = norm(path[:, 2:] - 2 * path[:, 1:-1] + path[:, :-2]).max(axis=-1)
    counts = np.sqrt(0.75 * bend / tolerance)  # 3 * 2 / 8: the degree's part of Wang's bound
    return [min(MOST_PIECES, max(1, math.ceil(count))) for count in counts]
