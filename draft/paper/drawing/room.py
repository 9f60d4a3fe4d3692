"""Where there is room: the place for a rectangle inside a shape, as far from its edges as can be.

The shape is laid on a grid at the rectangle's own angle, so that a grain line at a slant is the same search.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import field
from functools import cached_property
from typing import Any

import numpy as np
from numpy.typing import NDArray

from draft.base.arrays import Floats
from draft.base.record import dataclass
from draft.paper.drawing import font
from draft.paper.drawing.drawing import INK, Label
from draft.paper.drawing.polygons import mask, rings_of

CLEAR = (40.0, 28.0, 20.0, 14.0, 9.0, 6.0, 4.0, 2.5, 1.5)
"""Margins in mm tried around what is placed, the most generous first; the last is the least that still reads."""

_STEPS = 110
"""Cells, if no other count is asked for: 4 mm on a body piece, under 1 mm on a band."""
_FINEST, _COARSEST = 0.5, 4.0
_MOST_CELLS = 1_000_000
"""A long thin piece at a slant lies on a wide grid: its cells are coarser then."""


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

        w, h = self.width / 2 + margin, self.height / 2 + margin
        return shapely.polygons([self.at(-w, -h), self.at(w, -h), self.at(w, h), self.at(-w, h), self.at(-w, -h)])


def words_at(spot: Spot, text: str, size: float, bold: bool = False, colour: str = INK) -> Label:
    """Words whose capitals and descenders fill a place, `size` mm to the em; see `label_spot`."""
    x, y = spot.at(0, spot.height / 2 - size * font.DESCENT)
    return Label(text, x, y, size, "middle", spot.angle, bold, colour)


_CORNERS = np.array([[-1, -1], [1, -1], [1, 1], [-1, 1], [-1, -1]]) / 2


def rectangles(
    middles: Floats, angles: Floats, widths: float | Floats, heights: float | Floats, margin: float = 0.0
) -> Any:
    """Shapely polygons `(n,)`: rectangles about middles `(n, 2)`, turned as spots are by angles in degrees `(n,)`.

    They are all as wide and as high, or each as one of `widths` and of `heights` `(n,)`.
    """
    import shapely

    turn = np.radians(angles)
    c, s = np.cos(turn), np.sin(turn)
    right = np.stack([c, s], axis=-1) * np.reshape(widths + 2 * margin, (-1, 1))
    down = np.stack([-s, c], axis=-1) * np.reshape(heights + 2 * margin, (-1, 1))
    corners = middles[:, None] + right[:, None] * _CORNERS[:, :1] + down[:, None] * _CORNERS[:, 1:]
    return shapely.polygons(corners)


def spot_shapes(spots: Sequence[Spot], margin: float = 0.0) -> Any:
    """The rectangles of several spots as shapely polygons `(n,)`, grown by a margin."""
    x, y, widths, heights, angles = (
        np.array([(spot.x, spot.y, spot.width, spot.height, spot.angle) for spot in spots]).reshape(-1, 5).T
    )
    return rectangles(np.stack([x, y], axis=-1), angles, widths, heights, margin)


@dataclass(frozen=True)
class Room:
    """A shapely shape in which things are placed, on a grid of so many `steps` across the square root of its area."""

    shape: Any
    steps: int = _STEPS
    _grids: dict[float, _Grid] = field(default_factory=dict, compare=False)

    def find(
        self,
        width: float,
        height: float,
        angle: float = 0.0,
        near: tuple[float, float] | None = None,
        clear: tuple[float, ...] = CLEAR,
    ) -> Spot | None:
        """The place with the widest margin for a rectangle; nearest to `near` among equals. None if it fits nowhere."""
        grid = self._grid(angle)
        for margin in clear if grid is not None else ():
            assert grid is not None
            found = grid.place(width + 2 * margin, height + 2 * margin, near or self.middle)
            if found is not None:
                return Spot(*found, width, height, angle)
        return None

    def nearest(
        self, width: float, height: float, angle: float, near: tuple[float, float], margin: float, most: int
    ) -> Iterator[Spot]:
        """Places with such a margin for a rectangle, nearest to a point first, each well apart of those before it."""
        grid = self._grid(angle)
        if grid is not None:
            for at in grid.places(width + 2 * margin, height + 2 * margin, near, most):
                yield Spot(*at, width, height, angle)

    def without(self, taken: Any) -> Room:
        """What is left of the room when a shape is taken out of it."""
        return Room(self.shape.difference(taken))

    @cached_property
    def middle(self) -> tuple[float, float]:
        """The middle of the shape's area."""
        centre = self.shape.centroid
        return (centre.x, centre.y) if not centre.is_empty else (0.0, 0.0)

    def _grid(self, angle: float) -> _Grid | None:
        if self.shape.is_empty:
            return None
        if angle not in self._grids:
            cell = float(np.clip(np.sqrt(self.shape.area) / self.steps, _FINEST, _COARSEST))
            self._grids[angle] = _Grid.of(self.shape, angle, cell)
        return self._grids[angle]


@dataclass(frozen=True)
class _Grid:
    """How many free cells lie above and left of each corner of a turned grid."""

    sums: NDArray[np.int64]
    origin: Floats
    cell: float
    turn: Floats

    @classmethod
    def of(cls, shape: Any, angle: float, cell: float) -> _Grid:
        a = np.radians(angle)
        turn = np.array([[np.cos(a), np.sin(a)], [-np.sin(a), np.cos(a)]])
        outer = rings_of(shape)
        if not outer:  # what is left of a shape may be a line
            return cls(np.zeros((1, 1), dtype=np.int64), np.zeros(2), cell, turn)
        sides = np.ptp(np.concatenate(outer) @ turn.T, axis=0)
        cell = max(cell, float(np.sqrt(np.prod(sides) / _MOST_CELLS)))
        # A disc of 0.75 cells about its middle covers a whole cell, so a cell that counts is wholly inside.
        rings = [ring @ turn.T for ring in rings_of(shape.buffer(-0.75 * cell, quad_segs=2))]
        if not rings:
            return cls(np.zeros((1, 1), dtype=np.int64), np.zeros(2), cell, turn)
        both = np.concatenate(rings)
        origin = both.min(axis=0) - cell
        columns, rows = np.ceil((both.max(axis=0) - origin) / cell).astype(int) + 1
        free = mask(rings, origin, (cell, cell), (rows, columns))
        sums = np.zeros((rows + 1, columns + 1), dtype=np.int64)
        sums[1:, 1:] = free.cumsum(axis=0).cumsum(axis=1)
        return cls(sums, origin, cell, turn)

    def place(self, width: float, height: float, near: tuple[float, float]) -> tuple[float, float] | None:
        """The middle of the free rectangle nearest to a point, or None."""
        return next(self.places(width, height, near, 1), None)

    def places(
        self, width: float, height: float, near: tuple[float, float], most: int
    ) -> Iterator[tuple[float, float]]:
        """Middles of so many free rectangles, nearest to a point first, each half a rectangle apart of all before."""
        middles = self._middles(width, height)
        away = np.round(np.sum((middles - self.turn @ np.array(near)) ** 2, axis=1), 3)
        if most > 1:
            middles = middles[np.argsort(away, kind="stable")]
        elif len(away):
            middles = middles[int(np.argmin(away))][None]
        half = np.array([width, height]) / 2
        for _ in range(most):
            if not len(middles):
                return
            best = middles[0]
            x, y = best @ self.turn
            yield float(x), float(y)
            middles = middles[(np.abs(middles - best) >= half).any(axis=1)]

    def _middles(self, width: float, height: float) -> Floats:
        """Of all free rectangles, `(n, 2)` on the turned grid."""
        wide, high = int(np.ceil(width / self.cell)), int(np.ceil(height / self.cell))
        s = self.sums
        if high >= s.shape[0] or wide >= s.shape[1]:
            return np.zeros((0, 2))
        full = s[high:, wide:] - s[:-high, wide:] - s[high:, :-wide] + s[:-high, :-wide] == wide * high
        rows, columns = np.nonzero(full)
        return np.asarray(self.origin + self.cell * np.stack([columns + wide / 2, rows + high / 2], axis=-1))


def label_spot(label: Label) -> Spot:
    """The rectangle that a label's capitals and descenders take up."""
    width = font.text_width(label.text, label.size, label.bold)
    left = {"start": 0.0, "middle": -width / 2, "end": -width}[label.anchor]
    top, bottom = -font.CAP_HEIGHT * label.size, font.DESCENT * label.size
    x, y = Spot(label.x, label.y, 0, 0, label.angle).at(left + width / 2, (top + bottom) / 2)
    return Spot(x, y, width, bottom - top, label.angle)
