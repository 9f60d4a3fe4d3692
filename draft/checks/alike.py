"""An edge bends alike in all sizes: no size has a hollow, there and back again, that another has not."""

from __future__ import annotations

import numpy as np

from draft.base.arrays import Floats
from draft.base.naming import listed
from draft.base.notes import Note, caution
from draft.base.plainly import SMOOTH_IT, of_sizes
from draft.checks.fair_curves import beside_darts
from draft.garment.garment import Edge, Garment, Piece
from draft.geometry.fairness import NOTICED, turns

CLEAR = np.radians(3.0)  # on 10 cm of a line a hollow of 0.7 mm: it is plainly seen on paper, six times what is noticed
THERE_AND_BACK = 2
"""An end that leaves its corner square may turn the other way for a while in one size and not in the next; a line that
changes the way that it turns twice more than another waves."""


def check(garment: Garment) -> list[Note]:
    """A note for each edge that waves in one size and not in another."""
    return [note for piece in garment.pieces for edge in piece.edges for note in _edge(garment, piece, edge)]


def _edge(garment: Garment, piece: Piece, edge: Edge) -> list[Note]:
    parts = beside_darts(piece, edge)
    clear, noticed = np.max([turns(path, CLEAR, NOTICED) for path in parts], axis=0)
    waving = clear >= noticed.min() + THERE_AND_BACK
    if not waving.any():
        return []
    fact = f"`{piece.name}.{edge.name}` waves in {listed(garment.sizes, waving)} and not in others"
    figure = f"it changes the way that it turns {_told(garment, clear, noticed)}"
    fix = "let the points that it runs through keep their shape as the size grows"
    plainly = of_sizes("line_waves", garment.sizes, waving, SMOOTH_IT, piece=piece.name, edge=edge.name)
    return [caution(fact, edge.span, figure, fix, plainly=plainly)]


def _told(garment: Garment, clear: Floats, noticed: Floats) -> str:
    most, least = int(np.argmax(clear)), int(np.argmin(noticed))
    return f"{_times(clear[most])} in {garment.sizes[most]}, {_times(noticed[least])} in {garment.sizes[least]}"


def _times(count: float) -> str:
    return ("never", "once", "twice")[int(count)] if count < 3 else f"{int(count)} times"
