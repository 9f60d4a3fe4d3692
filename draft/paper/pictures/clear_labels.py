"""Places for labels on a drawing full of lines: clear of every line, every point and one another.

Each label goes to the nearest place round what it names that is clear; one that has to go further away gets a leader,
which runs over no other label.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import field
from typing import Any

import numpy as np

from draft.base.arrays import Floats
from draft.base.record import dataclass
from draft.geometry.cubic import lines_through
from draft.geometry.flatten import polyline
from draft.paper.drawing import font
from draft.paper.drawing.drawing import Item, Label, Path, Stroke

_LEADER = Stroke(0.12, colour="#707070")
_AWAY = (2.0, 4.0, 7.0, 11.0, 16.0, 22.0, 30.0, 40.0, 52.0, 66.0, 82.0)  # mm to a label, the nearest first
_LEADS = 7.0  # mm: a label further away has a leader
_ANGLES = (20, -20, 160, 200, 60, -60, 120, 240, 90, 270, 0, 180, 40, -40, 140, 220)
WAYS = tuple(np.array([np.cos(a), np.sin(a)]) for a in np.radians(_ANGLES))
_WIDER = 1.08  # a viewer without our font takes another, which may be wider
_GAP = 0.5  # mm kept free round a label

Ways = Sequence[Floats]
Places = Sequence[tuple[Floats, Ways]]
"""Points `(2,)` that a label may stand beside, the best first, each with the ways `(2,)` that it may go from there."""


@dataclass
class ClearLabels:
    """The labels of one sheet, y down, each clear of those that were set before it and of everything drawn."""

    size: float
    lines: list[Any]
    """What is drawn, as shapes: lines and points."""
    boxes: list[Floats] = field(default_factory=list)
    """Left, top, right and bottom of each label."""

    @classmethod
    def over(cls, size: float, runs: Iterable[Floats], points: Iterable[Floats], dot: float) -> ClearLabels:
        """An empty sheet with lines `(n, 4, 2)` and points `(2,)`, which are dots of a radius in mm."""
        import shapely

        drawn = [shapely.LineString(polyline(run)) for run in runs]
        return cls(size, [*drawn, *(shapely.Point(at).buffer(dot) for at in points)])

    def set(self, words: str, places: Places, colour: str) -> list[Item]:
        """A label at the first of its places that is clear, the nearest before those further off."""
        wide, high = font.text_width(words, self.size) * _WIDER, self.size * font.CAP_HEIGHT
        tried = list(_candidates(places, wide, high))
        clear = self._clear(np.array([box for _, box, _ in tried]))
        free = next((k for k in np.flatnonzero(clear).tolist() if self._is_led(tried[k])), len(tried) - 1)
        at, box, leads = tried[free]
        self.boxes.append(box)
        found: list[Item] = [Label(words, float(box[0]), float(box[3]), self.size, colour=colour)]
        if leads:
            found.append(self._leader(at, box))
        return found

    def _clear(self, boxes: Floats) -> np.ndarray:
        """Which of the boxes `(n, 4)` lie on nothing."""
        import shapely

        shapes = shapely.box(boxes[:, 0] - _GAP, boxes[:, 1] - _GAP, boxes[:, 2] + _GAP, boxes[:, 3] + _GAP)
        clear = np.ones(len(boxes), dtype=bool)
        if self.lines:
            clear[shapely.STRtree(shapes).query(self.lines, predicate="intersects")[1]] = False
        for other in self.boxes:
            apart = (boxes[:, :2] - _GAP >= other[2:]) | (boxes[:, 2:] + _GAP <= other[:2])
            clear &= apart.any(axis=1)
        return clear

    def _is_led(self, tried: tuple[Floats, Floats, bool]) -> bool:
        """Whether a label needs no leader, or has one that runs over no other label."""
        import shapely

        at, box, leads = tried
        line = shapely.LineString([at, np.clip(at, box[:2], box[2:])])
        return not leads or not any(line.intersects(shapely.box(*other)) for other in self.boxes)

    def _leader(self, at: Floats, box: Floats) -> Path:
        import shapely

        ends = [at, np.clip(at, box[:2], box[2:])]
        self.lines.append(shapely.LineString(ends))
        return Path((lines_through(ends),), _LEADER)


def _candidates(places: Places, wide: float, high: float) -> Iterator[tuple[Floats, Floats, bool]]:
    """Each place with the box of a label there, and whether that is so far off that it needs a leader."""
    for away in _AWAY:
        for at, ways in places:
            for way in ways:
                yield at, _beside(at, way * away, wide, high), away > _LEADS


def _beside(at: Floats, way: Floats, wide: float, high: float) -> Floats:
    """The box of a label that lies so far from a point, on whichever side the way points to."""
    x, y = at + way
    left = x if way[0] > 0.3 * abs(way[1]) else x - wide if way[0] < -0.3 * abs(way[1]) else x - wide / 2
    top = y - high if way[1] < -0.3 * abs(way[0]) else y if way[1] > 0.3 * abs(way[0]) else y - high / 2
    return np.array([left, top, left + wide, top + high])
