"""The letter of a seam beside the thick line that is sewn, as it stands on the pieces along the edges."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import Any

import numpy as np

from draft.base.arrays import Bools, Floats
from draft.geometry.flatten import polyline
from draft.geometry.ruler import Ruler
from draft.paper.booklet.set_blocks import SIDE, Block
from draft.paper.drawing import font
from draft.paper.drawing.drawing import PT, Label, Path, Stroke

_SIZE = 9.0 * PT
_BESIDE = (2.4, 3.2, 4.2, 5.4, 7.0, 9.0)  # mm from the seam to the middle of the letter
_ALONG = (0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8, 0.1, 0.9)
_CLEAR = 0.75
_AS_LONG = 0.01
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
    places = _places(_longest(thick))
    boxes = _boxes(places, letter)
    free = _are_clear(boxes, lines, block)
    on_piece = free & shapely.contains(ground, boxes)
    if not free.any():
        return block
    at = places[np.argmax(on_piece if on_piece.any() else free)]
    high = font.CAP_HEIGHT * _SIZE
    label = Label(letter, float(at[0]), float(at[1]) + high / 2, _SIZE, anchor="middle", bold=True)
    return replace(block, items=(*block.items, label), height=max(block.height, float(at[1]) + high / 2 + _CLEAR))


def _longest(runs: Sequence[Floats]) -> Floats:
    """The first of the longest: of a line and its mirror image either may be longer by what a machine rounds off."""
    lengths = [Ruler(run).length for run in runs]
    return next(run for run, length in zip(runs, lengths, strict=True) if length > max(lengths) - _AS_LONG)


def _places(run: Floats) -> Floats:
    """Points `(n, 2)` on both sides of a line, from its middle outward, then beyond its ends; near ones first."""
    ruler = Ruler(run)
    points, ways = ruler.place_each(ruler.length * np.array([*_ALONG, 1.0, 0.0]))
    deep = np.array(_BESIDE)[:, None, None, None]
    left = np.stack([-ways[:-2, 1], ways[:-2, 0]], axis=-1)
    beside = points[:-2, None] + np.array([-1.0, 1.0])[:, None] * deep * left[:, None]
    beyond = points[-2:] + np.array([1.0, -1.0])[:, None] * deep[..., 0] * ways[-2:]
    return np.concatenate([beside.reshape(-1, 2), beyond.reshape(-1, 2)])


def _boxes(places: Floats, letter: str) -> Any:
    """What the letter takes up in each place, as shapely polygons `(n,)`."""
    import shapely

    wide, high = font.text_width(letter, _SIZE, bold=True) / 2 + _CLEAR, font.CAP_HEIGHT * _SIZE / 2 + _CLEAR
    x, y = places.T
    return shapely.box(x - wide, y - high, x + wide, y + high)


def _are_clear(boxes: Any, lines: Any, block: Block) -> Bools:
    """Which of the boxes `(n,)` lie within the drawing's place, and on none of its lines."""
    import shapely

    left, top, right, low = shapely.bounds(boxes).T
    inside = (left >= -_OVER) & (top >= 0) & (right <= SIDE + _OVER) & (low <= block.height + _BELOW)
    shapely.prepare(lines)
    return np.asarray(inside & ~shapely.intersects(lines, boxes))
