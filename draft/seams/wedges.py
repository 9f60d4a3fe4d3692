"""Seams that close a wedge: two edges of one piece that meet at the end of a cut into it, as those of a dart over the
shoulder do. The piece stays as it lies; it becomes neither a ring nor a tube."""

from __future__ import annotations

import numpy as np

from draft.base.arrays import Floats
from draft.garment.garment import Garment, Join
from draft.geometry.area import outline_area
from draft.geometry.cubic import cross


def closes_a_wedge(garment: Garment, join: Join) -> bool:
    """Whether a join sews two edges of one piece that follow one another, and that meet where the piece is cut in."""
    if len(join.pieces) != 1 or join.is_lying or len(join.first) != 1 or len(join.second) != 1:
        return False
    piece = garment.piece(join.first[0].piece)
    names = [edge.name for edge in piece.edges]
    one, other = sorted(names.index(part.edge) for part in (join.first[0], join.second[0]))
    if other - one == 1:
        before, after = piece.edges[one], piece.edges[other]
    elif len(names) > 2 and (one, other) == (0, len(names) - 1):
        before, after = piece.edges[other], piece.edges[one]
    else:
        return False
    body = _drafted(np.concatenate([edge.segments for edge in piece.edges], axis=1))
    outline = np.concatenate([edge.segments[body] for edge in piece.edges])
    corner = after.segments[body, 0, 0]
    turn = float(cross(corner - _middle(before.segments[body]), _middle(after.segments[body]) - corner))
    return turn * outline_area(outline) < 0


def _drafted(outlines: Floats) -> int:
    """The first body that was drafted; the first of all if none was."""
    return int(np.argmax(np.isfinite(outlines).all(axis=(1, 2, 3))))


def _middle(path: Floats) -> Floats:
    """A place about halfway along a path `(n, 4, 2)`."""
    return np.asarray(path[len(path) // 2, 0] if len(path) > 1 else path[0].mean(axis=0))
