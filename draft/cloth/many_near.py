"""Laying many pieces as another lay has them, by columns: each as low as it will go near its place across the cloth."""

from __future__ import annotations

import math
from collections.abc import Sequence

from draft.cloth.batches import Batch, Shape, Shelf
from draft.cloth.lay_near import Wanted
from draft.cloth.many_pieces import made_ready
from draft.cloth.search import Put, StripLay
from draft.geometry.ground import Ground

_BESIDE = 0.1
"""A piece stays within this share of the strip's width from where it should be across."""


def many_near(
    wanted: Sequence[Wanted], width: float, step: float, shelf: Shelf, limit: float = math.inf
) -> StripLay | None:
    """Lay the shapes in this order in a strip `width` mm wide, of columns of `step` mm.

    None if one finds no place there below `limit`.
    """
    shapes: dict[int, Shape] = {id(one.shape): one.shape for one in wanted}
    numbers = {key: number for number, key in enumerate(shapes)}
    many = made_ready([Batch((shape,), 1) for shape in shapes.values()], width, step, shelf)
    strip = many.strip
    ground, puts = Ground.empty(strip.clear, strip.columns, len(wanted)), list[Put]()
    aside = max(round(strip.columns * _BESIDE), 1)
    for one in wanted:
        (way,) = many.ways[numbers[id(one.shape)]]
        column = round((one.x + float(one.shape.low[0])) / step)
        place = ground.lowest_place(way, max(column - aside, 0), column + aside + 1)
        if place is None or strip.top(place) > limit:
            return None
        ground.lay(place)
        puts.append(many.put(one.batch, one.shape, place))
    return StripLay.of(puts)
