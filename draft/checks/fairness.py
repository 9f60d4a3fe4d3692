"""Every edge is a fair line: no corner inside, no needless turn, no curve too tight to sew."""

from __future__ import annotations

import numpy as np

from draft.geometry.fairness import Fairness, fairness
from draft.naming import listed
from draft.notes import Note, caution
from draft.piece import Edge, Floats, Garment, Piece

CORNER = 1.0  # degrees
TIGHTEST = 10.0  # mm: a seam of less cannot be turned under a presser foot (common practice)
MOST_TURNS = 3  # an S and one turn more, as from underarm over waist and hip to hem
TURNS_OF_A_FOLD = 2  # the line rises to a peak between the legs of a dart, which is gone once the dart is closed


def check(garment: Garment) -> list[Note]:
    """Cautions for edges that are not fair."""
    return [note for piece in garment.pieces for edge in piece.edges for note in _edge(garment, piece, edge)]


def _edge(garment: Garment, piece: Piece, edge: Edge) -> list[Note]:
    fair: Fairness = fairness(edge.segments)
    name = f"`{piece.name}.{edge.name}`"
    notes = []
    if np.any(fair.corner > CORNER):
        where = listed(garment.sizes, fair.corner > CORNER)
        figure = f"at worst it turns by {fair.corner.max():.1f} deg at once ({_worst(garment, fair.corner)})"
        fix = "give the point a `heading`, or end the edge there and begin another"
        notes.append(caution(f"{name} has a corner inside, for {where}", edge.span, figure, fix))
    if np.any(fair.radius < TIGHTEST):
        where = listed(garment.sizes, fair.radius < TIGHTEST)
        figure = f"at worst its radius is {fair.radius.min():.1f} mm ({_worst(garment, -fair.radius)})"
        fix = "make the curve wider, or end the edge there in a corner and begin another"
        notes.append(caution(f"{name} turns too tightly to be sewn, for {where}", edge.span, figure, fix))
    most = MOST_TURNS + TURNS_OF_A_FOLD * sum(fold.edge == edge.name for fold in piece.folds)
    if np.any(fair.turns > most):
        where = listed(garment.sizes, fair.turns > most)
        figure = f"it changes the way that it turns {int(fair.turns.max())} times ({_worst(garment, fair.turns)})"
        notes.append(caution(f"{name} waves, for {where}", edge.span, figure, "give it fewer points, or move one"))
    return notes


def _worst(garment: Garment, badness: Floats) -> str:
    return garment.sizes[int(np.argmax(badness))]
