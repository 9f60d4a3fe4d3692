"""Where there is room: the place for a rectangle inside a shape, as far from its edges as can be.

The shape is laid on a grid at the rectangle's own angle, so that a grain line at a slant is the same search.
"""

from __future__ import annotations

import math
from bisect import bisect_left
from collections.abc import Iterator, Sequence
from functools import cached_property
from typing import Any

import numpy as np

from draft.base.arrays import Floats
from draft.base.record import dataclass
from draft.paper.drawing import font
from draft.paper.drawing.drawing import INK, Label
from draft.paper.drawing.room_grid import Grid

CLEAR = (40.0, 28.0, 20.0, 14.0, 9.0, 6.0, 4.0, 2.5, 1.5)
"""Margins in mm tried around what is placed, the most generous first; the last is the least that still reads."""

_STEPS = 110
"""Cells, if no other count is asked for: 4 mm on a body piece, under 1 mm on a band."""
_FINEST, _COARSEST = 0.5, 4.0


@dataclass(frozen=True)
class Spot:
    """A rectangle in its place: its middle, its width and height, and its angle in degrees, clockwise on paper."""

    x: float
    y: float
    width: float
    height: float
    angle: float = 0.0

    def at(self, right: float, down: float) -> tuple[float, float]:
        """The point that lies so far to the right of and below the rectangle's middle, as it is turned."""
        turn = math.radians(self.angle)
        c, s = math.cos(turn), math.sin(turn)
        return self.x + c * right - s * down, self.y + s * right + c * down

    @property
    def box(self) -> tuple[float, float, float, float]:
        """Left, top, right and bottom of the upright box about the rectangle."""
        turn = math.radians(self.angle)
        c, s = abs(math.cos(turn)), abs(math.sin(turn))
        wide, high = (c * self.width + s * self.height) / 2, (s * self.width + c * self.height) / 2
        return self.x - wide, self.y - high, self.x + wide, self.y + high

    def shape(self, margin: float = 0.0) -> Any:
        """The rectangle as a shapely polygon, grown by a margin."""
        import shapely

        turn = math.radians(self.angle)
        c, s = math.cos(turn), math.sin(turn)
        w, h, x, y = self.width / 2 + margin, self.height / 2 + margin, self.x, self.y
        right, down, across, up = c * w, s * w, -s * h, c * h
        first = (x - right - across, y - down - up)
        after = (x + right - across, y + down - up), (x + right + across, y + down + up)
        return shapely.polygons([first, *after, (x - right + across, y - down + up), first])


def words_at(spot: Spot, text: str, size: float, bold: bool = False, colour: str = INK) -> Label:
    """Words whose capitals and descenders fill a place, `size` mm to the em; see `label_spot`."""
    x, y = spot.at(0, spot.height / 2 - size * font.DESCENT)
    return Label(text, x, y, size, "middle", spot.angle, bold, colour)


_RIGHT, _DOWN = np.array([[-1, 1, 1, -1, -1], [-1, -1, 1, 1, -1]]) / 2


def rectangles(
    middles: Floats, angles: float | Floats, widths: float | Floats, heights: float | Floats, margin: float = 0.0
) -> Any:
    """Shapely polygons `(n,)`: rectangles about middles `(n, 2)`, turned as spots are by angles in degrees.

    They are all as wide, as high and turned as far, or each as one of `widths`, of `heights` and of `angles` `(n,)`.
    """
    import shapely

    return shapely.polygons(corners_of(middles, angles, widths, heights, margin))


def corners_of(
    middles: Floats, angles: float | Floats, widths: float | Floats, heights: float | Floats, margin: float = 0.0
) -> Floats:
    """The corners of `rectangles`, the first once more at the end: `(n, 5, 2)`."""
    turn = np.radians(angles)
    c, s = np.cos(turn), np.sin(turn)
    wide, high = np.asarray(widths) + 2 * margin, np.asarray(heights) + 2 * margin
    found = np.empty((len(middles), 5, 2))
    found[..., 0] = middles[:, :1] + (c * wide)[..., None] * _RIGHT + (-s * high)[..., None] * _DOWN
    found[..., 1] = middles[:, 1:] + (s * wide)[..., None] * _RIGHT + (c * high)[..., None] * _DOWN
    return found


def spot_shapes(spots: Sequence[Spot], margin: float = 0.0) -> Any:
    """The rectangles of several spots as shapely polygons `(n,)`, grown by a margin."""
    x, y, widths, heights, angles = (
        np.array([(spot.x, spot.y, spot.width, spot.height, spot.angle) for spot in spots]).reshape(-1, 5).T
    )
    return rectangles(np.stack([x, y], axis=-1), angles, widths, heights, margin)


class Room:
    """A shapely shape in which things are placed, on a grid of so many `steps` across the square root of its area."""

    def __init__(self, shape: Any, steps: int = _STEPS) -> None:
        self._whole, self._steps = shape, steps
        self._before: Room | None = None
        self._about = 0.0
        self._grids: dict[float, Grid | None] = {}

    @cached_property
    def shape(self) -> Any:
        """The shape, without what was taken out of it."""
        if self._before is None:
            return self._whole
        return self._before.shape.difference(
            self._whole.buffer(self._about, quad_segs=1) if self._about else self._whole
        )

    def find(
        self,
        width: float,
        height: float,
        angle: float = 0.0,
        near: tuple[float, float] | None = None,
        clear: tuple[float, ...] = CLEAR,
    ) -> Spot | None:
        """The place with the widest margin for a rectangle; nearest to `near` among equals. None if it fits nowhere.

        Margins grow less from one to the next.
        """
        grid = self._grid(angle)

        def fits(margin: float) -> bool:
            return grid is not None and grid.has_room(width + 2 * margin, height + 2 * margin)

        if grid is None or not fits(clear[-1]):
            return None
        margin = clear[bisect_left(clear[:-1], True, key=fits)]
        found = grid.place(width + 2 * margin, height + 2 * margin, near or self.middle)
        return found and Spot(*found, width, height, angle)

    def nearest(
        self, width: float, height: float, angle: float, near: tuple[float, float], margin: float, most: int
    ) -> Iterator[Spot]:
        """Places with such a margin for a rectangle, nearest to a point first, each well apart of those before it."""
        grid = self._grid(angle)
        if grid is not None:
            for at in grid.places(width + 2 * margin, height + 2 * margin, near, most):
                yield Spot(*at, width, height, angle)

    def without(self, taken: Any, about: float = 0.0) -> Room:
        """What is left of the room when a shape, and so many mm about it, is taken out of it.

        It has the same grid, with some of its cells taken.
        """
        found = Room(taken, self._steps)
        found._before, found._about = self, about
        return found

    @cached_property
    def middle(self) -> tuple[float, float]:
        """The middle of the shape's area."""
        centre = self.shape.centroid
        return (centre.x, centre.y) if not centre.is_empty else (0.0, 0.0)

    def _grid(self, angle: float) -> Grid | None:
        """At this angle; those a quarter turn apart have the same cells."""
        if angle not in self._grids:
            quarters = round((angle - _least(angle)) / 90.0)
            if quarters:
                least = self._grid(_least(angle))
                self._grids[angle] = least and least.turned(angle, quarters)
            else:
                self._grids[angle] = self._new_grid(angle)
        return self._grids[angle]

    def _new_grid(self, angle: float) -> Grid | None:
        if self._before is not None:
            before = self._before._grid(angle)
            return before and before.without(self._whole, self._about)
        if self.shape.is_empty:
            return None
        return Grid.of(self.shape, angle, float(np.clip(np.sqrt(self.shape.area) / self._steps, _FINEST, _COARSEST)))


def _least(angle: float) -> float:
    """The angle from 0 up to 90 degrees that is so many quarter turns off."""
    return round(angle % 90.0, 6) % 90.0


def label_spot(label: Label) -> Spot:
    """The rectangle that a label's capitals and descenders take up."""
    width = font.text_width(label.text, label.size, label.bold)
    left = {"start": 0.0, "middle": -width / 2, "end": -width}[label.anchor]
    top, bottom = -font.CAP_HEIGHT * label.size, font.DESCENT * label.size
    x, y = Spot(label.x, label.y, 0, 0, label.angle).at(left + width / 2, (top + bottom) / 2)
    return Spot(x, y, width, bottom - top, label.angle)
