"""Where a shape may lie in a strip of cloth: the low corners of what is left free."""

from __future__ import annotations

from functools import cached_property
from typing import Any

import numpy as np

from draft.cloth.batches import Shape
from draft.cloth.lined_up import on_lines

FIT = 0.005
"""A piece may be so many mm wider than the strip: rounding of units, not cloth."""
TALL = 1e6
"""Where nothing bounds a lay, its strip is a kilometre long."""
_APART = 0.5
"""Places nearer to one another than so many mm are the same."""
_LEVEL = 1e-9


class Free:
    """Where a shape may lie: the moves that are free, a shapely `region` or None for no room."""

    def __init__(self, region: Any) -> None:
        self.region = region

    @cached_property
    def is_none(self) -> bool:
        """Whether nothing is free."""
        import shapely

        return self.region is None or bool(shapely.is_empty(self.region))

    @cached_property
    def corners(self) -> list[tuple[float, float]]:
        """The corners of the region that lie no higher than both their neighbours, the lowest first."""
        corners = [] if self.region is None else _low_corners(self.region)
        return sorted(corners, key=lambda at: (round(at[1], 3), round(at[0], 3)))


def free_places(shape: Shape, width: float, limit: float, region: Any, most: int) -> list[tuple[float, float]]:
    """At most so many moves `(x, y)` to free places lower than their surroundings, the lowest first.

    The strip is `width` mm wide and the shape must end below `limit`; `region` are the moves that are not free, if any.
    """
    import shapely

    there = room(shape, width)
    free = there if there is None or region is None else shapely.difference(there, region)
    return lowest_of(Free(free), shape, limit, most)


def lowest_of(free: Free, shape: Shape, limit: float, most: int) -> list[tuple[float, float]]:
    """The same of the moves that are free."""
    below = limit - float(shape.high[1])
    if free.region is not None and shape.cut_piece.repeat:
        return [] if free.is_none else on_lines(free.region, shape, below, most)
    found: list[tuple[float, float]] = []
    for x, y in free.corners:
        if y <= below and all(abs(x - u) + abs(y - v) > _APART for u, v in found):
            found.append((x, y))
            if len(found) == most:
                break
    return found


def moved(region: Any, x: float, y: float) -> Any:
    """A region moved along with what it lies around."""
    import shapely

    step = np.array([x, y])
    return shapely.transform(region, lambda points: points + step)


def room(shape: Shape, width: float) -> Any:
    """The moves that keep a shape within the strip, a shapely region, or None where there are none."""
    import shapely

    low, high = -float(shape.low[1]), TALL
    left, right = (0.0, 0.0) if shape.on_fold else (-float(shape.low[0]), width - float(shape.high[0]))
    if width - shape.width < -FIT:
        return None
    if right - left < FIT:
        middle = left if shape.on_fold else (left + right) / 2
        return shapely.LineString([(middle, low), (middle, high)])
    return shapely.box(left, low, right, high)


def _low_corners(free: Any) -> list[tuple[float, float]]:
    """The corners of a free region that lie no higher than both their neighbours; of a line its ends."""
    import shapely

    found: list[tuple[float, float]] = []
    for part in getattr(free, "geoms", (free,)):
        if part.geom_type != "Polygon":
            found += [(x, y) for x, y in shapely.get_coordinates(part).tolist()]
            continue
        for ring in (part.exterior, *part.interiors):
            corners = shapely.get_coordinates(ring).tolist()
            before = [corners[-2], *corners[:-2]]
            for (_, left), (x, y), (_, right) in zip(before, corners, corners[1:], strict=False):
                if y <= left + _LEVEL and y <= right + _LEVEL:
                    found.append((x, y))
    return found
