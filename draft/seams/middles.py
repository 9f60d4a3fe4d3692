"""Where the sides of joins begin and end: at which corners of their pieces, and which of those lie on a middle.

A corner is a piece's name and the number of the edge that begins there. A middle is where a half goes on as its own
mirror image: at a fold, or at a seam that sews the piece to itself.
"""

from __future__ import annotations

from typing import TypeAlias

from draft.garment.garment import Edge, Garment, SidePart

PieceCorner: TypeAlias = tuple[str, int]
SideParts: TypeAlias = tuple[SidePart, ...]


def part_ends(garment: Garment, part: SidePart) -> tuple[PieceCorner, PieceCorner]:
    """The corners at which a part of a side begins and ends."""
    names = [edge.name for edge in garment.piece(part.piece).edges]
    first = names.index(part.edge)
    corners = (part.piece, first), (part.piece, (first + 1) % len(names))
    return (corners[1], corners[0]) if part.reverse else corners


def side_ends(garment: Garment, parts: SideParts) -> tuple[PieceCorner, PieceCorner]:
    """The corners at which a side begins and ends."""
    return part_ends(garment, parts[0])[0], part_ends(garment, parts[-1])[1]


def edges_at(garment: Garment, corner: PieceCorner) -> tuple[Edge, Edge]:
    """The two edges that meet at a corner."""
    edges = garment.piece(corner[0]).edges
    return edges[corner[1] - 1], edges[corner[1]]


def on_fold(garment: Garment, corner: PieceCorner) -> bool:
    """Whether a corner lies on the fold of its piece."""
    return any(edge.on_fold for edge in edges_at(garment, corner))


def in_middle(garment: Garment, corner: PieceCorner) -> bool:
    """Whether a piece goes on at a corner as its own mirror image, or as another of its kind."""
    names = {edge.name for edge in edges_at(garment, corner)}
    closed = {part.edge for join in garment.joins if join.closes(corner[0]) for part in (*join.first, *join.second)}
    return on_fold(garment, corner) or bool(names & closed)
