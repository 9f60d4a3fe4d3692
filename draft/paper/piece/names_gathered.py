"""Names of sizes gathered where there is room, for marks that have none beside them and no row further inside.

A block of names, a column or a row, stands as near to its marks as it can, each with a fine line to its own mark. Lines
of two marks never cross: names that would make them do so change places.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import field
from typing import Any

import numpy as np

from draft.base.arrays import Floats
from draft.base.record import dataclass
from draft.paper.drawing.room import Room, Spot
from draft.paper.piece.clutter import Clutter
from draft.paper.piece.leaders import leaders_of
from draft.paper.piece.sized_marks import Anchor
from draft.paper.piece.surface import Surface

_GAP = 1.6
"""Between names of a block, mm, on paper."""
_AIR = 0.6
"""About a block, mm, on paper."""
_WINDOWS = (45.0, 400.0)
"""So far about the marks room is looked for first, mm on paper, and then."""
_BENDS = (3.0, 6.0, 10.0, 16.0, 25.0)
"""How far from a mark the line to its name may turn, mm on paper."""
_STEPS = 60
"""Of the grid on which a block is placed."""
_TRIES = 9
"""So many places of a block are tried, nearest first, until no line runs through words."""


@dataclass
class Grounds:
    """The shapely shapes in which names may stand, the best first: made when the first name asks for them."""

    make: Callable[[], Sequence[Any]]
    _rooms: list[Any] = field(default_factory=list)

    def shapes(self) -> list[Any]:
        """What is left of each."""
        if not self._rooms:
            self._rooms = list(self.make())
        return self._rooms

    def take(self, shape: Any) -> None:
        """Keep later names off a shape."""
        self._rooms = [one.difference(shape) for one in self._rooms]


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


def gathered(anchors: Sequence[Anchor], names: Names, clutter: Clutter, grounds: Grounds) -> Named:
    """Places for the names of marks; marks for which there is none are left out."""
    for shape in _places(anchors, names, clutter, grounds):
        found = _in_block(anchors, names, clutter, shape)
        if found:
            _take(found, names, clutter, grounds)
            return found
    if len(anchors) == 1:
        bent = _round_a_corner(anchors[0], names, clutter, grounds)
        _take(bent, names, clutter, grounds)
        return bent
    half = (len(anchors) + 1) // 2
    parts = slice(0, half), slice(half, None)
    return [one for part in parts for one in gathered(anchors[part], names.some(part), clutter, grounds)]


def _places(anchors: Sequence[Anchor], names: Names, clutter: Clutter, grounds: Grounds) -> Iterator[Any]:
    """Shapes in which a block may stand, the best first; a single name may stand between lines of its own size too."""
    scale = names.surface.enlarged
    for window in _WINDOWS:
        yield from (_about(anchors, shape, window * scale) for shape in grounds.shapes())
        if len(anchors) == 1:
            yield _between_lines(_about(anchors, names.shapes[0], window * scale), clutter)


def _round_a_corner(anchor: Anchor, names: Names, clutter: Clutter, grounds: Grounds) -> Named:
    """A name that no straight line leads to: with a line that has one corner."""
    import shapely

    scale, x, y = names.surface.enlarged, *(float(at) for at in anchor.point)
    bends = anchor.point + _corners() * scale
    bends = bends[clutter.off_words(shapely.linestrings([[anchor.point, bend] for bend in bends]), crossing=True)]
    corners = [Anchor(anchor.size, bend, anchor.inward) for bend in bends]
    for shape in _places([anchor], names, clutter, grounds) if corners else ():
        for spot in Room(shape).nearest(names.wide[0], names.high, names.surface.upright, (x, y), _AIR * scale, _TRIES):
            middles, wide = np.array([(spot.x, spot.y)] * len(corners)), np.full(len(corners), names.wide[0])
            lines = leaders_of(corners, middles, wide, names.high, spot.angle)
            clear = np.flatnonzero(clutter.off_words(lines, crossing=True))
            if len(clear) and clutter.free(np.array([spot.shape(_AIR)])).all():
                last = shapely.get_coordinates(lines[clear[0]])
                return [(anchor, spot, shapely.LineString([anchor.point, *last]))]
    return []


def _corners() -> Floats:
    """About a mark, mm on paper, the nearest first: where a line to its name may have a corner `(n, 2)`."""
    ways = np.radians(np.arange(0.0, 360.0, 30.0))
    each = np.array(_BENDS)[:, None, None] * np.stack([np.cos(ways), np.sin(ways)], axis=-1)
    return np.asarray(each.reshape(-1, 2))


def _between_lines(shape: Any, clutter: Clutter) -> Any:
    """What is left of a shape beside all that is drawn."""
    import shapely

    return shape.difference(shapely.union_all(shapely.buffer(clutter.within(shape), _AIR, quad_segs=1)))


def _take(found: Named, names: Names, clutter: Clutter, grounds: Grounds) -> None:
    for _, spot, line in found:
        grounds.take(spot.shape(_GAP / 2 * names.surface.enlarged).union(line.buffer(_AIR, quad_segs=1)))
        clutter.take(spot.shape(_AIR))
        clutter.take(line)


def _about(anchors: Sequence[Anchor], shape: Any, reach: float) -> Any:
    """So much of a shape as lies about marks."""
    import shapely

    points = np.array([anchor.point for anchor in anchors])
    (left, top), (right, low) = points.min(axis=0) - reach, points.max(axis=0) + reach
    return shapely.intersection(shape, shapely.box(left, top, right, low))


def _in_block(anchors: Sequence[Anchor], names: Names, clutter: Clutter, shape: Any) -> Named:
    """The names as a column or rows in the nearest place of a shape from which all lines run clear.

    Where lines run clear of words nowhere but across lines of other marks, they do that.
    """
    room, scale = Room(shape, _STEPS), names.surface.enlarged
    middle = np.mean([anchor.point for anchor in anchors], axis=0)
    near, wide = (float(middle[0]), float(middle[1])), max(names.wide)
    tries = _TRIES if len(anchors) > 1 else 8 * _TRIES
    best, second = (np.inf, Named()), (np.inf, Named())
    for cells in _arrangements(len(anchors), wide, names.high, _GAP * scale):
        width, height = float(np.ptp(cells[:, 0])) + wide, float(np.ptp(cells[:, 1])) + names.high
        for block in room.nearest(width, height, names.surface.upright, near, _AIR * scale, tries):
            away = float(np.hypot(block.x - near[0], block.y - near[1]))
            if away >= best[0]:
                break
            found = _led(anchors, block, cells, names)
            lines = np.array([line for _, _, line in found])
            if not _stand_apart(found, clutter):
                continue
            if clutter.off_words(lines).all():
                best = away, found
            elif away < second[0] and clutter.off_words(lines, crossing=True).all():
                second = away, found
    return best[1] or second[1]


def _stand_apart(found: Named, clutter: Clutter) -> bool:
    """Whether no name lies on what is there already, and no line runs through the name of another mark."""
    import shapely

    lines, names = (np.array(some) for some in zip(*((line, spot.shape(_AIR)) for _, spot, line in found), strict=True))
    crossed = shapely.intersects(lines[:, None], names[None])
    return int(crossed.sum()) == len(found) and bool(clutter.free(names).all())


def _arrangements(count: int, wide: float, high: float, gap: float) -> Iterator[Floats]:
    """The middles `(n, 2)` of so many names about the middle of their block: a column, then rows."""
    for columns in dict.fromkeys((1, count, (count + 1) // 2)):
        rows = -(-count // columns)
        at = np.stack(np.divmod(np.arange(count), columns)[::-1], axis=-1).astype(float)
        yield (at - np.array([columns - 1, rows - 1]) / 2) * np.array([wide + gap, high + gap])


def _led(anchors: Sequence[Anchor], block: Spot, cells: Floats, names: Names) -> Named:
    """Each mark with a name of a block: all lines together are as short as can be, so that no two of them cross."""
    middles = np.array([block.at(*cell) for cell in cells])
    middles = middles[_shortest(np.array([anchor.point for anchor in anchors]), middles)]
    lines = leaders_of(anchors, middles, np.array(names.wide), names.high, block.angle)
    spots = [
        Spot(float(x), float(y), wide, names.high, block.angle)
        for (x, y), wide in zip(middles, names.wide, strict=True)
    ]
    return list(zip(anchors, spots, lines, strict=True))


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
