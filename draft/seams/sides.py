"""A side of a join as one path: edge after edge, as often as its pieces are cut."""

from __future__ import annotations

from dataclasses import replace
from functools import cached_property

import numpy as np

from draft.base.arrays import Floats
from draft.base.record import dataclass
from draft.garment.garment import Edge, Garment, Join, Piece, SidePart, Takeup
from draft.geometry.length import length


@dataclass(frozen=True)
class SideLengths:
    """The lengths of the two sides of a join, or of a part of them, mm `(B,)`."""

    join: Join
    first: Floats
    second: Floats

    @property
    def wanted(self) -> Floats:
        """What the first side should measure, mm `(B,)`: the second, or its share where one is stretched or eased."""
        return self.second if self.join.ratio is None else self.second * self.join.ratio

    @property
    def difference(self) -> Floats:
        """By how much the first side is longer than it should be, mm `(B,)`."""
        return np.asarray(self.first - self.wanted)


@dataclass(frozen=True)
class SideEdge:
    """One edge within a side, and how often the whole garment has it.

    What darts and pleats take up and what gathers draw in is not sewn.
    """

    part: SidePart
    piece: Piece
    edge: Edge
    copies: int

    @cached_property
    def length(self) -> Floats:
        """The sewn length, mm `(B,)`."""
        return sewn_length(self.piece, self.edge)


@dataclass(frozen=True)
class Side:
    """The edges of one side in the order that they are sewn."""

    edges: tuple[SideEdge, ...]

    @property
    def length(self) -> Floats:
        """The length of the side as drafted, half of it where it is mirrored: `(B,)`."""
        return np.asarray(np.sum([s.length for s in self.edges], axis=0))

    @property
    def whole(self) -> Floats:
        """The length on the whole garment, all copies together: `(B,)`."""
        return np.asarray(np.sum([s.length * s.copies for s in self.edges], axis=0))

    @property
    def copies(self) -> int:
        """How often the whole garment has this side."""
        return min(s.copies for s in self.edges)

    @property
    def most_copies(self) -> int:
        """How often it has the edge that it has most often."""
        return max(s.copies for s in self.edges)


def side(garment: Garment, parts: tuple[SidePart, ...]) -> Side:
    """The side made of the parts; one that goes along an edge and its mirror image has half of its copies for each."""
    found = [_side_edge(garment, part) for part in parts]
    times = [sum(other.edge is each.edge and other.part.layer == each.part.layer for other in found) for each in found]
    return Side(tuple(replace(each, copies=each.copies // n) for each, n in zip(found, times, strict=True)))


def _side_edge(garment: Garment, part: SidePart) -> SideEdge:
    piece = garment.piece(part.piece)
    edge = piece.edge(part.edge)
    return SideEdge(part, piece, edge, piece.copies(part.layer))


def sewn_length(piece: Piece, edge: Edge) -> Floats:
    """The length of an edge `(B,)` with its darts and pleats closed and its gathers drawn up."""
    closed = length(edge.segments) - sum(takeup.width for takeup in takeups_of(piece, edge))
    return np.asarray(closed if edge.gathered is None else closed * edge.gathered)


def drawn_distance(piece: Piece, edge: Edge, sewn: Floats) -> Floats:
    """Where on the drawn edge, mm from its start `(B,)`, the place lies that is `sewn` mm along the sewn one."""
    place = sewn if edge.gathered is None else sewn / np.where(edge.gathered > 0, edge.gathered, 1.0)
    for takeup in takeups_of(piece, edge):
        place = np.where(place > takeup.at - takeup.width / 2, place + takeup.width, place)
    return np.asarray(place)


def sewn_distance(piece: Piece, edge: Edge, drawn: Floats) -> Floats:
    """How far along the sewn edge, mm from its start `(B,)`, the place lies that is `drawn` mm along the drawn one."""
    taken = np.zeros_like(drawn)
    for takeup in takeups_of(piece, edge):
        taken = taken + np.clip(drawn - (takeup.at - takeup.width / 2), 0.0, takeup.width)
    place = drawn - taken
    return np.asarray(place if edge.gathered is None else place * edge.gathered)


def takeups_of(piece: Piece, edge: Edge) -> list[Takeup]:
    """The darts and pleats of an edge, in the order that they lie on it."""
    return sorted(
        (takeup for takeup in piece.takeups if takeup.edge == edge.name), key=lambda takeup: float(takeup.at.mean())
    )
