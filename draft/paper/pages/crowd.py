"""What is drawn on a sheet, for finding where numbers of pages and match marks cover nothing."""

from __future__ import annotations

from typing import Any

import numpy as np

from draft.base.arrays import Floats, Ints
from draft.geometry.flatten import polyline_each
from draft.paper.drawing.drawing import Drawing, Label
from draft.paper.drawing.room import label_spot

_MANY = 1000  # a line under a match mark still shows, a word does not


class Crowd:
    """What is drawn on the sheet, for finding where it is empty."""

    def __init__(self, drawing: Drawing) -> None:
        import shapely

        items = list(drawing.items())
        self._words = shapely.STRtree([label_spot(item).shape() for item in items if isinstance(item, Label)])
        runs = [run for item in items if not isinstance(item, Label) for run in item.runs]
        self._lines = shapely.STRtree([shapely.LineString(line) for line in polyline_each(runs)])

    def around(self, spots: Floats, radius: float) -> Ints:
        """How much comes within `radius` mm of each of the points `(n, 2)`: lines, and words, which count for many."""
        import shapely

        points = shapely.points(spots)
        return self._counted(len(spots), points, predicate="dwithin", distance=radius)

    def in_squares(self, spots: Floats, half: float) -> Ints:
        """The same within squares whose sides lie `half` mm from each of the points `(n, 2)`."""
        import shapely

        squares = shapely.box(*(spots - half).T, *(spots + half).T)
        return self._counted(len(spots), squares, predicate="intersects")

    def _counted(self, count: int, shapes: Any, **near: Any) -> Ints:
        lines, words = (
            np.bincount(tree.query(shapes, **near)[0], minlength=count) for tree in (self._lines, self._words)
        )
        return np.asarray(lines + _MANY * words)
