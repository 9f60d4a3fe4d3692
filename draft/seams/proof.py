"""The cutting line proved: clear of itself, around the piece, and nowhere nearer to it than the allowance.

It is an independent look, with shapely, at what `draft.seams.allowance` draws.
"""

from __future__ import annotations

import numpy as np

from draft.geometry.cubic import Floats
from draft.geometry.flatten import flatten
from draft.piece import Piece

SLACK = 0.05  # mm: the flattening of both lines, and the tolerance of the parallel
FINE = 0.02  # mm
ON_FOLD = 0.01  # mm: the cutting line runs on the fold itself there


def is_proved(piece: Piece, body: int, seam: Floats, cut: Floats) -> bool:
    """Whether a piece's closed cutting line `(N, 4, 2)` keeps its distance from its sewing line `(M, 4, 2)`.

    The distance is that of the narrowest allowance. Lines on the fold are left out.
    """
    import shapely

    sewn, line = flatten(seam, FINE), flatten(cut, FINE)
    ring = shapely.remove_repeated_points(shapely.linearrings(line), 1e-4)
    if not shapely.is_simple(ring) or not shapely.Polygon(ring).buffer(SLACK).covers(shapely.linestrings(sewn)):
        return False
    widths = [edge.allowance for edge in piece.edges if not edge.on_fold]
    return _gap(piece, body, sewn, line) >= min(widths, default=0.0) - SLACK


def _gap(piece: Piece, body: int, sewn: Floats, line: Floats) -> float:
    """The least distance between the two lines, the fold apart."""
    import shapely

    points = line
    for fold in [edge.segments[body] for edge in piece.edges if edge.on_fold]:
        away = fold[-1, 3] - fold[0, 0]
        aside = np.abs((points - fold[0, 0]) @ np.array([-away[1], away[0]])) / max(float(np.hypot(*away)), 1e-9)
        points = points[aside > ON_FOLD]
    if not len(points):
        return np.inf
    return float(np.min(shapely.distance(shapely.linestrings(sewn), shapely.points(points))))
