"""Edges that a join gathers: how long each is once it is drawn up, so that the piece can say so."""

from __future__ import annotations

from dataclasses import replace

from draft.base.arrays import Floats
from draft.garment.garment import Edge, Garment, Piece
from draft.seams.sides import side


def with_edges_drawn_up(garment: Garment) -> Garment:
    """The garment with those lengths set."""
    found: dict[tuple[str, str], Floats] = {}
    for join in garment.joins:
        if join.fit == "gathered" and join.ratio is not None:
            for each in side(garment, join.first).edges:
                found[each.piece.name, each.edge.name] = each.length / join.ratio
    return replace(garment, pieces=tuple(_piece(piece, found) for piece in garment.pieces)) if found else garment


def _piece(piece: Piece, found: dict[tuple[str, str], Floats]) -> Piece:
    def drawn(edge: Edge) -> Edge:
        return replace(edge, drawn_up=found.get((piece.name, edge.name)))

    return replace(piece, edges=tuple(map(drawn, piece.edges)))
