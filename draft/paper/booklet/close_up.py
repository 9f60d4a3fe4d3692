"""The part of a long piece that a step is about, drawn large: a fly is a hand long, and the leg that it is on five.

What is cut off above or below ends without a line, as a piece that goes on is drawn (common practice).
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any

import numpy as np

from draft.base.arrays import Floats
from draft.geometry.cubic import lines_through
from draft.geometry.flatten import polyline
from draft.paper.booklet.set_blocks import SIDE, TALLEST, Block
from draft.paper.drawing.drawing import Item, Path, Stroke

_LONG = 1.4
"""So many times as high as it is wide a drawing is at least, for there to be much to leave out."""
_SHARE, _ABOUT, _LEAST = 0.4, 0.14, 0.4
"""Of the drawing's height: the thick lines at most, what is shown above and below them, and all that is shown."""


def close_up(block: Block, seams: Sequence[Stroke]) -> Block:
    """A drawing's part about its thick lines, inked by `seams`, as large as its place; all where they are long."""
    paths = [item for item in block.items if isinstance(item, Path) and item.runs]
    thick = [run for path in paths if path.stroke in seams for run in path.runs]
    if not thick or len(paths) < len(block.items):
        return block
    (left, top), (right, bottom) = _box([run for path in paths for run in path.runs])
    (_, high), (_, low) = _box(thick)
    tall = bottom - top
    if tall < _LONG * (right - left) or low - high > _SHARE * tall:
        return block
    more = max(_ABOUT * tall, (_LEAST * tall - (low - high)) / 2)
    first, last = max(top, high - more), min(bottom, low + more)
    scale = min(SIDE / right, TALLEST / (last - first))
    items = tuple(item for path in paths for item in _between(path, first, last, scale))
    return Block(items, (last - first) * scale)


def _box(runs: Sequence[Floats]) -> Floats:
    """The lowest and the highest corner `(2, 2)` of curves, by their points."""
    points = np.concatenate([run.reshape(-1, 2) for run in runs])
    return np.stack([points.min(axis=0), points.max(axis=0)])


def _between(path: Path, first: float, last: float, scale: float) -> Iterator[Item]:
    """What of a path lies between two heights, from the first of them, so many times as large: its fill, its line."""
    import shapely

    strip = shapely.box(-1e4, first, 1e4, last)
    lines = [polyline(run) for run in path.runs]
    closed = [np.concatenate([line, line[:1]]) if path.closed else line for line in lines]

    def placed(points: Any) -> Floats:
        return np.asarray((np.asarray(points) - np.array([0.0, first])) * scale)

    if path.fill:
        shapes = (shapely.intersection(shapely.Polygon(line).buffer(0), strip) for line in closed if len(line) > 3)
        rings = [one.exterior.coords[:-1] for shape in shapes for one in _parts(shape, "Polygon")]
        if rings:
            yield Path(tuple(lines_through(placed(ring), closed=True) for ring in rings), None, path.fill, closed=True)
    if path.stroke:
        cuts = (shapely.line_merge(shapely.intersection(shapely.LineString(line), strip)) for line in closed)
        runs = [one.coords for cut in cuts for one in _parts(cut, "LineString")]
        if runs:
            yield Path(tuple(lines_through(placed(run)) for run in runs), path.stroke)


def _parts(shape: Any, kind: str) -> list[Any]:
    import shapely

    return [part for part in shapely.get_parts(shape) if part.geom_type == kind]
