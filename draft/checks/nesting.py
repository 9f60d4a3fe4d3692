"""Sizes nest: laid on one another, the same edge of two neighbouring sizes does not cross."""

from __future__ import annotations

from typing import Any

import numpy as np

from draft.geometry.flatten import sample
from draft.notes import Note, caution
from draft.piece import Garment, Piece

PLACES = 12  # on each segment
ASIDE = 10.0  # mm: how far beside a crossing it is looked at
END = 15.0  # mm: nearer to its end than this an armhole crosses that of a deeper, wider size (common practice)
APART = 0.05  # mm: lines that come no further apart than this lie on one another


def check(garment: Garment) -> list[Note]:
    """A note for each edge that crosses the same edge of the next size."""
    return [note for piece in garment.pieces for note in _piece(garment, piece)]


def _piece(garment: Garment, piece: Piece) -> list[Note]:
    import shapely

    notes = []
    peaked = {fold.edge for fold in piece.folds if fold.trued_over is not None}  # its peaks lie elsewhere in every size
    for edge in piece.edges:
        if edge.name in peaked:
            continue
        lines = shapely.linestrings(sample(edge.segments, PLACES))
        near = np.flatnonzero(shapely.crosses(lines[:-1], lines[1:]))
        crossed = [k for k in near if _crosses(lines[k], lines[k + 1])]
        pairs = [f"{garment.sizes[k]} and {garment.sizes[k + 1]}" for k in crossed]
        if pairs:
            fact = f"`{piece.name}.{edge.name}` crosses from size to size: {', '.join(pairs)}"
            notes.append(caution(fact, edge.span, "let what places it grow steadily with the size"))
    return notes


def _crosses(one: Any, other: Any) -> bool:
    """Whether two lines cross well before they end, and part again on both sides: one upon another they only touch."""
    import shapely

    places = shapely.line_locate_point(one, shapely.points(shapely.get_coordinates(shapely.intersection(one, other))))
    places = places[(places > END) & (places < one.length - END)]
    if not places.size:
        return False
    beside = [shapely.line_interpolate_point(one, np.maximum(places + way, 0.0)) for way in (-ASIDE, ASIDE)]
    return bool(np.any(np.min(shapely.distance(beside, other), axis=0) > APART))
