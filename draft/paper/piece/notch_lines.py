"""Notches as they are snipped: short lines from the cutting line towards the seam (common practice)."""

from __future__ import annotations

from typing import Any

import numpy as np

from draft.base.arrays import Floats
from draft.garment.garment import Notch, Piece
from draft.geometry import cubic
from draft.geometry.cubic import lines_through
from draft.geometry.outline_parts import ON_LINE
from draft.geometry.ruler import Ruler

NOTCH = 5.0
"""Length of a notch in mm; never more than half of the allowance, so that a snip stays well clear of the seam. Beside a
corner the cutting line may come nearer than the allowance: then it is half of what is there."""
NOTCH_PART = 0.45
NOTCH_OUT = 4.0  # where there is no allowance to snip into, the notch stands outside the edge
NOTCH_APART = 5.0


def notch_lines(
    piece: Piece, body: int, notch: Notch, cutting: Any, outward: float, ruler: Ruler | None = None
) -> tuple[Floats, ...]:
    """The strokes of a notch as straight segments `(1, 4, 2)`, y up as in the piece.

    `cutting` is the cutting outline as a shapely ring; `outward` is 1 where the outline runs counterclockwise, else -1.
    The `ruler` of the notch's edge is made where it is not given.
    """
    edge = piece.edge(notch.edge)
    along = ruler or Ruler(edge.segments[body])
    first = float(notch.at[body]) - NOTCH_APART * (notch.strokes - 1) / 2
    return tuple(
        notch_line(along, first + NOTCH_APART * k, edge.allowance, cutting, outward) for k in range(notch.strokes)
    )


def notch_line(ruler: Ruler, at: float, allowance: float, cutting: Any, outward: float) -> Floats:
    """One stroke of a notch `(1, 4, 2)`, y up, at distance `at` along an edge's ruler; see `notch_lines`."""
    point, direction = ruler.place(at)
    normal = cubic.right_of(direction) * outward
    if allowance <= ON_LINE:
        return lines_through([point, point + normal * NOTCH_OUT])
    edge = _cutting_point(point, normal, allowance, cutting)
    return lines_through([edge, edge - normal * min(NOTCH, NOTCH_PART * float(cubic.norm(edge - point)))])


def _cutting_point(point: Floats, normal: Floats, allowance: float, cutting: Any) -> Floats:
    """Where a line square to the edge meets the cutting line; the allowance's own width off if it misses it."""
    import shapely

    ray = shapely.LineString([point + normal * ON_LINE, point + normal * allowance * 2.0])
    met = np.asarray(shapely.get_coordinates(ray.intersection(cutting)))
    if not len(met):
        return point + normal * allowance
    return np.asarray(met[np.argmin(cubic.norm(met - point))])
