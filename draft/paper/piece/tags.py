"""Size tags: the size's name beside its own cutting line, where no other line or word is in the way."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from typing import Any

import numpy as np

from draft.base.arrays import Floats
from draft.geometry import cubic
from draft.geometry.ruler import Ruler
from draft.paper.drawing import font, line_styles
from draft.paper.drawing.drawing import PT, Label
from draft.paper.drawing.room import Spot
from draft.paper.piece.surface import Surface
from draft.paper.piece.title_block import SMALLEST

_SIZE = SMALLEST * PT
_AIR = 0.7
"""Between a tag and the middle of any line, in mm."""
_APART = 170.0
"""One tag for about so much of a cutting line, in mm: at least one shows on most printed pages."""
_SAME_LINE = 0.6
"""Nearer than this many mm to another size's line, a tag would not say which of the two it names."""
_TRIES = 24


@dataclass
class Clutter:
    """What tags must keep clear of: lines as shapely shapes, and the tags already placed."""

    lines: Sequence[Any]
    placed: list[Any] = field(default_factory=list)

    def __post_init__(self) -> None:
        import shapely

        self._tree = shapely.STRtree(list(self.lines))

    def free(self, shape: Any) -> bool:
        """Whether a shape touches none of them."""
        import shapely

        if len(self._tree.query(shape, predicate="intersects")):
            return False
        return not (self.placed and shapely.intersects(self.placed, shape).any())

    def take(self, shape: Any) -> None:
        """Keep later tags off this shape."""
        self.placed.append(shape)


def as_one_line(polylines: Sequence[Floats]) -> Any:
    """Polylines of points `(n, 2)` as one shapely line, for measuring how far away they run."""
    import shapely

    lines = shapely.MultiLineString(list(polylines))
    shapely.prepare(lines)
    return lines


def along(
    text: str, line: Floats, index: int, count: int, inside: Any, others: Any, clutter: Clutter, surface: Surface
) -> list[Label]:
    """Tags of the size at `index` of `count` along one edge of its cutting line, segments end to end `(n, 4, 2)`.

    They stand `inside` the size's own outline, and only where the line runs apart from the `others`.
    """
    ruler = Ruler(line)
    size = _SIZE * surface.enlarged
    colour, width = line_styles.cutting_stroke(index).colour, font.text_width(text, size, bold=True)
    number = max(1, round(ruler.length / (_APART * surface.enlarged)))
    found = []
    for k in range(number):
        middle = ruler.length * (k + 0.5) / number
        turn = middle + (index - (count - 1) / 2) * (width + 3.0) * 0.8
        spots = _spots(ruler, middle, turn, ruler.length / number, width, others, surface)
        spot = next((s for s in spots if _fits(s, inside, clutter)), None)
        if spot is not None:
            clutter.take(spot.shape(1.0))
            x, y = spot.at(0, spot.height / 2 - size * font.DESCENT)
            found.append(Label(text, x, y, size, "middle", spot.angle, bold=True, colour=colour))
    return found


def _fits(spot: Spot, inside: Any, clutter: Clutter) -> bool:
    shape = spot.shape(_AIR)
    return clutter.free(shape) and bool(inside.contains(shape))


def _spots(
    ruler: Ruler, middle: float, turn: float, span: float, width: float, others: Any, surface: Surface
) -> Iterator[Spot]:
    """Places beside the line, nearest first to where this size's turn in the row of tags comes."""
    import shapely

    steps = np.arange(2 * _TRIES)
    at = turn + span / _TRIES * ((steps + 1) // 2) * np.where(steps % 2, 1, -1)
    points, directions = ruler.places(at[np.abs(at - middle) <= span / 2])
    apart = ~shapely.dwithin(others, shapely.points(points), _SAME_LINE)
    for point, direction in zip(points[apart], directions[apart], strict=True):
        yield from _beside(point, direction, width, surface)


def _beside(point: Floats, direction: Floats, width: float, surface: Surface) -> Iterator[Spot]:
    angle = surface.readable(float(np.degrees(np.arctan2(direction[1], direction[0]))))
    height = _SIZE * (font.CAP_HEIGHT + font.DESCENT) * surface.enlarged
    for side in (-1, 1):
        x, y = point + cubic.right_of(direction) * side * (height / 2 + _AIR * surface.enlarged + 0.1)
        yield Spot(float(x), float(y), width, height, angle)
