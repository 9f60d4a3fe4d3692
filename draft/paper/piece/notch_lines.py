"""Notches as they are snipped: short lines from the cutting line towards the seam (common practice)."""

from __future__ import annotations

from typing import Any

import numpy as np

from draft.base.arrays import Bools, Floats
from draft.garment.garment import Notch, Piece
from draft.geometry import cubic
from draft.geometry.outline_parts import ON_LINE
from draft.geometry.ruler import Ruler

NOTCH = 5.0
"""Length of a notch in mm; never more than half of the allowance, so that a snip stays well clear of the seam. Beside a
corner the cutting line may come nearer than the allowance: then it is half of what is there."""
NOTCH_PART = 0.45
NOTCH_OUT = 4.0  # where there is no allowance to snip into, the notch stands outside the edge
NOTCH_APART = 5.0


def notch_lines(piece: Piece, body: int, notch: Notch, cutting: Any, outward: float) -> tuple[Floats, ...]:
    """The strokes of a notch as straight segments `(1, 4, 2)`, y up as in the piece.

    `cutting` is the cutting outline as a shapely ring; `outward` is 1 where the outline runs counterclockwise, else -1.
    """
    edge = piece.edge(notch.edge)
    along = Ruler(edge.segments[body])
    return tuple(strokes(*along.place_each(strokes_at(notch, body)), edge.allowance, cutting, outward))


def strokes_at(notch: Notch, body: int) -> Floats:
    """How far along its edge each stroke of a notch is, mm `(strokes,)`."""
    first = float(notch.at[body]) - NOTCH_APART * (notch.strokes - 1) / 2
    return np.asarray(first + NOTCH_APART * np.arange(notch.strokes))


def notch_line(ruler: Ruler, at: float, allowance: float, cutting: Any, outward: float) -> Floats:
    """One stroke of a notch `(1, 4, 2)`, y up, at distance `at` along an edge's ruler; see `notch_lines`."""
    return np.asarray(strokes(*ruler.place_each(np.array([at])), allowance, cutting, outward)[0])


def strokes(
    points: Floats, directions: Floats, allowance: float | Floats, cutting: Any, outward: float | Floats
) -> Floats:
    """Strokes of notches `(n, 1, 4, 2)`, y up, at points `(n, 2)` of edges that run in directions `(n, 2)` there.

    The allowance, the cutting outline and the way outward are one for all or each its own `(n,)`. Where an allowance
    closes over the seam, as between the sides of a slit, a stroke lies across the seam: it is marked, and not snipped.
    """
    normals = cubic.right_of(directions) * np.reshape(outward, (-1, 1))
    wide = np.broadcast_to(allowance, len(points))[:, None]
    edges, missed = _cutting_points(points, normals, wide, cutting)
    deep = np.minimum(NOTCH, NOTCH_PART * cubic.norm(edges - points))[:, None]
    bare = wide <= ON_LINE
    across = missed & ~bare
    starts, ends = np.where(bare, points, edges), np.where(bare, points + normals * NOTCH_OUT, edges - normals * deep)
    half = normals * NOTCH / 2
    return cubic.line(np.where(across, points + half, starts), np.where(across, points - half, ends))[:, None]


def _cutting_points(points: Floats, normals: Floats, wide: Floats, cutting: Any) -> tuple[Floats, Bools]:
    """Where lines square to the edges meet the cutting line `(n, 2)`, and which do not meet it `(n, 1)`."""
    import shapely

    rays = shapely.linestrings(np.stack([points + normals * ON_LINE, points + normals * wide * 2.0], axis=1))
    met, of = shapely.get_coordinates(shapely.intersection(rays, cutting), return_index=True)
    found = points + normals * wide
    far = cubic.norm(met - points[of])
    for k in np.lexsort((-np.arange(len(of)), -far)).tolist():  # the nearest, and of such the first, comes last
        found[of[k]] = met[k]
    missed = np.ones((len(points), 1), dtype=bool)
    missed[of] = False
    return found, missed
