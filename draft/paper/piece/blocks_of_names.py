"""Blocks of names, columns or rows, a line from each mark to its name: several places of a block looked at at once."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any

import numpy as np

from draft.base.arrays import Floats, Ints
from draft.base.record import dataclass
from draft.paper.drawing.room import Spot, rectangles
from draft.paper.piece.clutter import Clutter
from draft.paper.piece.leaders import leaders_of, to_upright
from draft.paper.piece.sized_marks import Anchor
from draft.paper.piece.surface import Surface

Named = list[tuple[Anchor, Spot, Any]]
"""Each mark with the place of its name and the shapely line to it."""


@dataclass(frozen=True)
class Names:
    """What names take up: how `wide` each is and how `high` all are, mm, and the surface that they stand on.

    `shapes` are what the size of each is cut to.
    """

    wide: Sequence[float]
    high: float
    shapes: Sequence[Any]
    surface: Surface

    def some(self, part: slice) -> Names:
        """A part of them."""
        return Names(self.wide[part], self.high, self.shapes[part], self.surface)


@dataclass(frozen=True)
class Blocks:
    """The same names in several places of their block.

    Middles of names `(blocks, names, 2)`, and shapely lines to them from their marks `(blocks, names)`. Of each block
    all lines together are as short as can be, so that no two of them cross.
    """

    middles: Floats
    lines: Any
    names: Names
    angle: float

    @classmethod
    def of(cls, anchors: Sequence[Anchor], blocks: Sequence[Spot], cells: Floats, names: Names) -> Blocks:
        """Marks led to names of blocks that stand at one angle, in `cells` `(names, 2)` about the middle of each."""
        points = np.array([anchor.point for anchor in anchors])
        middles = np.array([(block.x, block.y) for block in blocks])[:, None] + cells @ to_upright(blocks[0].angle)
        if len(anchors) > 1:
            middles = np.stack([each[_shortest(points, each)] for each in middles])
        lines = leaders_of(anchors, middles, np.array(names.wide), names.high, blocks[0].angle)
        return cls(middles, lines, names, blocks[0].angle)

    def apart(self, clutter: Clutter, margin: float) -> Ints:
        """The numbers `(n,)` of blocks whose names lie on nothing, and whose lines run through no other mark's name."""
        import shapely

        blocks, count = self.lines.shape
        wide = np.tile(self.names.wide, blocks)
        shapes = rectangles(self.middles.reshape(-1, 2), self.angle, wide, self.names.high, margin)
        shapes = shapes.reshape(blocks, count)
        crossed = shapely.intersects(self.lines[:, :, None], shapes[:, None]).sum(axis=(1, 2))
        found = np.flatnonzero(crossed == count)
        return found[clutter.free(shapes[found].ravel()).reshape(-1, count).all(axis=1)]

    def clear(self, numbers: Ints, clutter: Clutter, crossing: bool = False) -> Ints:
        """Those of the blocks `(n,)` whose lines run through no words, and across no other lines unless `crossing`."""
        lines = self.lines[numbers]
        return numbers[clutter.off_words(lines.ravel(), crossing).reshape(lines.shape).all(axis=1)]

    def named(self, anchors: Sequence[Anchor], number: int) -> Named:
        """The marks with their names in one of the blocks."""
        spots = [
            Spot(float(x), float(y), wide, self.names.high, self.angle)
            for (x, y), wide in zip(self.middles[number], self.names.wide, strict=True)
        ]
        return list(zip(anchors, spots, self.lines[number], strict=True))


def arrangements(count: int, wide: float, high: float, gap: float) -> Iterator[Floats]:
    """The middles `(n, 2)` of so many names about the middle of their block: a column, then rows."""
    for columns in dict.fromkeys((1, count, (count + 1) // 2)):
        rows = -(-count // columns)
        at = np.stack(np.divmod(np.arange(count), columns)[::-1], axis=-1).astype(float)
        yield (at - np.array([columns - 1, rows - 1]) / 2) * np.array([wide + gap, high + gap])


def _shortest(points: Floats, middles: Floats) -> list[int]:
    """Which of the middles `(n, 2)` each of the points `(n, 2)` is led to: changed about in pairs while it shortens."""
    away = np.hypot(*(points[:, None] - middles[None]).transpose(2, 0, 1))
    order: list[int] = np.argsort(np.argsort(points @ (middles[-1] - middles[0]), kind="stable")).tolist()
    for _ in range(len(points) ** 2):
        now = away[np.arange(len(points)), order]
        gain = now[:, None] + now[None] - away[:, order] - away[:, order].T
        first, second = np.unravel_index(int(np.argmax(gain)), gain.shape)
        if gain[first, second] < 1e-6:
            break
        order[first], order[second] = order[second], order[first]
    return order
