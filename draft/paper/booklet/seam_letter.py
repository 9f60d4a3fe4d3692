"""The letter of a seam beside the thick line that is sewn, as it stands on the pieces along the edges."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from typing import Any

import numpy as np

from draft.base.arrays import Floats
from draft.geometry.flatten import polyline
from draft.geometry.ruler import Ruler
from draft.paper.booklet.set_blocks import SIDE, Block
from draft.paper.drawing import font
from draft.paper.drawing.drawing import PT, Label, Path, Stroke

_SIZE = 9.0 * PT
_BESIDE = (2.4, 3.2, 4.2, 5.4, 7.0, 9.0)  # mm from the seam to the middle of the letter
_ALONG = (0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8, 0.1, 0.9)
_CLEAR = 0.75
_OVER = 2.5
"""So far, mm, a letter may stand out beyond the sides of a drawing's place."""
_BELOW = 5.0
"""A drawing may grow by so much, mm, for a letter below it."""


def lettered(block: Block, letter: str, seam: Stroke) -> Block:
    """A drawing with the letter beside the longest of its thick lines, rather on a piece than beside it.

    As it was where there is no room that is clear of all lines.
    """
    import shapely

    paths = [item for item in block.items if isinstance(item, Path) and item.runs]
    thick = [run for path in paths if path.stroke == seam for run in path.runs]
    if not thick:
        return block
    lines = shapely.union_all([shapely.LineString(polyline(run)) for path in paths for run in path.runs])
    shapes = [shapely.Polygon(polyline(run)) for path in paths if path.fill for run in path.runs if len(run) > 1]
    ground = shapely.union_all([shape.buffer(0) for shape in shapes])
    free = [at for at in _places(max(thick, key=lambda run: Ruler(run).length)) if _is_clear(at, letter, lines, block)]
    at = next((at for at in free if ground.contains(_box(at, letter))), free[0] if free else None)
    if at is None:
        return block
    high = font.CAP_HEIGHT * _SIZE
    label = Label(letter, float(at[0]), float(at[1]) + high / 2, _SIZE, anchor="middle", bold=True)
    return replace(block, items=(*block.items, label), height=max(block.height, float(at[1]) + high / 2 + _CLEAR))


def _places(run: Floats) -> Iterator[Floats]:
    """Points on both sides of a line, from its middle outward, then beyond its ends; near ones first."""
    ruler = Ruler(run)
    for deep in _BESIDE:
        for share in _ALONG:
            point, way = ruler.place(ruler.length * share)
            for side in (-1.0, 1.0):
                yield point + side * deep * np.array([-way[1], way[0]])
    for deep in _BESIDE:
        for along, side in ((ruler.length, 1.0), (0.0, -1.0)):
            point, way = ruler.place(along)
            yield point + side * deep * way


def _box(at: Floats, letter: str) -> Any:
    import shapely

    wide, high = font.text_width(letter, _SIZE, bold=True) / 2 + _CLEAR, font.CAP_HEIGHT * _SIZE / 2 + _CLEAR
    return shapely.box(at[0] - wide, at[1] - high, at[0] + wide, at[1] + high)


def _is_clear(at: Floats, letter: str, lines: Any, block: Block) -> bool:
    box = _box(at, letter)
    left, top, right, low = box.bounds
    return (
        left >= -_OVER
        and top >= 0
        and right <= SIDE + _OVER
        and low <= block.height + _BELOW
        and not lines.intersects(box)
    )
