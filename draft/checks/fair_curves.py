"""Every edge is a fair line: no corner inside, no needless turn, no curve too tight to sew."""

from __future__ import annotations

import numpy as np

from draft.base.arrays import Floats
from draft.base.naming import listed
from draft.base.notes import Note, caution
from draft.base.plainly import SMOOTH_IT, of_sizes
from draft.base.worst import worst_of
from draft.garment.garment import Edge, Garment, Piece
from draft.geometry.fairness import Fairness, fairness
from draft.geometry.length import length
from draft.geometry.part import part_along
from draft.seams.sides import takeups_of
from draft.seams.walk import handedness

CORNER = 1.0  # degrees
TIGHTEST = 10.0  # mm: a seam of less cannot be turned under a presser foot (common practice)
SPREAD = (
    1.5  # allowances: less, and the raw edge of a hollow is under a third as long; no snips spread it (common practice)
)
MOST_TURNS = 3  # an S and one turn more, as from underarm over waist and hip to hem


def check(garment: Garment) -> list[Note]:
    """Cautions for edges that are not fair."""
    return [note for piece in garment.pieces for edge in piece.edges for note in _edge(garment, piece, edge)]


def _edge(garment: Garment, piece: Piece, edge: Edge) -> list[Note]:
    fair = _fairness(piece, edge)
    name = f"`{piece.name}.{edge.name}`"
    names = {"piece": piece.name, "edge": edge.name}
    notes = []
    if np.any(fair.corner > CORNER) and not edge.cornered:
        where = listed(garment.sizes, fair.corner > CORNER)
        figure = f"at worst it turns by {fair.corner.max():.1f} deg at once ({_worst(garment, fair.corner)})"
        fix = "give the point a `heading`, or end the edge there and begin another"
        off = np.where(fair.corner > CORNER, fair.corner, 0.0)
        plainly = of_sizes("line_has_corner", garment.sizes, fair.corner > CORNER, SMOOTH_IT, **names)
        fact = f"{name} has a corner inside, for {where}"
        notes.append(caution(fact, edge.span, figure, fix, off=off, plainly=plainly))
    least = _least_radius(piece, edge, fair)
    if np.any(fair.radius < least):
        where = listed(garment.sizes, fair.radius < least)
        figure = f"at worst its radius is {fair.radius.min():.1f} mm ({_worst(garment, -fair.radius)})"
        fix = "make the curve wider, or end the edge there in a corner and begin another"
        allowed = ""
        if np.any((fair.radius < least) & (least > TIGHTEST)):
            allowed = f" with an allowance of {edge.allowance:.0f} mm"
            fix = f"{fix}; or give it less allowance"
        fact = f"{name} turns too tightly to be sewn{allowed}, for {where}"
        off = np.maximum(least - fair.radius, 0.0)
        plainly = of_sizes("line_is_tight", garment.sizes, fair.radius < least, SMOOTH_IT, **names)
        notes.append(caution(fact, edge.span, figure, fix, off=off, plainly=plainly))
    if np.any(fair.turns > MOST_TURNS):
        where = listed(garment.sizes, fair.turns > MOST_TURNS)
        figure = f"it changes the way that it turns {int(fair.turns.max())} times ({_worst(garment, fair.turns)})"
        off = np.where(fair.turns > MOST_TURNS, fair.turns, 0).astype(float)
        fixes = (
            "give it fewer points, or move one",
            "or, where it was slashed, slash it more often and spread each slash less, all of them evenly",
        )
        plainly = of_sizes("line_waves", garment.sizes, fair.turns > MOST_TURNS, SMOOTH_IT, **names)
        notes.append(caution(f"{name} waves, for {where}", edge.span, figure, *fixes, off=off, plainly=plainly))
    return notes


def _least_radius(piece: Piece, edge: Edge, fair: Fairness) -> Floats:
    """How wide its tightest bend must be, mm `(B,)`: in a hollow the allowance is cut short, and must be spread."""
    hollow = (fair.sharpest * handedness(piece) < 0) & (not edge.turned_up)
    return np.where(hollow, np.maximum(TIGHTEST, SPREAD * edge.allowance), TIGHTEST)


def _fairness(piece: Piece, edge: Edge) -> Fairness:
    """The worst of its parts beside its darts: between the legs it rises to a peak, which is folded away."""
    found = [fairness(part) for part in beside_darts(piece, edge)]
    return Fairness(
        np.max([fair.corner for fair in found], axis=0),
        np.min([fair.radius for fair in found], axis=0),
        np.max([fair.turns for fair in found], axis=0),
        np.max([fair.unevenness for fair in found], axis=0),
        _sharpest(found),
    )


def _sharpest(found: list[Fairness]) -> Floats:
    both = np.stack([fair.sharpest for fair in found])
    return np.asarray(np.take_along_axis(both, np.argmax(np.abs(both), axis=0)[None], axis=0)[0])


def beside_darts(piece: Piece, edge: Edge) -> list[Floats]:
    """The parts `(B, S, 4, 2)` of an edge between the legs of its darts: the whole edge where it has none."""
    darts = [takeup for takeup in takeups_of(piece, edge) if takeup.to is not None]
    if not darts:
        return [edge.segments]
    legs = [takeup.at + way * takeup.width / 2 for takeup in darts for way in (-1, 1)]
    places = [np.zeros_like(legs[0]), *legs, length(edge.segments)]
    return [part_along(edge.segments, first, last) for first, last in zip(places[::2], places[1::2], strict=True)]


def _worst(garment: Garment, badness: Floats) -> str:
    return garment.sizes[worst_of(badness)]
