"""Lines to be folded on that all sizes of a nest have in common: one line, so that nothing beside it looks like a size.

Each size has its own part of it, and none runs on where only that size is shown. All parts are drawn from one place
within to their ends, so that their dashes lie on one another.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from draft.base.arrays import Floats
from draft.garment.garment import Mark
from draft.geometry.cubic import lines_through, unit
from draft.paper.drawing import line_styles
from draft.paper.drawing.drawing import Path, Stroke
from draft.paper.piece.piece_lines import FLIP, Outlines

FOLD_END = 30.0
"""Of a long line to be folded on so many mm are drawn at each end."""
_IN_LINE = 0.3
"""Ends no further off than this, mm, lie in one line."""


def fold_ends(points: Floats) -> list[Floats]:
    """A line `(n, 2)` to be folded on, or so much of it at both ends: the middle is left for the piece's words."""
    if len(points) > 2 or float(np.hypot(*(points[1] - points[0]))) < 4 * FOLD_END:
        return [points]
    way = unit(points[1] - points[0]) * FOLD_END
    return [np.stack([points[0], points[0] + way]), np.stack([points[1] - way, points[1]])]


def is_shared(mark: Mark, outlines: Sequence[Outlines]) -> bool:
    """Whether a mark is a fold that lies in one straight line in all sizes of a nest."""
    return mark.line == "fold" and lies_in_one(mark, outlines)


def lies_in_one(mark: Mark, outlines: Sequence[Outlines]) -> bool:
    """Whether a mark is a straight line that lies in one in all sizes of a nest, wherever it ends in each."""
    if len(outlines) < 2:
        return False
    points = np.array([mark.points[one.body] for one in outlines])
    if points.shape[1] != 2 or not np.isfinite(points).all():
        return False
    start, way = points[0, 0], unit(points[0, 1] - points[0, 0])
    off = (points - start) @ np.array([-way[1], way[0]])
    return bool(np.abs(off).max() < _IN_LINE)


def parts_of_fold(mark: Mark, outlines: Sequence[Outlines]) -> list[Floats]:
    """The parts `(2, 2)` of a shared fold that are drawn, y down: what any size would have of it."""
    points = np.array([mark.points[one.body] * FLIP for one in outlines])
    start, way = points[0, 0], unit(points[0, 1] - points[0, 0])
    spans = [np.array([(part - start) @ way for part in fold_ends(each)]) for each in points]
    low, high = ((min(s[k].min() for s in spans), max(s[k].max() for s in spans)) for k in (0, -1))
    found = [low, high] if low[1] < high[0] else [(low[0], high[1])]
    return [np.stack([start + begin * way, start + end * way]) for begin, end in found]


def fold_lines(outlines: Sequence[Outlines], ends: Sequence[str]) -> list[list[Path]]:
    """What each of the sizes has of the folds that all of a nest share; `ends` close their ids."""
    found: list[list[Path]] = [[] for _ in outlines]
    stroke = Stroke(line_styles.FINE, line_styles.FOLD.dash)
    for mark in outlines[0].piece.marks:
        if is_shared(mark, outlines):
            every = np.array([mark.points[one.body] for one in outlines]) * FLIP
            parts = [_own(part, every) for part in parts_of_fold(mark, outlines)]
            for own, one, end, *runs in zip(found, outlines, ends, *parts, strict=True):
                said = {"piece": one.piece.name, "fold": mark.name, "size": one.size, "source": mark.span.beside}
                name = f"{one.piece.name}.{mark.name}{end}"
                every_run = tuple(run for part in runs for run in part)
                own.append(Path(every_run, stroke, id=name, data=tuple(said.items())))
    return found


def _own(part: Floats, every: Floats) -> list[list[Floats]]:
    """A part of a shared fold `(2, 2)` as far as the ends of each size `(sizes, 2, 2)` reach, from the inside out."""
    start, way = part[0], unit(part[1] - part[0])
    reaches = np.sort((every - start) @ way, axis=1)
    length = float((part[1] - start) @ way)
    common = float(reaches[:, 0].max()), float(reaches[:, 1].min())
    return [
        [
            lines_through(start + np.array(run)[:, None] * way)
            for run in from_inside((max(low, 0.0), min(high, length)), common)
        ]
        for low, high in reaches.tolist()
    ]


def from_inside(own: tuple[float, float], common: tuple[float, float]) -> list[tuple[float, float]]:
    """A stretch of a line as stretches that begin where all sizes have the line, or as near to there as it reaches."""
    low, high = own
    if high <= low:
        return []
    middle = min(max((common[0] + common[1]) / 2, low), high)
    return [(middle, end) for end in (low, high) if end != middle]
