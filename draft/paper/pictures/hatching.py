"""Slanting lines over what lies face down."""

from __future__ import annotations

from typing import Any

import numpy as np

from draft.base.arrays import Floats
from draft.paper.drawing.drawing import Item, Stroke, straight_lines
from draft.paper.drawing.line_styles import GREY

THIN = Stroke(0.18, colour=GREY)
_HATCH = 2.2


def hatched(ring: Floats) -> list[Item]:
    """Slanting lines over a piece that lies face down, in its outline `(n, 2)`."""
    import shapely

    low, high = ring.min(axis=0), ring.max(axis=0)
    rise = float(high[1] - low[1])
    starts = np.arange(float(low[0]) - rise, float(high[0]), _HATCH)
    slants = shapely.linestrings([[(x, high[1]), (x + rise, low[1])] for x in starts])
    lines = lines_of(shapely.intersection(slants, shapely.Polygon(ring)))
    return [straight_lines(lines, THIN)] if lines else []


def lines_of(geometry: Any) -> list[Floats]:
    """The lines `(n, 2)` of shapely geometries, without what is only a point or nothing."""
    import shapely

    parts = shapely.get_parts(geometry)
    return [shapely.get_coordinates(p) for p in parts if p.geom_type == "LineString" and not p.is_empty]
