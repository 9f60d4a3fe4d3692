"""Sizes nest: laid on one another, the same edge of two neighbouring sizes does not cross."""

from __future__ import annotations

import numpy as np

from draft.geometry.flatten import sample
from draft.notes import Note, caution
from draft.piece import Garment, Piece

PLACES = 12  # on each segment


def check(garment: Garment) -> list[Note]:
    """A note for each edge that crosses the same edge of the next size."""
    return [note for piece in garment.pieces for note in _piece(garment, piece)]


def _piece(garment: Garment, piece: Piece) -> list[Note]:
    import shapely

    notes = []
    for edge in piece.edges:
        lines = shapely.linestrings(sample(edge.segments, PLACES))
        crossed = shapely.crosses(lines[:-1], lines[1:])
        pairs = [f"{garment.sizes[k]} and {garment.sizes[k + 1]}" for k in np.flatnonzero(crossed)]
        if pairs:
            fact = f"`{piece.name}.{edge.name}` crosses from size to size: {', '.join(pairs)}"
            notes.append(caution(fact, edge.span, "let what places it grow steadily with the size"))
    return notes
