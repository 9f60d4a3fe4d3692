"""What a piece is drawn on: pages whose edges words keep off, which way is up, and how large words are."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import numpy as np

from draft.base.arrays import Floats
from draft.base.record import dataclass
from draft.paper.drawing.drawing import Turn

_NEAR = 5.0
"""An edge so many mm from a piece is of no matter to its words."""


@dataclass(frozen=True)
class Surface:
    """By how many quarter turns a piece is turned on its pages, and their edges, a shapely shape about the piece.

    `enlarged` is how many times as large as on paper words are set: a projector's dots are coarse. Where all is `level`
    no word is turned along a line, as nobody walks round a picture. A piece on the fold is drawn whole where it is
    `opened`.
    """

    quarters: int = 0
    edges: Any = None
    enlarged: float = 1.0
    level: bool = False
    opened: bool = False

    @property
    def upright(self) -> float:
        """The angle in degrees, in the piece's own place, of words that stand upright once the piece is turned."""
        return -90.0 * self.quarters

    def readable(self, angle: float) -> float:
        """The same line, to be read from the left or from below: within 90 degrees of upright."""
        turned = round(angle - self.upright, 6)  # so that what lies square to upright always reads upwards
        return round((turned + 90.0) % 180.0 - 90.0 + self.upright, 6)

    def along(self, angle: float) -> float:
        """The angle of words beside a line: the line's own, or upright where all is level."""
        return self.upright if self.level else self.readable(angle)

    def reach(self, ways: Floats, wide: float | Floats, high: float) -> Any:
        """How far words beside lines reach towards them, `(n,)` or one number, along unit vectors `(n, 2)`."""
        if not self.level:
            return high / 2
        turn = np.radians(self.upright)
        right, down = np.array([np.cos(turn), np.sin(turn)]), np.array([-np.sin(turn), np.cos(turn)])
        return np.abs(ways @ right) * wide / 2 + np.abs(ways @ down) * high / 2

    def cross(self, shape: Any) -> bool:
        """Whether a page's edge runs through a shape."""
        return self.edges is not None and bool(self.edges.intersects(shape))

    def off(self, shape: Any, distance: float) -> Any:
        """What is left of a shape at so many mm from every edge of a page."""
        return shape if self.edges is None else shape.difference(self.edges.buffer(distance, quad_segs=1))


ANYWHERE = Surface()
"""A screen, or paper that is not cut into pages."""


def surface_of(turn: Turn, rings: Sequence[Floats], live: tuple[float, float]) -> Surface:
    """The pages that a piece of these rings `(n, 2)` lies on when it is turned and moved so among printed areas.

    `live` is the width and height of such an area in mm. Edges that only pass by are left out: the same piece whole on
    a page of any paper is then drawn once.
    """
    import shapely

    points = np.concatenate([turn.points(ring) for ring in rings])
    (left, top), (right, bottom) = points.min(axis=0) - _NEAR, points.max(axis=0) + _NEAR
    ends = [((x, top), (x, bottom)) for x in _between(left, right, live[0])]
    ends += [((left, y), (right, y)) for y in _between(top, bottom, live[1])]
    edges = shapely.MultiLineString([turn.back(np.array(end)) for end in ends]) if ends else None
    return Surface(turn.quarters, edges)


def _between(low: float, high: float, step: float) -> list[float]:
    """Multiples of a step between two values."""
    return [float(step * k) for k in range(int(np.ceil(low / step)), int(np.floor(high / step)) + 1)]
