"""Where words stand beside a mark inside a piece: the places about it, and the first of them that is free."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Any

import numpy as np

from draft.paper.drawing import font
from draft.paper.drawing.drawing import PT, Label
from draft.paper.drawing.room import Spot, spot_shapes
from draft.paper.piece.clutter import Clutter
from draft.paper.piece.surface import Surface
from draft.paper.piece.title_block import SMALLEST

CROSS = 3.5
"""How far the cross of a drill mark reaches from its point, mm."""
_SIZE = SMALLEST * PT
_LEADING = 1.35
_KEPT = 0.8
"""Words keep so many mm clear of lines and other words."""
_REACHES = (1.5, 4.0, 8.0, 14.0, 22.0)
"""From a mark to its words, in mm: the nearest that is free."""


def first_free(
    texts: Sequence[str], rows: Iterable[Sequence[Spot]], inside: Any, clutter: Clutter, surface: Surface
) -> list[Label]:
    """Lines of words in the first place that lies in a shape and is clear of the clutter, and then part of that."""
    import shapely

    for spots in rows:
        shapes = spot_shapes(spots, _KEPT)
        fits = clutter.off_lines(shapes)
        fits[fits] = shapely.contains(inside, shapes[fits])
        number = clutter.first_apart(shapes, fits)
        if number is not None:
            clutter.take(shapes[number])
            return _set(texts, spots[number], surface)
    return []


def extent(texts: Sequence[str], surface: Surface) -> tuple[float, float]:
    """Width and height of lines of words, mm."""
    size = _SIZE * surface.enlarged
    high = size * (font.CAP_HEIGHT + font.DESCENT + (len(texts) - 1) * _LEADING)
    return max(font.text_width(text, size) for text in texts), high


def _set(texts: Sequence[str], spot: Spot, surface: Surface) -> list[Label]:
    """Lines of words one below the other in their place."""
    size = _SIZE * surface.enlarged
    first = -spot.height / 2 + size * font.CAP_HEIGHT
    return [
        Label(text, *spot.at(0, first + k * size * _LEADING), size, "middle", spot.angle)
        for k, text in enumerate(texts)
    ]


def spots_about(points: Any, texts: Sequence[str], surface: Surface, joined: bool = False) -> list[Spot]:
    """Places for lines of words about a point `(1, 2)` or along a line `(n, 2)`, y down, the nearest first.

    Where they are to be `joined` with it, those without any that a page's edge parts from it.
    """
    drill = len(points) == 1
    width, height = extent(texts, surface)
    if not np.isfinite(points).all():
        return []
    begin, end = longest_leg(points)
    way = end - begin
    angle = surface.upright if drill else surface.along(float(np.degrees(np.arctan2(way[1], way[0]))))
    x, y = (begin + end) / 2
    middle = Spot(float(x), float(y), 0, 0, angle)
    found = []
    for reach in _REACHES:
        beside = CROSS + reach + width / 2
        across = reach + height / 2 + (CROSS if drill else 0.0)
        sides = [(beside, 0.0), (-beside, 0.0)] if drill or surface.level else []
        found += [Spot(*middle.at(*at), width, height, angle) for at in (*sides, (0.0, -across), (0.0, across))]
    return [spot for spot in found if not _parted(spot, (x, y), surface)] if joined else found


def _parted(spot: Spot, point: tuple[float, float], surface: Surface) -> bool:
    import shapely

    return surface.cross(shapely.LineString([point, (spot.x, spot.y)]))


def longest_leg(points: Any) -> tuple[Any, Any]:
    """Both ends of the longest straight part of a line through points: words run along it. A point has itself."""
    if len(points) == 1:
        return points[0], points[0]
    k = int(np.argmax(np.hypot(*np.diff(points, axis=0).T)))
    return points[k], points[k + 1]
