"""Which half of the wearer a piece is for as it is drawn, its right side up: told by a front or back, and by the seams.

Laid beside one another right side up, two pieces lie on either side of their seam. Where both were drawn on the same
side of it, one of them is for the left as it is drawn and the other for the right.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping

import numpy as np

from draft.garment.garment import Garment, Piece
from draft.seams.walk import handedness

LEFT, RIGHT = 1, -1

BEHIND = ("back", "yoke")
"""Words in the names of pieces that lie behind where no front is named."""


def handed(garment: Garment) -> Mapping[str, int]:
    """For each piece by its name whether as it is drawn, right side up, it is of the wearer's left or right half."""
    found: dict[str, int] = {}
    ties = list(_ties(garment))
    # A half on the fold tells where its middle is; of others it is where they are drawn from
    for piece in sorted(garment.pieces, key=lambda piece: not piece.on_fold):
        if piece.name not in found and (side := _by_name(piece)):
            found[piece.name] = side
            _carry_on(found, ties)
    return {piece.name: found.get(piece.name, LEFT) for piece in garment.pieces}


def _carry_on(found: dict[str, int], ties: list[tuple[str, str, int]]) -> None:
    new = True
    while new:
        new = False
        for one, other, alike in ties:
            for known, open_one in ((one, other), (other, one)):
                if known in found and open_one not in found:
                    found[open_one], new = found[known] * alike, True


def _by_name(piece: Piece) -> int:
    """Seen from the front the wearer's left is on the viewer's right, and from behind on the viewer's left."""
    front = "front" in piece.name
    if not front and not any(word in piece.name for word in BEHIND):
        return 0
    return (LEFT if front else RIGHT) * _lies_across(piece)


def _lies_across(piece: Piece) -> int:
    """1 where it lies to the right of its middle on the paper, -1 to the left: without a fold as most are drawn."""
    fold = next((edge for edge in piece.edges if edge.on_fold), None)
    if fold is None:
        return 1
    middle = fold.segments[0, (0, -1), (0, 3)].mean(axis=0)
    points = np.concatenate([edge.segments[0, :, 0] for edge in piece.edges])
    return 1 if points[:, 0].mean() >= middle[0] else -1


def _ties(garment: Garment) -> Iterator[tuple[str, str, int]]:
    """Two pieces that are sewn to one another, and 1 where as drawn both are of one half, else -1."""
    inner = {piece.name: float(handedness(piece)[0]) for piece in garment.pieces}
    for join in garment.joins:
        if join.is_lying:
            continue
        for one in join.first:
            for other in join.second:
                if one.piece != other.piece:
                    ways = [inner[part.piece] * (-1 if part.reverse else 1) for part in (one, other)]
                    yield one.piece, other.piece, 1 if ways[0] != ways[1] else -1
