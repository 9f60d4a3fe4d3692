"""A side of a join as one path: edge after edge, as often as its pieces are cut."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from draft.geometry.length import length
from draft.piece import Edge, Floats, Garment, Piece, SidePart


@dataclass(frozen=True)
class Stretch:
    """One edge within a side: its length `(B,)` and how often the whole garment has it."""

    part: SidePart
    piece: Piece
    edge: Edge
    length: Floats
    copies: int


@dataclass(frozen=True)
class Side:
    """The edges of one side in the order that they are sewn."""

    stretches: tuple[Stretch, ...]

    @property
    def length(self) -> Floats:
        """The length of the side as drafted, half of it where it is mirrored: `(B,)`."""
        return np.asarray(np.sum([s.length for s in self.stretches], axis=0))

    @property
    def whole(self) -> Floats:
        """The length on the whole garment, all copies together: `(B,)`."""
        return np.asarray(np.sum([s.length * s.copies for s in self.stretches], axis=0))

    @property
    def copies(self) -> int:
        """How often the whole garment has this side."""
        return min(s.copies for s in self.stretches)


def side(garment: Garment, parts: tuple[SidePart, ...]) -> Side:
    """The side made of the parts."""
    return Side(tuple(_stretch(garment, part) for part in parts))


def _stretch(garment: Garment, part: SidePart) -> Stretch:
    piece = garment.piece(part.piece)
    edge = piece.edge(part.edge)
    return Stretch(part, piece, edge, length(edge.segments), piece.cut * (2 if piece.on_fold else 1))
