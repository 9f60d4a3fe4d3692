"""Every piece is something that a person can cut: not too large for any table, nor without an area.

A slip such as m for cm is told here, by piece and line, before anything is drawn of it.
"""

from __future__ import annotations

import numpy as np

from draft.base.arrays import Floats
from draft.base.naming import listed
from draft.base.notes import Note, Span, error
from draft.base.plainly import AGAIN, Sentence, of_sizes
from draft.garment.garment import Edge, Garment, Piece
from draft.geometry.area import outline_areas

LARGEST = 5_000.0
"""No piece is longer or wider, mm: a floor-length cape cut whole is 3 m, and no page of a document is over 5.08 m."""
SMALLEST = 25.0
"""No piece has less area, square mm: that of a fingernail's edge, which no scissors follow."""
MOST_PIECES = 200
"""A lined coat has forty, and all layers of a costume under a hundred."""
ALL_OF_THEM = 60.0
"""No garment has more of them, square metres: some thousand printed pages."""
_WITHOUT = "let its points lie apart: some length or share that places them is too small, or the outline crosses itself"


def check(garment: Garment) -> list[Note]:
    """A note for each piece that is too large or has no area, and one if all together are too many or too much."""
    notes = [note for piece in garment.pieces for note in _piece(garment, piece)]
    return notes or _together(garment)


def too_long(garment: Garment) -> list[Note]:
    """The notes on pieces that are too large, also of bodies that failed, whose lines somebody looks at."""
    return [note for piece in garment.pieces for note in _too_long(garment, piece)]


def _piece(garment: Garment, piece: Piece) -> list[Note]:
    found = _too_long(garment, piece)
    if found:
        return found
    small = _areas(piece) < SMALLEST
    if np.any(small):
        fact = f"`{piece.name}` has no area, for {listed(garment.sizes, small)}"
        plainly = of_sizes("piece_is_nothing", garment.sizes, small, AGAIN, piece=piece.name)
        return [error(fact, piece.span, _WITHOUT, off=small.astype(float), plainly=plainly)]
    return []


def _too_long(garment: Garment, piece: Piece) -> list[Note]:
    across = _extents(np.concatenate([edge.segments for edge in piece.edges], axis=1)).max(axis=1)
    if not np.any(across > LARGEST):
        return []
    worst = int(np.nanargmax(across))
    fact = (
        f"`{piece.name}` is {float(across[worst]) / 1000:,.1f} m long in size {garment.sizes[worst]}, "
        f"and no piece is longer than {LARGEST / 1000:g} m"
    )
    line = max(piece.edges, key=lambda edge: _longest(edge, worst))
    fix = f"look at the measures and lengths that `{line.name}` runs by: is one in m, not cm?"
    plainly = of_sizes("piece_is_huge", garment.sizes, across > LARGEST, AGAIN, piece=piece.name)
    return [_too_much(fact, line.span, fix, across, LARGEST, plainly)]


def _together(garment: Garment) -> list[Note]:
    if len(garment.pieces) > MOST_PIECES:
        fact = f"{len(garment.pieces):,} pieces are more than one garment has, which is {MOST_PIECES} at most"
        return [error(fact, garment.pieces[MOST_PIECES].span, "write it as two patterns")]
    areas = [_areas(piece) for piece in garment.pieces]
    total = np.sum(np.nan_to_num(areas), axis=0) / 1e6 if areas else np.zeros(0)
    if not np.any(total > ALL_OF_THEM):
        return []
    largest = garment.pieces[int(np.argmax(np.nanmax(areas, axis=1)))]
    fact = (
        f"all pieces together are {total.max():.0f} square metres of pattern, and no garment has over {ALL_OF_THEM:.0f}"
    )
    fix = f"look at `{largest.name}`, the largest of them"
    plainly = of_sizes("piece_is_huge", garment.sizes, total > ALL_OF_THEM, AGAIN, piece=largest.name)
    return [_too_much(fact, largest.span, fix, total, ALL_OF_THEM, plainly)]


def _too_much(fact: str, span: Span, fix: str, amounts: Floats, most: float, plainly: Sentence) -> Note:
    """The note on bodies of which there is more than that."""
    return error(fact, span, fix, off=np.where(amounts > most, amounts, 0.0), plainly=plainly)


def _areas(piece: Piece) -> Floats:
    """What its outline holds for each body, `(B,)` in square mm; not a number where a body was not drafted."""
    return np.asarray(np.abs(outline_areas(np.concatenate([edge.segments for edge in piece.edges], axis=1))))


def _extents(segments: Floats) -> Floats:
    """Across and along what the segments `(B, S, 4, 2)` reach, `(B, 2)` in mm; 0 where a body was not drafted."""
    points = segments.reshape(len(segments), -1, 2)
    drafted = np.asarray(np.isfinite(points).all(axis=(1, 2)))
    return np.where(drafted[:, None], np.ptp(np.nan_to_num(points), axis=1), 0.0)


def _longest(edge: Edge, body: int) -> float:
    return float(_extents(edge.segments[body : body + 1]).max())
