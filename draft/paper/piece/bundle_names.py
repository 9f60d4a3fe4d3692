"""Names of cutting lines that run too near one another for a tag between them: in a row inside, each with a leader."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from draft.geometry import cubic
from draft.geometry.ruler import places_on
from draft.paper.drawing.drawing import Item
from draft.paper.piece.clutter import Clutter
from draft.paper.piece.names_in_row import in_row
from draft.paper.piece.sized_marks import Anchor
from draft.paper.piece.sizes_drawn import Sizes
from draft.paper.piece.tag_places import Tagged
from draft.paper.piece.tags import Missed

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
    some = [one for one in missed if one.tag % 2 == 0 or one.tags < 3]
    for one, anchor in zip(some, _anchors(some, tagged), strict=True):
        if anchor is not None:
            places.setdefault((one.line, one.tag, one.tags), []).append(anchor)
    for anchors in places.values():
        if len(anchors) >= _LEAST:
            in_row(anchors, sizes, clutter, found)
    return found


def _anchors(missed: Sequence[Missed], tagged: Sequence[Tagged]) -> list[Anchor | None]:
    """Each on its line, in the middle of where the tag was to stand; None where another size's line lies on it."""
    import shapely

    if not missed:
        return []
    rulers = [tagged[one.size].rulers[one.line] for one in missed]
    middles = [ruler.length * (one.tag + 0.5) / one.tags for one, ruler in zip(missed, rulers, strict=True)]
    points, ways = places_on(rulers, [np.array([middle]) for middle in middles])
    sizes = [tagged[one.size] for one in missed]
    alike = shapely.dwithin(np.array([size.others for size in sizes]), shapely.points(points), _SAME)
    asides = cubic.right_of(cubic.unit(ways))
    within = shapely.contains_xy(np.array([size.inside for size in sizes]), points + 2.0 * asides)
    inward = np.where(within[:, None], asides, -asides)
    return [
        None if same else Anchor(one.size, point, way, bold=True)
        for one, same, point, way in zip(missed, alike, points, inward, strict=True)
    ]
