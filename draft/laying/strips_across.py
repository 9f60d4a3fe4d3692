"""Long strips of interfacing, as for a waistband, cut across the cloth in parts that meet end to end.

Laid along the grain a strip takes its whole length of cloth and leaves most of the width over. On its piece the parts
are ironed on beside one another, which holds them as one (common practice).
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from draft.cloth.batches import Shelf
from draft.cloth.bolt import Cloth
from draft.cloth.cut_pieces import CutPiece, made
from draft.cloth.needs import Size

_SLENDER, _NARROW = 4.0, 160.0
"""A strip is so many times as long as wide at least, and at most so many mm wide."""


def is_strip(cut_piece: CutPiece) -> bool:
    """Whether a piece is long and narrow along its grain."""
    return cut_piece.width <= _NARROW and cut_piece.height >= _SLENDER * cut_piece.width


def in_parts(sizes: Sequence[Size], cloth: Cloth) -> list[Size]:
    """The sizes with each strip as parts that lie across the cloth; none where no piece is a strip."""
    if not any(is_strip(cut_piece) for size in sizes for cut_piece in size.cut_pieces):
        return []
    return [
        replace(size, cut_pieces=tuple(_parted(one, cloth) for one in size.cut_pieces), shelf=Shelf()) for size in sizes
    ]


def _parted(cut_piece: CutPiece, cloth: Cloth) -> CutPiece:
    if not is_strip(cut_piece):
        return cut_piece
    count = math.ceil(cut_piece.height / cloth.usable - 1e-6)
    long, wide = cut_piece.height / count, cut_piece.width
    ring = np.array([[0.0, 0.0], [long, 0.0], [long, wide], [0.0, wide]])
    return made(cut_piece.number, cut_piece.name, cut_piece.size, cut_piece.count * count, ring, "right side up")
