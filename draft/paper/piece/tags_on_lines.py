"""Names of sizes set into their own lines, which stop for them: large upright letters fit between few lines."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import numpy as np

from draft.paper.drawing.drawing import Item, Label, Path, rectangle
from draft.paper.drawing.room import Spot
from draft.paper.piece.clutter import Clutter
from draft.paper.piece.surface import Surface
from draft.paper.piece.tag_places import Tagged, name_high, name_wide
from draft.paper.piece.tags import name_of_size

_PLACES = 60
"""So many places along each line are tried."""
_CLEAR = 2.0
"""Between the letters and the two ends of the line, mm."""
_CHORDS, _OWN = 129, 1.0
"""A line is its size's own within so many mm of that in so many points."""


def with_names_on_lines(
    sizes: Sequence[Tagged], named: Sequence[Sequence[Label]], clutter: Clutter, surface: Surface
) -> list[tuple[Item, ...]]:
    """The tags of each size, and for one that has none its name on its line, if any line has room for that."""
    return [tuple(labels) or _on_line(size, clutter, surface) for size, labels in zip(sizes, named, strict=True)]


def _on_line(size: Tagged, clutter: Clutter, surface: Surface) -> tuple[Item, ...]:
    import shapely

    width, high = name_wide(size.name, surface), name_high(surface)
    along = (np.arange(_PLACES) + 0.5) / _PLACES
    points = np.concatenate([ruler.places(ruler.length * along)[0] for ruler in size.rulers])
    spots = [Spot(float(x), float(y), width, high, surface.upright) for x, y in points]
    boxes = np.array([spot.shape(_CLEAR) for spot in spots])
    free = ~shapely.intersects(boxes, shapely.union(_others(size, clutter), size.others))
    number = clutter.first_apart(boxes, free)
    if number is None:
        return ()
    clutter.take(boxes[number])
    spot = spots[number]
    left, top, right, bottom = spot.box
    free_of_line = rectangle(left - _CLEAR, top - _CLEAR, right - left + 2 * _CLEAR, bottom - top + 2 * _CLEAR)
    white = Path((free_of_line,), None, "#ffffff", closed=True)
    return white, name_of_size(size.name, size.index, spot, surface)


def _others(size: Tagged, clutter: Clutter) -> Any:
    """All that is drawn but for the size's own lines."""
    import shapely

    lines = [ruler.places(np.linspace(0.0, ruler.length, _CHORDS))[0] for ruler in size.rulers]
    own = shapely.MultiLineString(lines).buffer(_OWN)
    shapely.prepare(own)
    parts = shapely.get_parts(np.array(list(clutter.lines), dtype=object))
    return shapely.union_all(parts[~shapely.covers(own, parts)])
