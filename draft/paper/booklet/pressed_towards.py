"""The edges of a piece that a dart is pressed towards: those that its designer named, or that lie on that side of it.

She may name a point, a part of the block that the piece was cut out of, or an edge that a seam divides; what she says
settles a side of the dart, and a maker finds that side by an edge that she has in her hand.
"""

from __future__ import annotations

import numpy as np

from draft.base.arrays import Floats
from draft.garment.garment import Garment, InnerDart, Piece, SidePart, Takeup
from draft.garment.piece_records import InnerDartOf
from draft.geometry.crossing import edge_meets_line
from draft.seams.joins_in_order import neighbour


def edges_towards(dart: Takeup | InnerDart, piece: Piece, garment: Garment) -> list[SidePart]:
    """Edges of the piece on the side that a dart is pressed to; none where that is the middle."""
    if not dart.towards:
        return _as_trued(dart, piece, garment)
    named = [edge.name for edge in piece.edges if dart.towards in (edge.name, edge.whole)]
    return [SidePart(piece.name, name) for name in named] or _beside(dart, piece, garment)


def _as_trued(dart: Takeup | InnerDart, piece: Piece, garment: Garment) -> list[SidePart]:
    """A dart goes to the middle where nothing is said and its edge is not trued for another way."""
    if isinstance(dart, InnerDartOf) or dart.trued_over is None:
        return []
    return [SidePart(*neighbour(garment, SidePart(piece.name, dart.edge), at_end=False))]


def _beside(dart: Takeup | InnerDart, piece: Piece, garment: Garment) -> list[SidePart]:
    """The edge that lies where the dart is pressed to, by the first body that has one."""
    assert dart.pressed is not None, "planning finds the side of whatever is named"
    to_end = bool(dart.pressed.mean() > 0.5)
    if isinstance(dart, InnerDartOf):
        name = _met(piece, dart.at, dart.way if to_end else -dart.way)
        return [SidePart(piece.name, name)] if name else []
    return [SidePart(*neighbour(garment, SidePart(piece.name, dart.edge), at_end=to_end))]


def _met(piece: Piece, at: Floats, way: Floats) -> str:
    """The edge that one meets first on the way from a place within a piece, both `(bodies, 2)`."""
    nearest = {}
    for edge in piece.edges:
        place, _, there = edge_meets_line(edge.segments, at, way)
        ahead = np.sum((place - at) * way, axis=-1)
        there &= ahead > 0
        if there.any():
            nearest[edge.name] = float(ahead[there].mean())
    return min(nearest, key=nearest.__getitem__, default="")
