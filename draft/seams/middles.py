"""Where the sides of joins begin and end: at which corners of their pieces, and which of those lie on a middle.

A corner is a piece's name and the number of the edge that begins there. A middle is where a half goes on as its own
mirror image: at a fold, or at a seam that sews the piece to itself.
"""

from __future__ import annotations

from collections.abc import Mapping
from functools import lru_cache
from typing import TypeAlias

import numpy as np

from draft.garment.garment import Edge, Garment, SidePart
from draft.geometry.ends import end_directions

PieceCorner: TypeAlias = tuple[str, int]
SideParts: TypeAlias = tuple[SidePart, ...]

_IN_LINE = 0.999
"""The cosine of an angle so small that two edges are one line, to a maker's eye."""


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


def ends_in_slit(garment: Garment, corner: PieceCorner) -> bool:
    """Whether the seam in the middle runs on there as an opening, as above a fly: its two sides face one another."""
    if on_fold(garment, corner) or not in_middle(garment, corner):
        return False
    before, after = edges_at(garment, corner)
    arriving, leaving = end_directions(before.segments)[1], end_directions(after.segments)[0]
    return bool(np.all(np.sum(arriving * leaving, axis=-1) > _IN_LINE))


@lru_cache(maxsize=8)  # asked for by every part of a view
def behind_a_slit(garment: Garment) -> Mapping[str, str]:
    """Pieces that are sewn to one edge of a slit in the middle and lie behind it, as a fly has: with their joins."""
    found: dict[str, str] = {}
    for join in garment.joins:
        for own, others in ((join.first, join.second), (join.second, join.first)):
            ends = [corner for part in others for corner in part_ends(garment, part)]
            beside = any(ends_in_slit(garment, corner) for corner in ends)
            if len(own) == 1 and beside and not join.closes(own[0].piece):
                found.setdefault(own[0].piece, join.name)
    return found
