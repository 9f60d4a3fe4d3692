"""A dart or pleat lies on one edge whole: one across its end, or across a place where seams part it, cannot be sewn.

Half of its mouth would be taken in by one seam and half by another, and neither walks.
"""

from __future__ import annotations

import numpy as np

from draft.base.arrays import Floats
from draft.base.naming import listed
from draft.base.notes import Note, caution
from draft.base.plainly import AGAIN, Parts, mm, of_sizes
from draft.base.units import in_centimetres
from draft.base.worst import worst_of
from draft.garment.garment import Edge, Garment, Piece, Takeup
from draft.geometry.length import length

SHORT = 0.5  # mm: a mouth that reaches its edge's end so nearly is drawn and sewn as if it did not


def check(garment: Garment) -> list[Note]:
    """Cautions for darts and pleats whose mouth runs over the end of what is sewn as one."""
    found = [
        _note(garment, piece, takeup, edge, _beyond(takeup, edge))
        for piece in garment.pieces
        for takeup in piece.takeups
        for edge in (piece.edge(takeup.edge),)
    ]
    return [note for note in found if note]


def _beyond(takeup: Takeup, edge: Edge) -> Floats:
    """By how many mm `(bodies,)` the mouth runs over an end of its edge; less than none where it does not."""
    low, high = takeup.at - takeup.width / 2, takeup.at + takeup.width / 2
    beyond = np.maximum(-low, high - length(edge.segments))
    return np.where(np.isfinite(beyond) & (takeup.width > 0), beyond, -1.0)


def _note(garment: Garment, piece: Piece, takeup: Takeup, edge: Edge, beyond: Floats) -> Note | None:
    over = beyond > SHORT
    if not over.any():
        return None
    worst = worst_of(beyond)
    called, sizes = f"`{piece.name}.{takeup.name}`", listed(garment.sizes, over)
    fact = f"{called} lies across the end of `{piece.name}.{edge.name}`, for {sizes}"
    fix = f"move it further along `{edge.name}`, or make it narrower"
    if edge.whole and _goes_on(piece, takeup, edge, worst):
        fact = f"{called} lies across a place where seams part `{piece.name}.{edge.whole}`, for {sizes}"
        fix = "let the seam begin or end beside it, or move it"
    figure = f"at worst it runs over that by {in_centimetres(float(beyond[worst]))} ({garment.sizes[worst]})"
    names: Parts = {"piece": piece.name, "dart": takeup.name, "edge": edge.name, "off": mm(beyond[worst])}
    plainly = of_sizes("dart_lies_across", garment.sizes, over, AGAIN, **names)
    return caution(fact, takeup.span, figure, fix, off=np.where(over, beyond, 0.0), plainly=plainly)


def _goes_on(piece: Piece, takeup: Takeup, edge: Edge, body: int) -> bool:
    """Whether the edge as it was drawn goes on where a mouth runs over the end of a part of it."""
    way = 1 if takeup.at[body] > takeup.width[body] / 2 else -1
    number = [other.name for other in piece.edges].index(edge.name) + way
    return piece.edges[number % len(piece.edges)].whole == edge.whole
