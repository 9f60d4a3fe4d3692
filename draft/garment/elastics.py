"""The elastic that a garment takes: how long each piece of it is, and how many."""

from __future__ import annotations

from draft.base.arrays import Floats
from draft.base.record import dataclass
from draft.garment.garment import Edge, Garment, Piece


@dataclass(frozen=True)
class Elastic:
    """A piece of elastic for an edge: `length` mm of it while nothing stretches it `(bodies,)`, so many alike.

    On a piece that is cut on the fold it runs across the whole of it.
    """

    piece: Piece
    edge: Edge
    length: Floats
    count: int


def elastics_of(piece: Piece) -> tuple[Elastic, ...]:
    """The elastic of one piece, for all that are sewn of it."""
    halves = 2 if piece.on_fold else 1
    return tuple(
        Elastic(piece, edge, edge.elastic * halves, piece.cut) for edge in piece.edges if edge.elastic is not None
    )


def elastics(garment: Garment) -> tuple[Elastic, ...]:
    """All elastic of a garment, edge by edge; what runs on across a seam is cut as one by whoever sews it."""
    return tuple(one for piece in garment.pieces for one in elastics_of(piece))
