"""The pieces of one size as they must come out of the cloth: opened out, grain upright, as often as they are cut."""

from __future__ import annotations

from dataclasses import replace
from functools import cached_property

import numpy as np

from draft.base.arrays import Floats
from draft.base.notes import Note, Problems, caution, error
from draft.base.record import dataclass
from draft.cloth.simplified import counterclockwise, flipped
from draft.garment.garment import CutAs, Garment, Piece
from draft.geometry.cubic import cross, dot
from draft.geometry.flatten import flatten
from draft.seams.allowance import cutting_line, opened_out
from draft.seams.matching import Matched, matched_points, upright

FLAT = 0.05
"""Cutting lines become points that lie on them, with chords within so many mm: a tenth of a cutting line's width."""
SAME = 1.0
"""Outlines that differ by less than so many square mm, a pinhead, are the same for the scissors."""
SQUARE = 0.05
"""Grain and stretch, or grain and fold, may miss square or parallel by this sine, about 3 degrees."""
MOST_COPIES = 400
"""Pieces in one lay: far more than a home sewer lays at once, and as many as the search can hold."""


@dataclass(frozen=True)
class OnRepeat:
    """Places on striped or checked cloth: `point` `(2,)` of a ring lies at `at`, or so many times `every` from there.

    All `(2,)` in mm, across and along; of what does not repeat, `every` is 0.
    """

    point: Floats
    every: Floats
    at: Floats


@dataclass(frozen=True)
class CutPiece:
    """One piece of one size, whole, with its allowances.

    `ring` is its cutting line `(n, 2)` in mm, grain upright, lowest and leftmost at 0. `fold` is where across the
    ring its fold lies, for a piece that may lie on folded cloth.
    """

    number: int
    name: str
    size: str
    count: int
    ring: Floats
    mirrored: int = 0
    """How many of its copies are the other hand."""
    fold: float | None = None
    folded: bool = False
    """Whether it was drafted as a half, which a maker opens out by turning the paper over."""
    opened: Floats | None = None
    """Two points `(2, 2)` of the line about which a half is opened out, on the grain or not."""
    matched: Matched | None = None
    """The point of its ring's frame at which it is matched with others on striped or checked cloth."""
    repeat: OnRepeat | None = None
    """Where it may lie on such cloth; anywhere where there is nothing."""

    @property
    def width(self) -> float:
        """Across the grain, mm."""
        return float(self.ring[:, 0].max())

    @property
    def height(self) -> float:
        """Along the grain, mm."""
        return float(self.ring[:, 1].max())

    @cached_property
    def area(self) -> float:
        """Of one copy, square mm."""
        return float(np.sum(cross(self.ring, np.roll(self.ring, -1, axis=0)))) / 2

    def __str__(self) -> str:
        return f"`{self.name}` in size {self.size}" if self.size else f"`{self.name}`"


def cut_pieces_of(garment: Garment, body: int) -> tuple[CutPiece, ...]:
    """The pieces of one body, numbered as in the garment's list. Raises Problems where there is nothing to lay."""
    drafted = all(np.isfinite(edge.segments[body]).all() for piece in garment.pieces for edge in piece.edges)
    if not garment.pieces or not drafted:
        reason = "has no pieces" if not garment.pieces else f"could not be drafted for {garment.sizes[body]}"
        raise Problems([error(f"the pattern {reason}, so there is nothing to lay")])
    size = garment.sizes[body]
    points = matched_points(garment, body)
    return tuple(
        _cut_piece(piece, body, number, size, points.get(piece.name))
        for number, piece in enumerate(garment.pieces, start=1)
        if piece.cut
    )


def made(number: int, name: str, size: str, count: int, ring: Floats, cut_as: CutAs = "") -> CutPiece:
    """A cut piece from any ring `(n, 2)` in mm, grain upright. It may lie on a fold if its two halves are alike.

    Half of its copies are the other hand, as folded cloth gives them, unless they are all cut right side up.
    """
    ring = counterclockwise(np.asarray(ring, dtype=float))
    ring = ring - ring.min(axis=0)
    fold = float(ring[:, 0].max()) / 2 if same_outline(ring, flipped(ring, -1, 1)) else None
    mirrored = 0 if cut_as == "right side up" or fold is not None else count // 2
    return CutPiece(number, name, size, count, ring, mirrored, fold)


def times(cut_piece: CutPiece, copies: int) -> CutPiece:
    """The cut piece for so many garments from one cloth."""
    return replace(cut_piece, count=cut_piece.count * copies, mirrored=cut_piece.mirrored * copies)


def same_outline(one: Floats, other: Floats) -> bool:
    """Whether two rings `(n, 2)` and `(m, 2)` in mm, each moved to 0, are the same outline."""
    import shapely

    first, second = one - one.min(axis=0), other - other.min(axis=0)
    if np.abs(_moments(first) - _moments(second)).max() > SAME * max(float(first.max()), float(second.max()), 1.0):
        return False  # by so much no moment differs where the areas share all but the least
    a, b = shapely.Polygon(first), shapely.Polygon(second)
    return bool(a.symmetric_difference(b).area < SAME)


def _moments(ring: Floats) -> Floats:
    """The moments of a ring's area about both axes `(2,)`, cubic mm."""
    after = np.roll(ring, -1, axis=0)
    twice = cross(ring, after)
    return np.asarray(np.abs(np.sum((ring + after) * twice[:, None], axis=0)) / 6)


def stretch_notes(garment: Garment) -> tuple[Note, ...]:
    """Cautions for pieces whose greatest stretch would not lie across the cloth once their grain lies along it.

    A woven cloth has none to lie so, and a piece of it that names none is not looked at.
    """
    notes = []
    knit = garment.cloth.get("stretch_across", 0.0) > 0
    for piece in [piece for piece in garment.pieces if piece.stretches or knit]:
        tilt = np.abs(dot(piece.grain, piece.stretch))
        if np.nanmax(tilt, initial=0.0) > SQUARE:
            fact = f"the grain and the greatest stretch of `{piece.name}` are not square to one another"
            notes.append(
                caution(f"{fact}: it is laid by its grain", piece.span, "check its `grain` and `stretch` lines")
            )
    return tuple(notes)


def stop_if_too_many(cut_pieces: tuple[CutPiece, ...]) -> None:
    """Raises Problems, with the name of the piece that is cut most often, for more copies than a lay can hold."""
    total = sum(cut_piece.count for cut_piece in cut_pieces)
    if total > MOST_COPIES:
        most = max(cut_pieces, key=lambda cut_piece: cut_piece.count)
        fact = f"{total:,} pieces are more than one lay holds ({MOST_COPIES}); {most} alone is cut {most.count:,} times"
        raise Problems([error(fact, None, "lay fewer sizes or copies at once")])


def _cut_piece(piece: Piece, body: int, number: int, size: str, point: Matched | None) -> CutPiece:
    line = opened_out(cutting_line(piece, body), piece, body)
    turn = upright(piece, body)
    ring = _simple(counterclockwise(flatten(line, FLAT)[:-1]) @ turn.T, piece, size)
    fold = next((edge.segments[body, (0, -1), (0, 3)] @ turn.T for edge in piece.edges if edge.on_fold), None)
    opened = None if fold is None else fold - ring.min(axis=0)
    whole = made(number, piece.title, size, piece.cut, ring, piece.cut_as)
    matched = None if point is None else point.moved(-ring.min(axis=0))
    cut_piece = replace(whole, folded=piece.on_fold, opened=opened, matched=matched)
    if not piece.on_fold or _fold_on_grain(piece, body):
        return cut_piece
    other_hand = 0 if piece.cut_as == "right side up" else piece.cut // 2  # alike about its own fold, so either will do
    return replace(cut_piece, fold=None, mirrored=other_hand)


def _simple(ring: Floats, piece: Piece, size: str) -> Floats:
    """The ring, without loops so small that only rounding made them. Raises Problems if it crosses itself."""
    import shapely

    shape = shapely.Polygon(ring) if len(ring) > 2 else shapely.Polygon()
    if shape.is_valid and not shape.is_empty:
        return ring
    parts = [part for part in shapely.get_parts(shapely.make_valid(shape)) if part.geom_type == "Polygon"]
    widest = max(parts, key=lambda part: float(part.area), default=None)
    if widest is None or sum(part.area for part in parts) - widest.area > SAME or widest.interiors:
        fact = f"the cutting line of `{piece.title}` in size {size} crosses itself, so it cannot be laid"
        raise Problems([error(fact, piece.span, "look at it with `plainseam draft`, and mend the outline")])
    return np.asarray(shapely.get_coordinates(widest.exterior)[:-1])


def _fold_on_grain(piece: Piece, body: int) -> bool:
    """Whether a piece's fold lies along its grain, as the fold of the cloth does."""
    edge = next(edge for edge in piece.edges if edge.on_fold)
    fold = edge.segments[body, -1, 3] - edge.segments[body, 0, 0]
    length = float(np.hypot(*fold))
    return length == 0 or abs(float(cross(fold, piece.grain[body]))) <= SQUARE * length
