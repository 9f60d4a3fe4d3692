"""A piece on the fold shown whole: its half, and what it looks like turned over at the fold.

Paper shows the half, which is laid on a fold; what is projected onto flat cloth has no fold to be laid on.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from typing import Any, TypeAlias

import numpy as np

from draft.base.arrays import Floats
from draft.geometry.cubic import dot, lines_through, unit
from draft.geometry.flatten import polyline
from draft.paper.drawing.drawing import Item, Label, Path
from draft.paper.drawing.room import label_spot

Fold: TypeAlias = tuple[Floats, Floats]
"""Both ends `(2,)` of a fold, mm."""
_CLOSED, _CLEAR = 3.5, 3.0
"""Between what is drawn and words, mm: the room on either side of the fold line is closed by so much."""


def turned_over(points: Floats, fold: Fold) -> Floats:
    """Points `(..., 2)` turned over at a fold."""
    start, along = fold[0], unit(fold[1] - fold[0])
    off = points - start
    return np.asarray(start + 2.0 * dot(off, along)[..., None] * along - off)


def turned_over_shape(shape: Any, fold: Fold) -> Any:
    """A shapely shape turned over at a fold."""
    import shapely

    return shapely.transform(shape, lambda points: turned_over(points, fold))


def with_other_half(shape: Any, fold: Fold) -> Any:
    """A shapely shape and what it is turned over at a fold."""
    return shape.union(turned_over_shape(shape, fold))


def whole_room(shape: Any, fold: Fold) -> Any:
    """The room of both halves as one: words may stand across the fold, whose line stops for them."""
    return with_other_half(shape, fold).buffer(_CLOSED, join_style="mitre").buffer(-_CLOSED, join_style="mitre")


def stopped(line: Path, words: Iterable[Item]) -> Path:
    """The fold line without what would run through words."""
    import shapely

    boxes = [label_spot(word).shape(_CLEAR) for word in words if isinstance(word, Label)]
    if not boxes:
        return line
    drawn = shapely.MultiLineString([polyline(run) for run in line.runs])
    left = shapely.difference(drawn, shapely.union_all(boxes))
    parts = [lines_through(shapely.get_coordinates(part)) for part in shapely.get_parts(left) if not part.is_empty]
    return replace(line, runs=tuple(parts))


def lines_of_both(items: Iterable[Item], fold: Fold, once: frozenset[str] = frozenset()) -> tuple[Item, ...]:
    """The items, and all lines and marks of the piece once more on its other half, but for some ids; words are not."""
    found = list(items)
    drawn = [item for item in found if isinstance(item, Path) and item.id and item.id not in once]
    other = [replace(path, runs=tuple(turned_over(run, fold) for run in path.runs), id="", data=()) for path in drawn]
    return (*found, *other)
