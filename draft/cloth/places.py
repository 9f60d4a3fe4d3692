"""Where a shape may lie in a strip of cloth: the low corners of what is left free."""

from __future__ import annotations

from typing import Any

import numpy as np

from draft.base.arrays import Floats
from draft.cloth.batches import Shape

FIT = 0.005
"""A piece may be so many mm wider than the strip: rounding of units, not cloth."""
TALL = 1e6
"""Where nothing bounds a lay, its strip is a kilometre long."""
_APART = 0.5
"""Places nearer to one another than so many mm are the same."""
_LEVEL = 1e-9


def free_places(shape: Shape, width: float, limit: float, region: Any, most: int) -> list[tuple[float, float]]:
    """At most so many moves `(x, y)` to free places lower than their surroundings, the lowest first.

    The strip is `width` mm wide and the shape must end below `limit`; `region` are the moves that are not free, if any.
    """
    import shapely

    room = _room(shape, width, limit)
    if room is None:
        return []
    corners = _low_corners(room if region is None else shapely.difference(room, region))
    found: list[tuple[float, float]] = []
    for x, y in corners[np.lexsort((corners[:, 0].round(3), corners[:, 1].round(3)))]:
        if all(abs(x - u) + abs(y - v) > _APART for u, v in found):
            found.append((float(x), float(y)))
            if len(found) == most:
                break
    return found


def moved(region: Any, x: float, y: float) -> Any:
    """A region moved along with what it lies around."""
    import shapely

    step = np.array([x, y])
    return shapely.transform(region, lambda points: points + step)


def _room(shape: Shape, width: float, limit: float) -> Any:
    """The moves that keep a shape within the strip and below the limit, or None where there are none."""
    import shapely

    low, high = -float(shape.low[1]), min(limit, TALL) - float(shape.high[1])
    left, right = (0.0, 0.0) if shape.on_fold else (-float(shape.low[0]), width - float(shape.high[0]))
    if high < low or width - shape.width < -FIT:
        return None
    if right - left < FIT:
        middle = left if shape.on_fold else (left + right) / 2
        return shapely.LineString([(middle, low), (middle, high)])
    return shapely.box(left, low, right, high)


def _low_corners(free: Any) -> Floats:
    """The corners `(n, 2)` of a free region that lie no higher than both their neighbours."""
    import shapely

    found = [np.zeros((0, 2))]
    for part in shapely.get_parts(free):
        if part.geom_type != "Polygon":
            found.append(shapely.get_coordinates(part))
            continue
        for ring in shapely.get_rings(part):
            corners = shapely.get_coordinates(ring)[:-1]
            y = corners[:, 1]
            found.append(corners[(y <= np.roll(y, 1) + _LEVEL) & (y <= np.roll(y, -1) + _LEVEL)])
    return np.concatenate(found)
