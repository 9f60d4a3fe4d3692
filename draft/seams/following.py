"""Which corners of pieces come together when a garment is sewn, and from that, whether joined edges follow one another.

A corner is a piece's name and the number of the edge that begins there. Two corners come together where they are one
place of one piece, or where joined sides begin or end together.
"""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise, permutations, product

import numpy as np

from draft.garment.garment import Garment, Join, Piece, SidePart
from draft.geometry.cubic import norm
from draft.seams.middles import PieceCorner, SideParts, part_ends, side_ends
from draft.seams.sharing import both_sides
from draft.seams.walk import handedness

SAME = 0.01  # mm: corners of one piece nearer than this are one place
MOST_PARTS = 5  # of one side, tried in all their directions; a longer side is only looked at as it stands
MOST_ORDERED = 3  # parts tried in all orders too


class SewnCorners:
    """The corners that come together in a garment, the seams of `without` left undone.

    With `running_on` an edge is taken to begin where the one before it in a side ends, though no seam be known there.
    """

    def __init__(self, garment: Garment, without: Join | None = None, running_on: bool = False) -> None:
        self._garment = garment
        self._above: dict[PieceCorner, PieceCorner] = {}
        for piece in garment.pieces:
            for a, b in _one_place(piece):
                self._join((piece.name, a), (piece.name, b))
        for join in garment.joins:
            if join is not without:
                found = _brought_together(garment, join)
                for one, other in [*found, *(_run_on(garment, join) if running_on else [])]:
                    self._join(one, other)

    def together(self, one: PieceCorner, other: PieceCorner) -> bool:
        """Whether two corners come together."""
        return self._root(one) == self._root(other)

    def follow(self, parts: SideParts) -> bool:
        """Whether each part begins where the one before it ends."""
        ends = [part_ends(self._garment, part) for part in parts]
        return all(self.together(before[1], after[0]) for before, after in pairwise(ends))

    def in_order(self, parts: SideParts) -> SideParts | None:
        """The parts turned, or where that does not help put in another order, so that they follow; None if none do."""
        if len(parts) > MOST_PARTS:
            return None
        orders = permutations(parts) if len(parts) <= MOST_ORDERED else (parts,)
        tried = [turned for order in orders for turned in _turned(order)]
        following = [found for found in tried if self.follow(found)]
        return min(following, key=lambda found: _changes(found, parts)) if following else None

    def _root(self, corner: PieceCorner) -> PieceCorner:
        while corner in self._above:
            corner = self._above[corner]
        return corner

    def _join(self, one: PieceCorner, other: PieceCorner) -> None:
        a, b = self._root(one), self._root(other)
        if a != b:
            self._above[a] = b


def reversed_side(parts: SideParts) -> SideParts:
    """A side run the other way."""
    return tuple(replace(part, reverse=not part.reverse) for part in reversed(parts))


def side_words(parts: SideParts) -> str:
    """A side as it is written: `back.neckline then front.neckline reversed`, or `outside cuff.long`."""
    layer = f"{parts[0].layer} " if parts and parts[0].layer else ""
    return layer + " then ".join(map(_part_words, parts))


def _part_words(part: SidePart) -> str:
    """A part of a side as it is written; that of an edge runs from the first place to the second."""
    edge, *places = part.edge.replace(" to ", " from ").split(" from ")
    if not places:
        return f"{part.piece}.{edge}{' reversed' if part.reverse else ''}"
    start, end = reversed(places) if part.reverse else places
    return f"part of {part.piece}.{edge} from {part.piece}.{start} to {part.piece}.{end}"


def cloth_on_left(garment: Garment, part: SidePart) -> bool:
    """Whether the cloth of a piece, seen from its right side, lies on the left of a part as the side runs along it."""
    return bool(handedness(garment.piece(part.piece))[0] > 0) != part.reverse


def _brought_together(garment: Garment, join: Join) -> list[tuple[PieceCorner, PieceCorner]]:
    """The corners that a seam brings together at its ends.

    Where a whole band is sewn to two mirrored halves, both its ends come to where the half begins.
    """
    (first, first_end), (second, second_end) = side_ends(garment, join.first), side_ends(garment, join.second)
    copies, others = (each.copies for each in both_sides(garment, join))
    if others == 2 * copies:
        return [(first, second), (first_end, second)]
    if copies == 2 * others:
        return [(first, second), (first, second_end)]
    return [(first, second), (first_end, second_end)]


def _run_on(garment: Garment, join: Join) -> list[tuple[PieceCorner, PieceCorner]]:
    """The corners at which the edges of either side follow one another, as they are written."""
    return [
        (part_ends(garment, before)[1], part_ends(garment, after)[0])
        for parts in (join.first, join.second)
        for before, after in pairwise(parts)
    ]


def _one_place(piece: Piece) -> list[tuple[int, int]]:
    """Corners of one piece that lie on one another, as where an edge has no length."""
    starts = np.stack([edge.segments[:, 0, 0] for edge in piece.edges], axis=1)
    near = np.nanmax(norm(starts[:, :, None] - starts[:, None]), axis=0) <= SAME
    return [(a, b) for a, b in np.argwhere(np.triu(near, 1)).tolist()]


def _turned(parts: SideParts) -> list[SideParts]:
    ways = product((False, True), repeat=len(parts))
    return [tuple(replace(p, reverse=p.reverse != turn) for p, turn in zip(parts, way, strict=True)) for way in ways]


def _changes(found: SideParts, parts: SideParts) -> tuple[int, int]:
    """How much was changed: first the order, then the directions."""
    moved = sum((a.piece, a.edge) != (b.piece, b.edge) for a, b in zip(found, parts, strict=True))
    ways = {(part.piece, part.edge): part.reverse for part in parts}
    return moved, sum(part.reverse != ways[part.piece, part.edge] for part in found)
