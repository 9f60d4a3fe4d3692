"""Names of sizes gathered where there is room, for marks that have none beside them and no row further inside.

A block of names, a column or a row, stands as near to its marks as it can, each with a fine line to its own mark. Lines
of two marks never cross: names that would make them do so change places.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Sequence
from dataclasses import field
from itertools import chain, islice, repeat
from typing import Any

import numpy as np

from draft.base.arrays import Floats
from draft.base.record import dataclass
from draft.paper.drawing.room import Room, Spot
from draft.paper.piece.blocks_of_names import Blocks, Named, Names, arrangements
from draft.paper.piece.budget import Budget
from draft.paper.piece.clutter import Clutter
from draft.paper.piece.leaders import leaders_of
from draft.paper.piece.sized_marks import Anchor

_GAP = 1.6
"""Between names of a block, mm, on paper."""
_AIR = 0.6
"""About a block, mm, on paper."""
_NEAR = 2.0
"""What is drawn so many mm beyond the box about a shape takes none of its room: more than `_AIR`, at a corner too."""
_WINDOWS = (45.0, 400.0)
"""So far about the marks room is looked for first, mm on paper, and then."""
_BENDS = (3.0, 6.0, 10.0, 16.0, 25.0)
"""How far from a mark the line to its name may turn, mm on paper."""
_STEPS = 60
"""Of the grid on which a block is placed."""
_TRIES = 9
"""So many places of a block are tried, nearest first, until no line runs through words."""
_CUT, _UNITED = 0.01, 0.08
"""What a point of a shape that is cut costs, and of one united with others; a place that is tried costs 1."""


@dataclass
class Grounds:
    """The shapely shapes in which names may stand, the best first: made when the first name asks for them."""

    make: Callable[[], Sequence[Any]]
    _rooms: list[Room] = field(default_factory=list)
    _taken: list[Any] = field(default_factory=list)

    def rooms(self) -> list[Room]:
        """What is left of each."""
        if not self._rooms:
            self._rooms = [Room(one, _STEPS) for one in self.make()]
        for shape in self._taken:
            self._rooms = [Room(one.shape.difference(shape), _STEPS) for one in self._rooms]
        self._taken.clear()
        return self._rooms

    def take(self, shape: Any) -> None:
        """Keep later names off a shape."""
        self._taken.append(shape)


def gathered(anchors: Sequence[Anchor], names: Names, clutter: Clutter, grounds: Grounds, budget: Budget) -> Named:
    """Places for the names of marks; marks for which there is none, or none at such cost, are left out."""
    for windows in (
        (_WINDOWS,) if names.surface.level else zip(_WINDOWS)
    ):  # where all is large straight lines are clearer
        rooms = list[Room]()
        for room in _places(anchors, names, clutter, grounds, windows, budget):
            rooms.append(room)
            found = _in_block(anchors, names, clutter, room, budget)
            if found:
                _take(found, names, clutter, grounds)
                return found
        bent = _round_a_corner(anchors[0], names, clutter, rooms, budget) if len(anchors) == 1 else []
        if bent:
            _take(bent, names, clutter, grounds)
            return bent
    half = (len(anchors) + 1) // 2
    parts = (slice(0, half), slice(half, None)) if len(anchors) > 1 else ()
    return [one for part in parts for one in gathered(anchors[part], names.some(part), clutter, grounds, budget)]


def _places(
    anchors: Sequence[Anchor],
    names: Names,
    clutter: Clutter,
    grounds: Grounds,
    windows: Sequence[float],
    budget: Budget,
) -> Iterator[Room]:
    """Where a block may stand within so many mm about its marks, on paper, the best first, until the budget is spent.

    A single name may stand between lines of its own size too.
    """
    scale = names.surface.enlarged
    for window in windows:
        for room in () if budget.spent else grounds.rooms():
            yield _about(anchors, room, window * scale, budget)
        if len(anchors) == 1 and not budget.spent:
            own = _about(anchors, Room(names.shapes[0]), window * scale, budget)
            yield _between_lines(own.shape, clutter, budget)


def _round_a_corner(anchor: Anchor, names: Names, clutter: Clutter, rooms: Sequence[Room], budget: Budget) -> Named:
    """A name that no straight line leads to in any of the rooms: with a line that has one corner."""
    import shapely

    scale, x, y = names.surface.enlarged, *(float(at) for at in anchor.point)
    bends = anchor.point + _corners() * scale
    bends = bends[clutter.off_words(shapely.linestrings([[anchor.point, bend] for bend in bends]), crossing=True)]
    corners = [Anchor(anchor.size, bend, anchor.inward) for bend in bends]
    for room in rooms if corners and not budget.spent else ():
        for spot in Room(room.shape).nearest(
            names.wide[0], names.high, names.surface.upright, (x, y), _AIR * scale, _TRIES
        ):
            budget.spend(1.0)
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


def _between_lines(shape: Any, clutter: Clutter, budget: Budget) -> Room:
    """What is left of a shape beside all that is drawn."""
    import shapely

    left, low, right, high = shape.bounds
    drawn = shapely.clip_by_rect(clutter.within(shape), left - _NEAR, low - _NEAR, right + _NEAR, high + _NEAR)
    budget.spend(_UNITED * float(shapely.get_num_coordinates(drawn).sum()))
    return Room(shape.difference(shapely.buffer(shapely.geometrycollections(drawn), _AIR, quad_segs=1)), _STEPS)


def _take(found: Named, names: Names, clutter: Clutter, grounds: Grounds) -> None:
    for _, spot, line in found:
        grounds.take(spot.shape(_GAP / 2 * names.surface.enlarged).union(line.buffer(_AIR, quad_segs=1)))
        clutter.take(spot.shape(_AIR))
        clutter.take(line)


def _about(anchors: Sequence[Anchor], room: Room, reach: float, budget: Budget) -> Room:
    """So much of a room as lies about marks."""
    import shapely

    points = np.array([anchor.point for anchor in anchors])
    window = shapely.box(*points.min(axis=0) - reach, *points.max(axis=0) + reach)
    if room.shape.is_empty or window.contains(shapely.box(*room.shape.bounds)):
        return room
    budget.spend(_CUT * float(shapely.get_num_coordinates(room.shape)))
    return Room(shapely.intersection(room.shape, window), _STEPS)


def _in_block(anchors: Sequence[Anchor], names: Names, clutter: Clutter, room: Room, budget: Budget) -> Named:
    """The names as a column or rows in the nearest place of a room from which all lines run clear.

    Each place that is tried is paid for, and none is once the budget is spent. Where lines run clear of words nowhere
    but across lines of other marks, they do that.
    """
    scale = names.surface.enlarged
    middle = np.mean([anchor.point for anchor in anchors], axis=0)
    near, wide = (float(middle[0]), float(middle[1])), max(names.wide)
    tries = _TRIES if len(anchors) > 1 else 8 * _TRIES
    best, second = (np.inf, Named()), (np.inf, Named())
    for cells in arrangements(len(anchors), wide, names.high, _GAP * scale):
        width, height = float(np.ptp(cells[:, 0])) + wide, float(np.ptp(cells[:, 1])) + names.high
        blocks = room.nearest(width, height, names.surface.upright, near, _AIR * scale, tries)
        most = chain((_TRIES,), repeat(tries))  # few at first, and then all
        while not budget.spent and (some := _nearer(islice(blocks, next(most)), near, best[0])):
            budget.spend(len(some))
            tried = Blocks.of(anchors, some, cells, names)
            apart = tried.apart(clutter, _AIR)
            clear = tried.clear(apart, clutter)
            if len(clear):
                best = _away(some[clear[0]], near), tried.named(anchors, clear[0])
                break
            crossing = tried.clear(apart, clutter, crossing=True)
            if len(crossing) and _away(some[crossing[0]], near) < second[0]:
                second = _away(some[crossing[0]], near), tried.named(anchors, crossing[0])
    return best[1] or second[1]


def _nearer(blocks: Iterator[Spot], near: tuple[float, float], most: float) -> list[Spot]:
    """Those that lie nearer to a point than so many mm."""
    return [block for block in blocks if _away(block, near) < most]


def _away(block: Spot, near: tuple[float, float]) -> float:
    return math.hypot(block.x - near[0], block.y - near[1])
