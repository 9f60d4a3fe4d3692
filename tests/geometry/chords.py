"""Distances from polylines of a thousand chords and more, by shapely's tree of the chords, which asks few of them."""

from __future__ import annotations

import numpy as np
import shapely


def chords(line: np.ndarray) -> shapely.STRtree:
    """The chords of a polyline `(N, 2)`."""
    return shapely.STRtree(shapely.linestrings(np.stack([line[:-1], line[1:]], axis=1)))


def apart(line: shapely.STRtree, at: np.ndarray) -> np.ndarray:
    """How far each of many points `(M, 2)` lies from a polyline."""
    (asked, _), found = line.query_nearest(shapely.points(at), return_distance=True, all_matches=False)
    assert np.array_equal(asked, np.arange(len(at)))
    return found


def hausdorff(one: np.ndarray, other: np.ndarray, finer: int = 1) -> float:
    """How far at most either of two polylines lies from the other one: at its vertices, or at places so much closer.

    It is what `shapely.hausdorff_distance(..., densify=1 / finer)` gives.
    """
    return max(_farthest(one, other, finer), _farthest(other, one, finer))


def _farthest(line: np.ndarray, from_line: np.ndarray, finer: int) -> float:
    tree, steps = chords(from_line), np.diff(line, axis=0)
    off = apart(tree, line)
    # Along a chord the distance grows no faster than the way, from either end: most cannot hold the farthest place.
    within = (off[:-1] + off[1:] + np.hypot(*steps.T)) / 2 >= off.max()
    places = line[:-1][within, None] + steps[within, None] * np.linspace(0, 1, finer + 1)[:, None]
    return float(apart(tree, places.reshape(-1, 2)).max())
