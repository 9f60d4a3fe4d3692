"""Laying one size as another is laid, so that a maker finds one diagram for many sizes.

The pieces are laid in the same order, the same way up and as near to the same places as their size lets them.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from draft.cloth.bolt import Cloth
from draft.cloth.effort import Effort
from draft.cloth.layout import Layout, Spot, Strip
from draft.cloth.lays import layout_of, strips_of
from draft.cloth.parts import Part
from draft.cloth.search import Found
from draft.cloth.settle import Wanted, settle
from draft.cloth.shapes import Shelf
from draft.cloth.verify import faults

NEAR = 0.12
"""Pieces whose middles lie within this share of the cloth's width and of the lay's length lie in the same place."""


def laid_like(model: Layout, parts: Sequence[Part], cloth: Cloth, shelf: Shelf, limit: float) -> Layout | None:
    """The parts laid as the model is, with no more than `limit` mm of cloth; None if that cannot be."""
    by_number = {part.number: part for part in parts}
    wide = {spot.part.number for spot in model.spots}
    if wide != set(by_number):
        return None
    found: list[tuple[Strip, Found]] = []
    for number, strip in enumerate(strips_of(model, cloth.usable)):
        wanted = [
            _wanted(spot, by_number[spot.part.number], model, strip, shelf)
            for spot in model.spots
            if spot.strip == number
        ]
        laid = settle(wanted, strip.width, shelf, limit)
        if laid is None:
            return None
        found.append((strip, laid))
    layout = replace(layout_of(model.kind, cloth.usable, found, Effort()), stopped=model.stopped)
    return layout if same_places(model, layout) and not faults(layout, parts) else None


def same_places(one: Layout, other: Layout) -> bool:
    """Whether a maker would follow one diagram for both: every piece the same way up in about the same place."""
    if one.kind != other.kind or len(one.spots) != len(other.spots):
        return False
    pairs = zip(_in_order(one), _in_order(other), strict=True)
    return all(_key(a) == _key(b) and _apart(a, b, one, other) < NEAR for a, b in pairs)


def widened(layout: Layout, width: float) -> Layout:
    """The same lay on wider cloth."""
    strips = strips_of(layout, width)
    found = []
    for number, (old, new) in enumerate(zip(layout.strips, strips, strict=True)):
        shift = new.left + new.width - old.left - old.width if new.fold_on_right else 0.0
        found += [spot.shifted(shift) for spot in layout.spots if spot.strip == number]
    return Layout(layout.kind, width, layout.length, strips, tuple(found), layout.stopped)


def _in_order(layout: Layout) -> list[Spot]:
    return sorted(layout.spots, key=lambda spot: (*_key(spot), *_middle(spot, layout).round(2)))


def _key(spot: Spot) -> tuple[int, int, bool, int, int]:
    return spot.part.number, spot.strip, spot.on_fold, spot.move.across, spot.move.along


def _middle(spot: Spot, layout: Layout) -> np.ndarray[tuple[int], np.dtype[np.float64]]:
    ring = spot.ring
    return np.asarray((ring.min(axis=0) + ring.max(axis=0)) / 2 / np.array([layout.width, layout.length]))


def _apart(a: Spot, b: Spot, one: Layout, other: Layout) -> float:
    return float(np.abs(_middle(a, one) - _middle(b, other)).max())


def _wanted(spot: Spot, part: Part, model: Layout, strip: Strip, shelf: Shelf) -> Wanted:
    """The same way up, and as far along what room it has as the model's piece is."""
    flip = -1 if strip.fold_on_right else 1
    shape = shelf.shape(part, spot.move.across * flip, spot.move.along, spot.on_fold)
    model_strip = model.strips[spot.strip]
    ring = spot.ring
    left = float(ring[:, 0].min()) - model_strip.left
    right = model_strip.width - float(ring[:, 0].max()) + model_strip.left
    before = right if strip.fold_on_right else left
    share = before / (left + right) if left + right > 1.0 else 0.0
    room = strip.width - shape.width
    x = 0.0 if spot.on_fold else share * room - float(shape.low[0])
    y = float(ring[:, 1].min()) * part.height / spot.part.height - float(shape.low[1])
    return Wanted(0, shape, x, y)
