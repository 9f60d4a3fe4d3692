"""The seam that ends where a notch of a join lies: its letter tells which notch is meant, and what it is laid on.

A band meets side seams and middles of its opening one after the other, a stand the seam of a yoke: in a nest of sizes
nobody could tell such notches apart by their places (common practice: a notch bears the name of what it meets).
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from functools import lru_cache

import numpy as np

from draft.base.arrays import Floats
from draft.garment.garment import Garment, Join, SidePart
from draft.seams.joins_in_order import neighbour, seam_letters
from draft.seams.lying import Copies
from draft.seams.sides import Side

_NEAR = 1.0
"""A notch no further from the end of a seam than this, mm, is met by it."""


def seam_met(garment: Garment, place: Floats, along: Side, copies: Copies) -> str:
    """The letter of the seam that comes to a side, as it lies in copies, at a place of the whole seam `(B,)`.

    Empty where none does in some body, or several do.
    """
    found = {
        letter
        for end, letter in _ends(garment, along, copies)
        if np.all(np.abs(end - place) * copies.count * along.length < _NEAR)
    }
    return found.pop() if len(found) == 1 else ""


def _ends(garment: Garment, along: Side, copies: Copies) -> Iterator[tuple[Floats, str]]:
    """The places of a whole seam where edges of one side end, and the letters of the seams that end there."""
    begun = np.zeros_like(along.length)
    for one, other in zip(along.edges, along.edges[1:], strict=False):
        begun = begun + one.length
        letter = _letter(garment, one.part, other.part)
        for place in copies.on_seam(begun / np.maximum(along.length, 1e-9)) if letter else ():
            yield place, letter
    for part, share in ((along.edges[0].part, 0.0), (along.edges[-1].part, 1.0)):
        letter = _letter(garment, part, part, at_end=share > 0)
        for place in copies.on_seam(np.full_like(along.length, share)) if letter else ():
            yield place, letter


def _letter(garment: Garment, one: SidePart, other: SidePart, at_end: bool = False) -> str:
    """The letter of the seam between two parts that follow one another, or between two copies of one at its end."""
    beside = {neighbour(garment, one, one is not other or at_end), neighbour(garment, other, one is other and at_end)}
    found = [name for sewn, name in _seams(garment) if sewn == beside]
    return _letters(garment)[found[0]] if len(found) == 1 else ""


@lru_cache(maxsize=4)
def _seams(garment: Garment) -> list[tuple[frozenset[tuple[str, str]], str]]:
    """What each seam of two pieces, or of two edges of one, sews together, and its name."""
    return [(_sewn(join), join.name) for join in garment.joins if not join.is_lying and not join.of_layers]


@lru_cache(maxsize=4)
def _letters(garment: Garment) -> Mapping[str, str]:
    return seam_letters(garment)


def _sewn(join: Join) -> frozenset[tuple[str, str]]:
    return frozenset((part.piece, part.edge) for part in (*join.first, *join.second))
