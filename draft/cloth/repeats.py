"""Cut pieces on striped or checked cloth: where each may lie, so that the lines go on across the seams.

Along the cloth, pieces that are matched with one another lie by the same line. Across it, a piece that is alike on
both sides lies with its middle on a line, and any other with the point at which it is matched; the cloth has a line in
its middle. Such cloth is laid single, all pieces one way, where it repeats across (common practice).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from draft.base.arrays import Floats
from draft.cloth.batches import Shape, Shelf
from draft.cloth.bolt import Cloth
from draft.cloth.cut_pieces import CutPiece, OnRepeat
from draft.cloth.lay import Copy

NEAR = 0.05
"""By so many mm, an eighth of a drawn line, a piece may miss the lines of the cloth."""


def on_repeat(cut_pieces: Sequence[CutPiece], cloth: Cloth, shelf: Shelf) -> Sequence[CutPiece]:
    """The cut pieces with the places that the cloth leaves them: the same ones each time they are asked for."""
    if not cloth.repeats or not any(piece.matched for piece in cut_pieces):
        return cut_pieces
    known = shelf.known(cut_pieces, "on repeat", cloth.usable, cloth.repeat_across, cloth.repeat_along)
    if not known:
        known.append(tuple(_placed(cut_piece, cut_pieces, cloth) for cut_piece in cut_pieces))
    placed: Sequence[CutPiece] = known[0]
    return placed


def _placed(cut_piece: CutPiece, among: Sequence[CutPiece], cloth: Cloth) -> CutPiece:
    if cut_piece.matched is None:
        return cut_piece
    x, y = cut_piece.matched.at
    point = np.array([x if cut_piece.fold is None else cut_piece.fold, y])
    every = np.array([cloth.repeat_across, cloth.repeat_along])
    return replace(cut_piece, repeat=OnRepeat(point, every, _line(among, cloth)))


def _line(among: Sequence[CutPiece], cloth: Cloth) -> Floats:
    """Where a line across and one along are, `(2,)` mm: so that the largest piece may begin where the lay does."""
    largest = max((other for other in among if other.matched), key=lambda other: other.area)
    assert largest.matched
    return np.array([cloth.usable / 2, largest.matched.at[1]])


def first_move(shape: Shape, on: OnRepeat) -> Floats:
    """One move `(2,)` of a shape that brings its point to where it may lie."""
    return np.asarray(on.at - on.point * (shape.across, shape.along) - shape.offset)


def off_repeat(copy: Copy) -> float:
    """By how many mm a piece on the opened cloth misses its lines; 0 where it may lie anywhere."""
    on = copy.cut_piece.repeat
    if on is None:
        return 0.0
    missed = copy.move.points(on.point) - on.at
    missed = np.where(on.every > 0, missed - np.round(missed / np.where(on.every > 0, on.every, 1.0)) * on.every, 0.0)
    return float(np.abs(missed).max())
