"""What is different between two drafts: two versions of a pattern, two sizes, two bodies.

Pieces and edges are matched by their names, and laid on one another by the origin that each piece is drafted from.
"""

from __future__ import annotations

import numpy as np

from draft.base.arrays import Floats
from draft.base.record import dataclass
from draft.garment.garment import Garment, Piece
from draft.geometry.apart import farthest
from draft.geometry.cubic import norm
from draft.geometry.length import length

SAME = 0.01  # mm: lines nearer than this are one line, and lengths as near are one length


@dataclass(frozen=True)
class Changed:
    """One edge in both drafts: its lengths, how far its lines lie apart at most, and where, in the new draft."""

    piece: str
    edge: str
    before: Floats
    after: Floats
    moved: Floats
    at: Floats
    """The place where the two lines lie farthest apart: `(bodies, 2)`."""

    @property
    def longer(self) -> Floats:
        """By how much the edge is longer in the new draft, mm `(B,)`."""
        return np.asarray(self.after - self.before)

    @property
    def is_changed(self) -> bool:
        """Whether it has moved or changed its length for any body."""
        return bool(np.any(self.moved > SAME) or np.any(np.abs(self.longer) > SAME))


@dataclass(frozen=True)
class Changes:
    """Every edge that both drafts have, and what only one of them has."""

    edges: tuple[Changed, ...]
    new_pieces: tuple[str, ...]
    missing_pieces: tuple[str, ...]
    new_edges: tuple[str, ...]
    missing_edges: tuple[str, ...]
    elsewhere: tuple[tuple[str, Floats], ...]
    """Pieces that are only drafted elsewhere, each with the way from the old place to the new, mm `(B, 2)`."""

    @property
    def changed(self) -> tuple[Changed, ...]:
        """The edges that are not as they were."""
        return tuple(edge for edge in self.edges if edge.is_changed)


def changes(old: Garment, new: Garment) -> Changes:
    """Compare two drafts for as many bodies, the first with the first. Raises ValueError for unlike numbers of them."""
    if len(old.sizes) != len(new.sizes):
        raise ValueError("two drafts are compared for as many bodies")
    before, after = ({piece.name: piece for piece in garment.pieces} for garment in (old, new))
    both = [(before[name], after[name]) for name in after if name in before]
    ways = {one.name: _only_moved(one, other) for one, other in both}
    return Changes(
        tuple(found for one, other in both for found in _edges(one, other, ways[one.name])),
        tuple(name for name in after if name not in before),
        tuple(name for name in before if name not in after),
        tuple(name for one, other in both for name in _only_in(other, one)),
        tuple(name for one, other in both for name in _only_in(one, other)),
        tuple((name, way) for name, way in ways.items() if way is not None),
    )


def _only_in(piece: Piece, other: Piece) -> list[str]:
    known = {edge.name for edge in other.edges}
    return [f"{piece.name}.{edge.name}" for edge in piece.edges if edge.name not in known]


def _edges(one: Piece, other: Piece, way: Floats | None) -> list[Changed]:
    known = {edge.name: edge.segments for edge in one.edges}
    move = 0.0 if way is None else way[:, None, None]
    return [
        _edge(other.name, edge.name, known[edge.name] + move, edge.segments)
        for edge in other.edges
        if edge.name in known
    ]


def _edge(piece: str, name: str, before: Floats, after: Floats) -> Changed:
    moved, at = farthest(after, before)
    return Changed(piece, name, length(before), length(after), moved, at)


def _only_moved(one: Piece, other: Piece) -> Floats | None:
    """The way by which a piece was moved as a whole, its shape unchanged; None where that is not all, or nothing."""
    names = [edge.name for edge in one.edges]
    if names != [edge.name for edge in other.edges]:
        return None
    way = other.edges[0].segments[:, 0, 0] - one.edges[0].segments[:, 0, 0]
    if not np.any(norm(way) > SAME):
        return None
    found = _edges(one, other, way)
    return None if any(edge.is_changed for edge in found) else way
