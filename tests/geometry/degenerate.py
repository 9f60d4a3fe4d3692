"""Segments that a drafter never wants and an engine meets all the same: `(4, 2)` each, by name."""

from __future__ import annotations

import numpy as np

SEGMENTS = {
    "zero length": np.full((4, 2), 3.0),
    "straight": np.array([[0, 0], [10, 0], [20, 0], [30, 0]], dtype=float),
    "straight without handles": np.array([[0, 0], [0, 0], [30, 40], [30, 40]], dtype=float),
    "first handle on its point": np.array([[0, 0], [0, 0], [20, 30], [50, 30]], dtype=float),
    "last handle on its point": np.array([[0, 0], [20, 30], [50, 30], [50, 30]], dtype=float),
    "cusp": np.array([[0, 0], [60, 60], [0, 60], [60, 0]], dtype=float),
    "loop": np.array([[0, 0], [100, 60], [-40, 60], [60, 0]], dtype=float),
    "coincident ends": np.array([[0, 0], [40, 30], [-40, 30], [0, 0]], dtype=float),
    "folded back": np.array([[0, 0], [60, 0], [-20, 0], [40, 0]], dtype=float),
    "three points in one": np.array([[5, 5], [5, 5], [5, 5], [25, 5]], dtype=float),
}

PATHS = np.stack(list(SEGMENTS.values()))[:, None]
"""The same as a path of one segment for each of many bodies: `(bodies, 1, 4, 2)`."""
