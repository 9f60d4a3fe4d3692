"""Laying one size as another is laid, so that a maker finds one diagram for many sizes.

The pieces are laid in the same order, the same way up and as near to the same places as their size lets them.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from draft.cloth.batches import Shelf
from draft.cloth.bolt import Cloth
from draft.cloth.cut_pieces import CutPiece
from draft.cloth.effort import Effort
from draft.cloth.lay import Lay, Placement, Strip
from draft.cloth.lay_near import Wanted, lay_near
from draft.cloth.lays import lay_of, strips_of
from draft.cloth.many_near import many_near
from draft.cloth.many_pieces import column_step
from draft.cloth.repeats import on_repeat
from draft.cloth.search import StripLay
from draft.cloth.shortest import MANY_PLACES
from draft.cloth.verify import faults

NEAR = 0.12
"""Pieces whose middles lie within this share of the cloth's width and of the lay's length lie in the same place."""


def laid_like(model: Lay, cut_pieces: Sequence[CutPiece], cloth: Cloth, shelf: Shelf, limit: float) -> Lay | None:
    """The cut pieces laid as the model is, with no more than `limit` mm of cloth; None if that cannot be."""
    cut_pieces = on_repeat(cut_pieces, cloth, shelf)
    by_number = {cut_piece.number: cut_piece for cut_piece in cut_pieces}
    wide = {placement.cut_piece.number for placement in model.placements}
    if wide != set(by_number):
        return None
    many = len(model.placements) > MANY_PLACES and not cloth.repeats
    step = column_step(cloth.usable, cut_pieces)
    found: list[tuple[Strip, StripLay]] = []
    for number, strip in enumerate(strips_of(model, cloth.usable)):
        wanted = [
            _wanted(placement, by_number[placement.cut_piece.number], model, strip, shelf)
            for placement in model.placements
            if placement.strip == number
        ]
        laid = (
            many_near(wanted, strip.width, step, shelf, limit) if many else lay_near(wanted, strip.width, shelf, limit)
        )
        if laid is None:
            return None
        found.append((strip, laid))
    lay = replace(lay_of(model.folding, cloth.usable, found, Effort()), stopped=model.stopped)
    return lay if same_places(model, lay) and not faults(lay, cut_pieces) else None


def same_places(one: Lay, other: Lay) -> bool:
    """Whether a maker would follow one diagram for both: every piece the same way up in about the same place."""
    if one.folding != other.folding or len(one.placements) != len(other.placements):
        return False
    pairs = zip(_in_order(one), _in_order(other), strict=True)
    return all(_key(a) == _key(b) and _apart(a, b, one, other) < NEAR for a, b in pairs)


def widened(lay: Lay, width: float) -> Lay:
    """The same lay on wider cloth."""
    strips = strips_of(lay, width)
    found = []
    for number, (old, new) in enumerate(zip(lay.strips, strips, strict=True)):
        shift = new.left + new.width - old.left - old.width if new.fold_on_right else 0.0
        found += [placement.shifted(shift) for placement in lay.placements if placement.strip == number]
    return Lay(lay.folding, width, lay.length, strips, tuple(found), lay.stopped)


def _in_order(lay: Lay) -> list[Placement]:
    return sorted(lay.placements, key=lambda placement: (*_key(placement), *_middle(placement, lay).round(2)))


def _key(placement: Placement) -> tuple[int, int, bool, int, int]:
    return placement.cut_piece.number, placement.strip, placement.on_fold, placement.move.across, placement.move.along


def _middle(placement: Placement, lay: Lay) -> np.ndarray[tuple[int], np.dtype[np.float64]]:
    ring = placement.ring
    return np.asarray((ring.min(axis=0) + ring.max(axis=0)) / 2 / np.array([lay.width, lay.length]))


def _apart(a: Placement, b: Placement, one: Lay, other: Lay) -> float:
    return float(np.abs(_middle(a, one) - _middle(b, other)).max())


def _wanted(placement: Placement, cut_piece: CutPiece, model: Lay, strip: Strip, shelf: Shelf) -> Wanted:
    """The same way up, and as far along what room it has as the model's piece is."""
    flip = -1 if strip.fold_on_right else 1
    shape = shelf.shape(cut_piece, placement.move.across * flip, placement.move.along, placement.on_fold)
    model_strip = model.strips[placement.strip]
    ring = placement.ring
    left = float(ring[:, 0].min()) - model_strip.left
    right = model_strip.width - float(ring[:, 0].max()) + model_strip.left
    before = right if strip.fold_on_right else left
    share = before / (left + right) if left + right > 1.0 else 0.0
    room = strip.width - shape.width
    x = 0.0 if placement.on_fold else share * room - float(shape.low[0])
    y = float(ring[:, 1].min()) * cut_piece.height / placement.cut_piece.height - float(shape.low[1])
    return Wanted(0, shape, x, y)
