"""Laying many pieces as another lay has them, by columns: each as low as it will go near its place across the cloth."""

from __future__ import annotations

import math
from collections.abc import Sequence

from draft.cloth.batches import Batch, Shape, Shelf
from draft.cloth.ground import Ground
from draft.cloth.lay_near import Wanted
from draft.cloth.many import made_ready
from draft.cloth.search import Put, StripLay

_BESIDE = 0.1
"""A piece stays within this share of the strip's width from where it should be across."""


def many_near(
    wanted: Sequence[Wanted], width: float, step: float, shelf: Shelf, limit: float = math.inf
) -> StripLay | None:
    """Lay the shapes in this order in a strip `width` mm wide, of columns of `step` mm. None if one finds no place there below `limit`."""
    shapes: dict[int, Shape] = {id(one.shape): one.shape for one in wanted}
    numbers = {key: number for number, key in enumerate(shapes)}
    many = made_ready([Batch((shape,), 1) for shape in shapes.values()], width, step, shelf)
    ground, puts = Ground.empty(many.clear, many.count, len(wanted)), list[Put]()
    aside = max(round(many.count * _BESIDE), 1)
    for one in wanted:
        number = numbers[id(one.shape)]
        (way,) = many.ways[number]
        column = round((one.x + float(one.shape.low[0])) / many.step)
        place = ground.lowest_place(way, max(column - aside, 0), column + aside + 1)
        if place is None or many.top(place) > limit:
            return None
        ground.lay(place)
        x, y = many.move(one.shape, place)
        puts.append(Put(one.batch, one.shape, x, y))
    return StripLay(max((put.y + float(put.shape.high[1]) for put in puts), default=0.0), tuple(puts))
