"""A cutting line that keeps its distance whatever the outline: round at the corners, and made of short straight lines.

It stands in where parallels and corners cannot be told apart, as beside a bend far tighter than the allowance.
"""

from __future__ import annotations

from typing import Any

import numpy as np

from draft.base.arrays import Floats
from draft.garment.garment import Piece
from draft.geometry.cubic import line, norm
from draft.geometry.flatten import flatten

FINE = 0.004  # mm
ROUND = 64  # lines to a quarter circle: within 0.002 mm of one of 25 mm
FAR = 1e5  # mm: beyond any piece


def around(piece: Piece, body: int, sewing: Floats) -> Floats:
    """The closed outline `(N, 4, 2)` of everything within each edge's allowance of it, cut off at the fold."""
    import shapely

    covered = [shapely.Polygon(flatten(sewing, FINE)).buffer(0)]
    for edge in piece.edges:
        if not edge.on_fold and edge.allowance > 0:
            line_of_edge = shapely.LineString(flatten(edge.segments[body], FINE))
            covered.append(line_of_edge.buffer(edge.allowance, quad_segs=ROUND))
    shape = shapely.union_all(covered)
    for fold in [edge.segments[body] for edge in piece.edges if edge.on_fold]:
        if norm(fold[-1, 3] - fold[0, 0]) > 0:  # one without length cuts nothing off
            shape = shape.intersection(_beside(fold, sewing))
    if shape.geom_type != "Polygon":
        shape = max(getattr(shape, "geoms", [shape]), key=lambda part: part.area)
    ring = np.array(shape.simplify(FINE / 2).exterior.coords)[:-1]
    return line(ring, np.roll(ring, -1, axis=0))


def _beside(fold: Floats, sewing: Floats) -> Any:
    """The half plane on the piece's side of its fold."""
    import shapely

    start, away = fold[0, 0], fold[-1, 3] - fold[0, 0]
    along = away / max(float(np.hypot(*away)), 1e-9)
    square = np.array([-along[1], along[0]])
    side = 1.0 if np.sum((sewing[:, 0] - start) @ square) >= 0 else -1.0
    a, b = start - FAR * along, start + FAR * along
    return shapely.Polygon([a, b, b + side * FAR * square, a + side * FAR * square])
