"""A maker's own seam allowance in place of the designer's: hems, folds and edges that are cut on the line stay."""

from __future__ import annotations

from dataclasses import replace

from draft.garment.garment import Edge, Garment, Piece


def with_own_allowance(garment: Garment, allowance: float) -> Garment:
    """The garment with so many mm outside of every seam; what interfacing has of its own stays."""
    return replace(garment, pieces=tuple(_piece(piece, allowance) for piece in garment.pieces))


def _piece(piece: Piece, allowance: float) -> Piece:
    return replace(piece, edges=tuple(_edge(edge, allowance) for edge in piece.edges))


def _edge(edge: Edge, allowance: float) -> Edge:
    """An edge that is no seam is as it was: a hem's depth is its own, and where nothing is added nothing is sewn so."""
    kept = edge.on_fold or edge.turned_up or not edge.allowance
    return edge if kept else replace(edge, allowance=allowance)
