"""Laying pieces as another lay has them: each as near to its place there as what lies already lets it."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Any

from draft.base.record import dataclass
from draft.cloth.batches import Shape, Shelf
from draft.cloth.places import free_places, moved
from draft.cloth.search import Put, StripLay

_CORNERS = 24
"""Of so many free corners the nearest is taken."""


@dataclass(frozen=True)
class Wanted:
    """A shape, and the move that it should come near to."""

    batch: int
    shape: Shape
    x: float
    y: float


def lay_near(wanted: Sequence[Wanted], width: float, shelf: Shelf, limit: float = math.inf) -> StripLay | None:
    """Lay the shapes in this order in a strip `width` mm wide. None if one finds no place below `limit`."""
    import shapely

    puts: list[Put] = []
    for one in wanted:
        regions: list[Any] = [moved(shelf.no_fit(put.shape, one.shape), put.x, put.y) for put in puts]
        free = free_places(one.shape, width, limit, shapely.union_all(regions) if regions else None, _CORNERS)
        if not free:
            return None
        x, y = min(free, key=lambda place: math.hypot(place[0] - one.x, place[1] - one.y))
        puts.append(Put(one.batch, one.shape, x, y))
    return StripLay.of(puts)
