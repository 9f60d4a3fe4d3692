"""Names of cutting lines that run too near one another for a tag between them: in a row inside, each with a leader."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from draft.geometry import cubic
from draft.paper.drawing.drawing import Item
from draft.paper.piece.clutter import Clutter
from draft.paper.piece.names_in_row import in_row
from draft.paper.piece.sized_marks import Anchor
from draft.paper.piece.sizes_drawn import Sizes
from draft.paper.piece.tags import Missed, Tagged

_SAME = 0.6
"""Nearer than this many mm to another size's line, a leader would not say which of the two it names."""
_LEAST = 2
"""A row is set of so many names."""


def bundle_names(
    missed: Sequence[Missed], tagged: Sequence[Tagged], sizes: Sizes, clutter: Clutter
) -> list[list[Item]]:
    """For each size the names of lines that found no tag, and their leaders; beside every other place of a tag."""
    found: list[list[Item]] = [[] for _ in tagged]
    places: dict[tuple[int, int, int], list[Anchor]] = {}
    for one in missed:
        anchor = _anchor(one, tagged[one.size])
        if anchor is not None and (one.tag % 2 == 0 or one.tags < 3):
            places.setdefault((one.line, one.tag, one.tags), []).append(anchor)
    for anchors in places.values():
        if len(anchors) >= _LEAST:
            in_row(anchors, sizes, clutter, found)
    return found


def _anchor(one: Missed, size: Tagged) -> Anchor | None:
    """On its line, in the middle of where the tag was to stand; none where another size's line lies on it."""
    import shapely

    ruler = size.rulers[one.line]
    point, way = ruler.place(ruler.length * (one.tag + 0.5) / one.tags)
    at, aside = shapely.Point(point), cubic.right_of(cubic.unit(way))
    if shapely.dwithin(size.others, at, _SAME):
        return None
    inward = aside if size.inside.contains(shapely.Point(point + 2.0 * aside)) else -aside
    return Anchor(one.size, np.asarray(point), np.asarray(inward), bold=True)
