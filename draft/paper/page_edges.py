"""What a piece is drawn for: pages whose edges words keep off, which way is up, and how large words are."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np

from draft.paper.drawing import Turn


@dataclass(frozen=True)
class Pages:
    """By how many quarter turns a piece is turned on its pages, and their edges, a shapely shape about the piece.

    `enlarged` is how many times as large as on paper words are set: a projector's dots are coarse.
    """

    quarters: int = 0
    edges: Any = None
    enlarged: float = 1.0

    @property
    def upright(self) -> float:
        """The angle in degrees, in the piece's own place, of words that stand upright once the piece is turned."""
        return -90.0 * self.quarters

    def readable(self, angle: float) -> float:
        """The same line, to be read from the left or from below: within 90 degrees of upright."""
        return round((angle - self.upright + 90.0) % 180.0 - 90.0 + self.upright, 6)

    def cross(self, shape: Any) -> bool:
        """Whether a page's edge runs through a shape."""
        return self.edges is not None and bool(self.edges.intersects(shape))

    def off(self, shape: Any, distance: float) -> Any:
        """What is left of a shape at so many mm from every edge of a page."""
        return shape if self.edges is None else shape.difference(self.edges.buffer(distance, quad_segs=1))


ANYWHERE = Pages()
"""A screen, or paper that is not cut into pages."""


def pages_of(turn: Turn, columns: int, rows: int, page: tuple[float, float]) -> Pages:
    """The pages that a piece lies on when it is turned and moved so on a sheet of printed areas of this size in mm."""
    import shapely

    wide, tall = columns * page[0], rows * page[1]
    ends = [((c * page[0], 0.0), (c * page[0], tall)) for c in range(columns + 1)]
    ends += [((0.0, r * page[1]), (wide, r * page[1])) for r in range(rows + 1)]
    return Pages(turn.quarters, shapely.MultiLineString([turn.back(np.array(end)) for end in ends]))
