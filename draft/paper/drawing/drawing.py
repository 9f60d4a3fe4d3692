"""A neutral drawing in millimetres: what is drawn, before anything is known of SVG or PDF.

x runs right and y runs down, as on a page. Writers turn a drawing into files, and tests read it.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from functools import lru_cache
from typing import Any, TypeAlias

import numpy as np
from numpy.typing import ArrayLike

from draft.base.arrays import Floats
from draft.base.record import dataclass
from draft.geometry import cubic
from draft.geometry.arc import QUARTER_HANDLE
from draft.geometry.cubic import lines_through
from draft.paper.drawing.passage import Passage

INK = "#000000"
PT = 25.4 / 72
"""One point in mm: type is set in points."""


@dataclass(frozen=True)
class Stroke:
    """How a line is inked: width and dash lengths in mm."""

    width: float
    dash: tuple[float, ...] = ()
    colour: str = INK
    cap: str = "butt"
    join: str = "round"


@dataclass(frozen=True)
class Path:
    """Lines drawn with one stroke and one fill: `runs` are unbroken lines of cubic segments `(n, 4, 2)`."""

    runs: tuple[Floats, ...]
    stroke: Stroke | None = None
    fill: str = ""
    closed: bool = False
    id: str = ""
    data: tuple[tuple[str, str], ...] = ()
    passage: Passage | None = None

    def moved(self, turn: Turn) -> Path:
        """The same path elsewhere."""
        runs = tuple(map(turn.points, self.runs))
        return Path(runs, self.stroke, self.fill, self.closed, self.id, self.data, self.passage)

    def said(self, passage: Passage) -> Path:
        """The same path as part of a passage."""
        return Path(self.runs, self.stroke, self.fill, self.closed, self.id, self.data, passage)

    def box(self) -> Floats:
        """Lowest and highest corner `(2, 2)`, the width of the stroke included."""
        low, high = cubic.bounds(np.concatenate(self.runs))
        half = self.stroke.width / 2 if self.stroke else 0.0
        return np.stack([low - half, high + half])


@dataclass(frozen=True)
class Label:
    """One line of words: `x`, `y` lies on its baseline, and `angle` turns it about that point, clockwise in degrees."""

    text: str
    x: float
    y: float
    size: float
    anchor: str = "start"
    angle: float = 0.0
    bold: bool = False
    colour: str = INK
    id: str = ""
    data: tuple[tuple[str, str], ...] = ()
    passage: Passage | None = None
    tabular: bool = False
    """Whether all its digits are as wide as one another, so that figures stand below one another."""

    def moved(self, turn: Turn) -> Label:
        """The same label elsewhere."""
        x, y = turn.point(self.x, self.y)
        angle = (self.angle + 90.0 * turn.quarters) % 360
        return Label(
            self.text, float(x), float(y), self.size, self.anchor, angle,
            self.bold, self.colour, self.id, self.data, self.passage, self.tabular,
        )  # fmt: skip

    def said(self, passage: Passage) -> Label:
        """The same label as part of a passage."""
        return Label(
            self.text, self.x, self.y, self.size, self.anchor, self.angle,
            self.bold, self.colour, self.id, self.data, passage,
        )  # fmt: skip


Item: TypeAlias = Path | Label


@dataclass(frozen=True)
class Turn:
    """A number of quarter turns clockwise about the origin, then a move."""

    quarters: int = 0
    dx: float = 0.0
    dy: float = 0.0

    def points(self, points: Floats) -> Floats:
        """Where points `(..., 2)` come to lie."""
        across, down = self._quarter(points[..., 0], points[..., 1])
        turned = np.empty(points.shape)
        np.add(across, self.dx, out=turned[..., 0])
        np.add(down, self.dy, out=turned[..., 1])
        return turned

    def point(self, x: float, y: float) -> tuple[float, float]:
        """Where one point comes to lie."""
        across, down = self._quarter(x, y)
        return across + self.dx, down + self.dy

    def _quarter(self, x: Any, y: Any) -> tuple[Any, Any]:
        match self.quarters % 4:
            case 0:
                return x, y
            case 1:
                return -y, x
            case 2:
                return -x, -y
        return y, -x

    def back(self, points: Floats) -> Floats:
        """Where points `(..., 2)` came from."""
        return Turn(-self.quarters).points(points - np.array([self.dx, self.dy]))


@dataclass(frozen=True)
class Layer:
    """Items drawn together. `size` is the size that a reader may switch on and off; empty for what all sizes share."""

    name: str
    items: tuple[Item, ...]
    size: str = ""


@dataclass(frozen=True)
class Footprint:
    """The paper that a piece takes, also where nothing is drawn on it: rings `(n, 2)` of all its sizes and of each.

    `outline` are the rings of the piece alone where its words stand beside it; such a piece is never turned, and lies
    whole on a page if it fits on one.
    """

    name: str
    cut: str
    rings: tuple[Floats, ...]
    by_size: tuple[tuple[Floats, ...], ...] = ()
    outline: tuple[Floats, ...] = ()


@dataclass(frozen=True)
class Drawing:
    """What is drawn: its title, its width and height in mm and its layers, the lowest first; `sizes` are in order.

    `signs` are the names of those that stand on its pieces, for a key.
    """

    title: str
    width: float
    height: float
    layers: tuple[Layer, ...]
    footprints: tuple[Footprint, ...] = ()
    subtitle: str = ""
    sizes: tuple[str, ...] = ()
    signs: tuple[str, ...] = ()

    @property
    def areas(self) -> tuple[Floats, ...]:
        """The rings `(n, 2)` of all footprints."""
        return tuple(ring for footprint in self.footprints for ring in footprint.rings)

    def items(self) -> Iterator[Item]:
        """All items of all layers."""
        for layer in self.layers:
            yield from layer.items


def rectangle(x: float, y: float, width: float, height: float) -> Floats:
    """A rectangle `(4, 4, 2)` from its corner nearest the origin."""
    return lines_through([(x, y), (x + width, y), (x + width, y + height), (x, y + height)], closed=True)


def circle(x: float, y: float, radius: float, first: int = 0, quarters: int = 4) -> Floats:
    """A circle about a point, or so many of its quarters `(quarters, 4, 2)`, clockwise on paper.

    `first` is the quarter that it begins with: 0 begins on the right.
    """
    return np.asarray(_round_origin(radius, first, quarters) + np.array([x, y]))


@lru_cache(maxsize=64)
def _round_origin(radius: float, first: int, quarters: int) -> Floats:
    corner = np.array([(1, 0), (1, QUARTER_HANDLE), (QUARTER_HANDLE, 1), (0, 1)], dtype=float)
    return np.array([Turn(first + k).points(corner * radius) for k in range(quarters)])


def straight_lines(lines: Iterable[ArrayLike], stroke: Stroke) -> Path:
    """Several separate straight lines, each through its own points, as one path."""
    return Path(tuple(lines_through(points) for points in lines), stroke)
