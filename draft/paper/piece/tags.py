"""Size tags: the size's name beside its own cutting line, where no other line or word is in the way."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from functools import cached_property
from typing import Any

import numpy as np

from draft.base.arrays import Bools, Floats
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
_SIDES = np.array([-1, 1])
_FEW_AT_A_TIME = (slice(0, 4), slice(4, 16), slice(16, 4 * _TRIES))
"""Most tags find room at once; where it is crowded, many places are looked at together."""


@dataclass
class Clutter:
    """What tags must keep clear of: lines as shapely shapes, and the tags already placed."""

    lines: Sequence[Any]
    placed: list[Any] = field(default_factory=list)

    def __post_init__(self) -> None:
        import shapely

        self._tree = shapely.STRtree(list(self.lines))

    def free(self, shapes: Any) -> Bools:
        """Which of the shapes `(n,)` touch none of them."""
        import shapely

        free = np.ones(len(shapes), dtype=bool)
        free[self._tree.query(shapes, predicate="intersects")[0]] = False
        if self.placed:
            free[free] = ~shapely.intersects(shapes[free][:, None], np.array(self.placed)[None]).any(axis=1)
        return free

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
    import shapely

    shapely.prepare(inside)
    ruler = Ruler(line)
    size = _SIZE * surface.enlarged
    colour, width = line_styles.cutting_stroke(index).colour, font.text_width(text, size, bold=True)
    number = max(1, round(ruler.length / (_APART * surface.enlarged)))
    found = []
    for k in range(number):
        middle = ruler.length * (k + 0.5) / number
        turn = middle + (index - (count - 1) / 2) * (width + 3.0) * 0.8
        places = _places(ruler, middle, turn, ruler.length / number, others)
        spot = _first_free(_Beside(*places, width, surface), inside, clutter)
        if spot is not None:
            clutter.take(spot.shape(1.0))
            x, y = spot.at(0, spot.height / 2 - size * font.DESCENT)
            found.append(Label(text, x, y, size, "middle", spot.angle, bold=True, colour=colour))
    return found


def _places(ruler: Ruler, middle: float, turn: float, span: float, others: Any) -> tuple[Floats, Floats]:
    """Points of the line and its directions there, `(n, 2)`, nearest first to this size's turn in the row of tags."""
    import shapely

    steps = np.arange(2 * _TRIES)
    at = turn + span / _TRIES * ((steps + 1) // 2) * np.where(steps % 2, 1, -1)
    points, directions = ruler.places(at[np.abs(at - middle) <= span / 2])
    apart = ~shapely.dwithin(others, shapely.points(points), _SAME_LINE)
    return points[apart], directions[apart]


@dataclass(frozen=True)
class _Beside:
    """Places for a tag beside the points of a line, first on the one side of each and then on the other."""

    points: Floats
    directions: Floats
    width: float
    surface: Surface

    @property
    def height(self) -> float:
        """Of the tag, mm."""
        return _SIZE * (font.CAP_HEIGHT + font.DESCENT) * self.surface.enlarged

    @cached_property
    def middles(self) -> Floats:
        """Of the tags, `(2n, 2)`."""
        off = self.height / 2 + _AIR * self.surface.enlarged + 0.1
        sides = self.points[:, None] + cubic.right_of(self.directions)[:, None] * _SIDES[:, None] * off
        return np.asarray(sides.reshape(-1, 2))

    def spot(self, number: int) -> Spot:
        """One of the places."""
        x, y = self.middles[number]
        along = self.directions[number // 2]
        angle = self.surface.readable(float(np.degrees(np.arctan2(along[1], along[0]))))
        return Spot(float(x), float(y), self.width, self.height, angle)

    def shapes(self, some: slice) -> Any:
        """Some of the places as shapely polygons `(k,)`, grown by what a tag keeps clear of lines."""
        import shapely

        wide, high = self.width / 2 + _AIR, self.height / 2 + _AIR
        corners = np.array([(-wide, -high), (wide, -high), (wide, high), (-wide, high), (-wide, -high)])
        along = np.repeat(self.directions, 2, axis=0)[some]  # the rectangle is the same whichever way it is read
        along = along / cubic.norm(along)[:, None]
        across = np.stack([-along[:, 1], along[:, 0]], axis=1)
        turned = corners[None, :, :1] * along[:, None] + corners[None, :, 1:] * across[:, None]
        return shapely.polygons(self.middles[some][:, None] + turned)


def _first_free(places: _Beside, inside: Any, clutter: Clutter) -> Spot | None:
    """The first of the places that lies inside and touches nothing; they are looked at a few at a time."""
    import shapely

    for some in _FEW_AT_A_TIME:
        shapes = places.shapes(some)
        fits = clutter.free(shapes)
        fits[fits] = shapely.contains(inside, shapes[fits])
        if fits.any():
            return places.spot(some.start + int(fits.argmax()))
    return None
