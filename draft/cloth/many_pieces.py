"""Laying many pieces into a strip of cloth, by columns."""

from __future__ import annotations

import math
from collections.abc import Sequence
from functools import partial

import numpy as np

from draft.cloth.batches import Batch, Shape, Shelf, right_of
from draft.cloth.cut_pieces import CutPiece
from draft.cloth.effort import Effort
from draft.cloth.places import FIT
from draft.cloth.search import BETTER, Put, StripLay
from draft.cloth.simplified import flipped
from draft.geometry.column_profile import UNIT, Columns, by_columns
from draft.geometry.ground import Clearances, Place
from draft.geometry.in_order import InOrder, Kind

_WIDE = 4.0
"""About how wide a column is, mm: a piece takes half of that more than its width, and it is an eighth of an inch."""
_USUAL = 100
"""Up to so many places columns are so narrow."""
_TRIED = 6
"""Counts of columns that are tried."""
_EVEN = 12
"""Cloth has a multiple of so many columns, so that halves, quarters and thirds of it end where a column does."""


def column_step(width: float, cut_pieces: Sequence[CutPiece]) -> float:
    """How wide a column is on cloth `width` mm wide, in mm: near enough to 4, and what rounds these pieces up least.

    For very many places columns are wider, as their tables grow so fast.
    """
    places = sum(cut_piece.count for cut_piece in cut_pieces)
    about = round(width / (_WIDE * math.sqrt(max(places / _USUAL, 1.0))) / _EVEN)
    steps = width / (_EVEN * np.arange(max(about, 1), max(about, 1) + _TRIED))
    wide, area = (np.array(of) for of in zip(*((p.width, p.height * p.count) for p in cut_pieces), strict=True))
    rounded_up = np.ceil(wide / steps[:, None] - 1e-6) * steps[:, None] - wide
    return float(steps[int(np.argmin(rounded_up @ area))])


class ManyPieces:
    """Batches to be laid in a strip `width` mm wide, of columns each `step` mm wide."""

    def __init__(self, batches: Sequence[Batch], width: float, step: float, shelf: Shelf) -> None:
        shapes, clear = (
            [shape for batch in batches for shape in batch.shapes],
            shelf.kept("clear", step, make=Clearances),
        )
        known = [shelf.kept("columns", step, id(one), make=partial(_with_columns, one, step)) for one in shapes]
        numbers = iter(clear.numbers([(columns, shape.on_fold) for shape, columns in known]))
        self.ways: list[dict[int, Shape]] = [{next(numbers): shape for shape in batch.shapes} for batch in batches]
        kinds = [Kind(tuple(ways), batch.count, batch.area) for ways, batch in zip(self.ways, batches, strict=True)]
        self.strip = InOrder(kinds, int((width + FIT) / step), step, clear)

    def put(self, batch: int, shape: Shape, place: Place) -> Put:
        """A shape in its place."""
        x = 0.0 if shape.on_fold else place.column * self.strip.step - float(shape.low[0])
        return Put(batch, shape, x, place.height * UNIT - float(shape.low[1]))


def lay_many(
    batches: Sequence[Batch], width: float, step: float, shelf: Shelf, effort: Effort, best: float = math.inf
) -> StripLay | None:
    """The shortest lay found of the batches in a strip `width` mm wide, or None if none is shorter than `best` mm."""
    many = made_ready(batches, width, step, shelf)
    start = many.strip.start
    if start is None:
        return None
    laid = many.strip.bettered(start, effort.pieces, lambda: effort.stopped)
    puts = [
        many.put(batch, many.ways[batch][place.shape], place)
        for batch, place in zip(laid.order, laid.places, strict=True)
    ]
    found = StripLay.of(puts)
    return found if found.length < best - BETTER else None


def made_ready(batches: Sequence[Batch], width: float, step: float, shelf: Shelf) -> ManyPieces:
    """The same batches in the same strip are made ready once, and what is clear between their shapes is found once."""
    key = (width, step, *((batch.count, *map(id, batch.shapes)) for batch in batches))
    return shelf.kept("many", *key, make=lambda: ManyPieces(batches, width, step, shelf))


def _with_columns(shape: Shape, step: float) -> tuple[Shape, Columns]:
    """The shape, which is so kept alive, and the columns, each `step` mm wide, of its true outline.

    Of one that lies on a fold they are of the half right of it.
    """
    ring = flipped(shape.cut_piece.ring, shape.across, shape.along) + shape.offset
    low = np.array([0.0 if shape.on_fold else float(ring[:, 0].min()), ring[:, 1].min()])
    return shape, by_columns(right_of(ring, 0.0) - low if shape.on_fold else ring - low, step)
