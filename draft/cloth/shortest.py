"""The shortest lay of batches in one strip, by the search that suits how many there are.

A few pieces are tried in every order, with exact no-fit regions; of many, orders are bettered, by columns. In between
either may be the shorter, so both are tried.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from draft.cloth.batches import Batch, Shelf
from draft.cloth.cut_pieces import CutPiece
from draft.cloth.effort import Effort
from draft.cloth.many_pieces import lay_many
from draft.cloth.search import FEW_PLACES, StripLay, shortest_in_strip

MANY_PLACES = 30
"""From more places on, a walk through orders one by one only costs time."""


def are_many(cut_pieces: Sequence[CutPiece]) -> bool:
    """Whether all copies of these together are many."""
    return sum(cut_piece.count for cut_piece in cut_pieces) > MANY_PLACES


def shortest(
    batches: Sequence[Batch], width: float, step: float, shelf: Shelf, effort: Effort, best: float = math.inf
) -> StripLay | None:
    """The shortest lay found in a strip `width` mm wide, or None if none is shorter than `best` mm.

    Many pieces are laid by columns `step` mm wide.
    """
    if any(shape.cut_piece.repeat for batch in batches for shape in batch.shapes):
        return shortest_in_strip(batches, width, shelf, effort, best)  # columns know no lines of the cloth
    places = sum(batch.count for batch in batches)
    found = lay_many(batches, width, step, shelf, effort, best) if places > FEW_PLACES else None
    if places > MANY_PLACES or not effort.looks:
        return found
    return shortest_in_strip(batches, width, shelf, effort, found.length if found else best) or found
