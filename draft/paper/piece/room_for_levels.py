"""Room that is kept for the names of a projected nest's levels, before the piece's own words take it.

Large names of seven sizes below their level's word need a place beside their signs; words and arrows find another.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import product
from typing import Any

import numpy as np

from draft.base.arrays import Floats
from draft.garment.garment import Mark
from draft.paper.drawing.wording import Wording
from draft.paper.piece.across_lines import level_ends
from draft.paper.piece.names_in_row import GAP, HEAD_ASIDE, HEAD_DEEP
from draft.paper.piece.surface import Surface
from draft.paper.piece.tag_places import name_high, name_wide
from draft.paper.piece.together import Together

_AIR = 2.0
"""About such a place, mm."""


def room_for_levels(together: Together, room: Any, wording: Wording, surface: Surface) -> list[Any]:
    """Shapely boxes within a room, one for each level that finds one: on either side of its signs, the nearest."""
    import shapely

    kept: list[Any] = []
    if not (together.is_nest and surface.level):
        return kept
    for mark in together.outlines[0].piece.marks:
        if mark.line == "level":
            left = room.difference(shapely.union_all(kept))
            shapely.prepare(left)
            boxes = np.array(_boxes(mark, together, wording.named(mark.name), surface))
            kept += list(boxes[shapely.contains(left, boxes)][:1]) if len(boxes) else []
    return kept


def _boxes(mark: Mark, together: Together, word: str, surface: Surface) -> list[Any]:
    """Places for the names and the word above them, the best first."""
    import shapely

    sizes = list(enumerate(together.outlines))
    ends = [level_ends(one, mark, together.level(mark, number)) for number, one in sizes]
    found, row = [], together.is_row(mark)
    starts = np.array([up[0] if row else right[0] for right, up in ends])
    others = np.array([2 * together.level(mark, number) for number, _ in sizes]) - starts
    sides = [some[np.isfinite(some).all(axis=1)] for some in (starts, others)]
    if not len(sides[0]):
        return []
    wide, high = _extent([one.size for _, one in sizes], word, row, surface)
    way = (ends[0][1] if row else ends[0][0])[1]
    for points, turn in zip(sides, (way, -way), strict=True):
        for deep, aside in product(HEAD_DEEP, HEAD_ASIDE):
            x, y = _middle(points, turn, deep, aside, (wide, high), surface)
            found.append(shapely.box(x - wide / 2, y - high / 2, x + wide / 2, y + high / 2))
    return found


def _middle(
    points: Floats, way: Floats, deep: float, aside: float, extent: tuple[float, float], surface: Surface
) -> tuple[float, float]:
    """The middle of a place so deep beyond signs, mm before all is enlarged, and so far aside of their middle."""
    axis = int(abs(way[1]) > abs(way[0]))  # along which it lies deeper
    middle = (points.min(axis=0) + points.max(axis=0)) / 2
    into = 1.0 if way[axis] > 0 else -1.0
    middle[axis] = into * ((points[:, axis] * into).max() + deep * surface.enlarged + extent[axis] / 2)
    middle[1 - axis] += aside * surface.enlarged
    return float(middle[0]), float(middle[1])


def _extent(sizes: Sequence[str], word: str, row: bool, surface: Surface) -> tuple[float, float]:
    """How wide and how high names and the word above them are, mm, with air about them."""
    wide, step = [name_wide(size, surface) for size in sizes], name_high(surface) + GAP * surface.enlarged
    across = sum(wide) + len(wide) * GAP * surface.enlarged if row else max(wide)
    down = 2 if row else len(wide) + 1
    return max(across, name_wide(word, surface)) + 2 * _AIR, down * step + 2 * _AIR
