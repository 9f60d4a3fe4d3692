"""Corners that a seam shuts: two edges of a piece that meet there are sewn to one another, as a dart's legs are."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from draft.garment.garment import Edge, Garment, Join, Piece


def with_corners_shut(garment: Garment) -> Garment:
    """The garment whose edges know whether they are sewn to the next one, from the corner between them on."""
    found = {corner for join in garment.joins for corner in _shut(garment, join)}
    return replace(garment, pieces=tuple(_piece(piece, found) for piece in garment.pieces)) if found else garment


def _shut(garment: Garment, join: Join) -> Iterator[tuple[str, str]]:
    """Piece and edge of each corner at which both sides of a join begin or end."""
    for place, backwards in ((0, True), (-1, False)):
        one, other = join.first[place], join.second[place]
        if one.piece != other.piece or one.reverse == other.reverse or one.layer != other.layer:
            continue
        # The side that arrives at the corner along its edge, and the one that leaves from it
        arriving, leaving = (one, other) if one.reverse == backwards else (other, one)
        edges = [edge.name for edge in garment.piece(one.piece).edges]
        if edges[(edges.index(arriving.edge) + 1) % len(edges)] == leaving.edge:
            yield one.piece, arriving.edge


def _piece(piece: Piece, found: set[tuple[str, str]]) -> Piece:
    def known(edge: Edge) -> Edge:
        return replace(edge, shut=True) if (piece.name, edge.name) in found else edge

    return replace(piece, edges=tuple(map(known, piece.edges)))
