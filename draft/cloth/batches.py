"""What is laid: outlines of cut pieces as they may lie in a strip of cloth, and batches of which some shape must lie.

A search knows only batches; what folded cloth means for a cut piece is said here.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import cached_property
from typing import Any, TypeVar, cast

import numpy as np

from draft.base.arrays import Floats
from draft.base.record import dataclass
from draft.cloth.cut_pieces import CutPiece, same_outline
from draft.cloth.nofit import region, reversed_region
from draft.cloth.simplified import counterclockwise, flipped, of_few_points

FEW = 0.5
"""Outlines grow by at most about so many mm for the search: far below what a shop cuts, and a quarter of the points."""


Made = TypeVar("Made")


@dataclass(frozen=True, eq=False)
class Shape:
    """One way in which a cut piece may lie in a strip: its ring, grown a little for the search.

    `offset` takes the cut piece's own ring, mirrored by `across` and `along`, to this one. `low` and `high` are the
    corners of the true outline, which alone must keep within the cloth. A shape on the fold is a half whose fold lies
    at 0.
    """

    cut_piece: CutPiece
    across: int
    along: int
    on_fold: bool
    ring: Floats
    offset: Floats
    low: Floats
    high: Floats

    @property
    def width(self) -> float:
        """What it takes across, mm."""
        return float(self.high[0] - (0.0 if self.on_fold else self.low[0]))


@dataclass(frozen=True, eq=False)
class Batch:
    """`count` places to find, each for any one of these shapes."""

    shapes: tuple[Shape, ...]
    count: int

    @cached_property
    def area(self) -> float:
        """What one place takes of the strip at least, square mm."""
        return min(shape.cut_piece.area / (2 if shape.on_fold else 1) for shape in self.shapes)


class Shelf:
    """The shapes of a set of cut pieces and their no-fit regions, each made once, when it is first asked for."""

    def __init__(self, tolerance: float = FEW) -> None:
        self._tolerance = tolerance
        self._rings: dict[tuple[int, bool], tuple[CutPiece, Floats]] = {}
        self._shapes: dict[tuple[int, int, int, bool], Shape] = {}
        self._regions: dict[tuple[int, int], tuple[Shape, Shape, object]] = {}
        self._kept: dict[tuple[object, ...], object] = {}
        self._known: dict[tuple[object, ...], tuple[Sequence[CutPiece], list[Any]]] = {}
        self.looked = 0
        """How often searches have looked for free places, all of them together."""

    def shape(self, cut_piece: CutPiece, across: int, along: int, on_fold: bool = False) -> Shape:
        """The cut piece mirrored or not, across and along, lying anywhere or on the fold."""
        key = (id(cut_piece), across, along, on_fold)
        if key not in self._shapes:
            ring = flipped(self._ring(cut_piece, on_fold), across, along)
            edge = across * cut_piece.fold if on_fold and cut_piece.fold is not None else float(ring[:, 0].min())
            offset = -np.array([edge, ring[:, 1].min()])
            true = flipped(cut_piece.ring, across, along) + offset
            self._shapes[key] = Shape(
                cut_piece, across, along, on_fold, ring + offset, offset, true.min(axis=0), true.max(axis=0)
            )
        return self._shapes[key]

    def exact(self, cut_piece: CutPiece, ring: Floats) -> Shape:
        """A shape that stands just where its ring `(n, 2)` is, mm, for what no piece may lie on."""
        return Shape(cut_piece, 1, 1, False, counterclockwise(ring), np.zeros(2), ring.min(axis=0), ring.max(axis=0))

    def no_fit(self, fixed: Shape, moving: Shape) -> object:
        """The shapely region of moves that lay `moving` on `fixed`."""
        key, back = (id(fixed), id(moving)), (id(moving), id(fixed))
        if key not in self._regions:
            known = self._regions.get(back)
            found = reversed_region(known[2]) if known else region(fixed.ring, moving.ring)
            self._regions[key] = (fixed, moving, found)
        return self._regions[key][2]

    def kept(self, *key: object, make: Callable[[], Made]) -> Made:
        """What a search has made of these shapes, made when it is first asked for."""
        if key not in self._kept:
            self._kept[key] = make()
        return cast("Made", self._kept[key])

    def known(self, cut_pieces: Sequence[CutPiece], *key: object) -> list[Any]:
        """What was found for just these cut pieces, such as lays; whoever finds more adds it."""
        return self._known.setdefault((tuple(map(id, cut_pieces)), *key), (tuple(cut_pieces), []))[1]

    def forget(self) -> None:
        """Let go of what `kept` keeps: tables of many shapes are large, and of one size they are soon done with."""
        self._kept.clear()

    def _ring(self, cut_piece: CutPiece, on_fold: bool) -> Floats:
        key = (id(cut_piece), on_fold)
        if key not in self._rings:
            fold = cut_piece.fold if on_fold else None
            ring = cut_piece.ring if fold is None else right_of(cut_piece.ring, fold)
            self._rings[key] = (cut_piece, of_few_points(ring, self._tolerance))
        return self._rings[key][1]


def open_batches(cut_pieces: Sequence[CutPiece], shelf: Shelf, one_way: bool) -> list[Batch]:
    """Single cloth: every copy has its own place, and the other hand of a pair lies face down."""
    batches = []
    for cut_piece in cut_pieces:
        if cut_piece.count > cut_piece.mirrored:
            batches.append(Batch(_ways(cut_piece, shelf, False, one_way), cut_piece.count - cut_piece.mirrored))
        if cut_piece.mirrored:
            batches.append(Batch(_ways(cut_piece, shelf, True, one_way), cut_piece.mirrored))
    return batches


def folded_batches(cut_pieces: Sequence[CutPiece], shelf: Shelf, one_way: bool, width: float) -> list[Batch] | None:
    """Doubled cloth: halves on the fold, two copies at a time anywhere else. None where it cannot give some cut piece.

    A single copy that is alike on both sides may lie on the fold, or be cut from doubled cloth with one to spare; all
    must lie on the fold if they are wider than the strip. A half whose own fold runs across the grain fits no fold: it
    is opened out as on open cloth.
    """
    batches = []
    for cut_piece in cut_pieces:
        halves = _halves(cut_piece, shelf, one_way) if cut_piece.fold is not None else ()
        halved = cut_piece.folded and cut_piece.fold is not None
        free = () if cut_piece.width > width or halved else _both_hands(cut_piece, shelf, one_way)
        if not halves and not free:
            return None
        if not free:
            batches.append(Batch(halves, cut_piece.count))
            continue
        places = cut_piece.count // 2 if halves else max(cut_piece.count - cut_piece.mirrored, cut_piece.mirrored)
        batches.append(Batch(free, places))
        if halves and cut_piece.count % 2:
            batches.append(Batch((*free, *halves), 1))
    return [batch for batch in batches if batch.count]


def _ways(cut_piece: CutPiece, shelf: Shelf, face_down: bool, one_way: bool) -> tuple[Shape, ...]:
    across = -1 if face_down else 1
    upright = shelf.shape(cut_piece, across, 1)
    turned = shelf.shape(cut_piece, -across, -1)
    return (upright,) if one_way or same_outline(upright.ring, turned.ring) else (upright, turned)


def _both_hands(cut_piece: CutPiece, shelf: Shelf, one_way: bool) -> tuple[Shape, ...]:
    found: list[Shape] = []
    for face_down in (False, True):
        for shape in _ways(cut_piece, shelf, face_down, one_way):
            if not any(same_outline(shape.ring, other.ring) for other in found):
                found.append(shape)
    return tuple(found)


def _halves(cut_piece: CutPiece, shelf: Shelf, one_way: bool) -> tuple[Shape, ...]:
    upright, turned = shelf.shape(cut_piece, 1, 1, True), shelf.shape(cut_piece, 1, -1, True)
    return (upright,) if one_way or same_outline(upright.ring, turned.ring) else (upright, turned)


def right_of(ring: Floats, fold: float) -> Floats:
    """The half of a ring `(n, 2)` right of a fold, counterclockwise, with the points at which it crosses it."""
    import shapely

    low, high = ring.min(axis=0) - 1.0, ring.max(axis=0) + 1.0
    halves = shapely.get_parts(shapely.Polygon(ring).intersection(shapely.box(fold, low[1], high[0], high[1])))
    widest = max(halves, key=lambda half: float(half.area))
    return counterclockwise(shapely.get_coordinates(widest.exterior)[:-1])
