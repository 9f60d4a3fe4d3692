"""What words on a piece keep clear of: lines, other words, and the names of sizes that are already placed."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import numpy as np

from draft.base.arrays import Bools, Floats, Ints

KEPT = 0.5
"""Names of sizes at marks and in rows keep so many mm from what they keep clear of."""


class Clutter:
    """What is to be kept clear of: shapely lines and areas, and what is placed among them in turn."""

    def __init__(self, lines: Sequence[Any]) -> None:
        import shapely

        self.lines = np.empty(len(lines), dtype=object)
        self.lines[:] = lines
        parts = shapely.get_parts(self.lines)
        thin = shapely.get_dimensions(parts) == 1
        self._thin = shapely.multilinestrings(parts[thin])
        shapely.prepare(self._thin)
        begins = shapely.get_point(parts[thin], 0)
        self._areas, self._placed = shapely.STRtree(parts[~thin]), _Shapes(parts[:0])
        self._solid = shapely.STRtree(np.concatenate([parts[~thin], begins]))
        """The areas, and a point of each line: what no line crosses has all of a line in it, or none."""

    def free(self, shapes: Any) -> Bools:
        """Which of the polygons `(n,)` touch none of it."""
        free = self.off_lines(shapes)
        free[free] = self._placed.apart_from(shapes[free])
        return free

    def off_lines(self, shapes: Any) -> Bools:
        """Which of the polygons `(n,)` touch none of the lines and areas, wherever other things were placed."""
        import shapely

        if not len(shapes):
            return np.zeros(0, dtype=bool)
        free = np.asarray(~shapely.intersects(self._thin, shapely.get_exterior_ring(shapes)))
        free[free] = _apart(self._solid, shapes[free])
        return free

    def cross(self, begins: Floats, ends: Floats) -> Bools:
        """Which strokes from points `(n, 2)` to others meet any of the lines: quicker asked than of a shape."""
        import shapely

        return np.asarray(shapely.intersects(self._thin, shapely.linestrings(np.stack([begins, ends], axis=1))))

    def within(self, shape: Any) -> Any:
        """All of it `(n,)` that touches a shape."""
        import shapely

        shapely.prepare(shape)
        every = np.concatenate([self.lines, self._placed.shapes])
        return every[shapely.intersects(shape, every)]

    def off_words(self, lines: Any, crossing: bool = False) -> Bools:
        """Which of the lines `(n,)` run through no area, wherever they cross drawn lines.

        They may be `crossing` lines that were placed too, those that lead to names.
        """
        return _apart(self._areas, lines) & self._placed.apart_from(lines, areas=crossing)

    def apart(self, shapes: Any) -> Bools:
        """Which of the shapes `(n,)` touch nothing placed."""
        return self._placed.apart_from(shapes)

    def first_apart(self, shapes: Any, good: Bools) -> int | None:
        """The number of the first of the good ones among shapes `(n,)` that touches nothing placed."""
        numbers = np.flatnonzero(good)
        if not len(numbers):
            return None
        apart = self._placed.apart_from(shapes[numbers])
        first = int(apart.argmax())
        return int(numbers[first]) if apart[first] else None

    def take(self, *shapes: Any) -> None:
        """Keep what is placed later off these shapes."""
        self._placed.add(shapes)

    @property
    def taken(self) -> int:
        """How many shapes were taken."""
        return self._placed.count

    def give_back(self, taken: int) -> None:
        """Forget all that was taken since there were only so many."""
        self._placed.keep(taken)


def _apart(tree: Any, shapes: Any) -> Bools:
    """Which of the shapes `(n,)` touch nothing in a tree of shapely's."""
    found = np.ones(len(shapes), dtype=bool)
    found[tree.query(shapes, predicate="intersects")[0]] = False
    return found


class _Shapes:
    """Shapes of which those in the way are soon found, a few hundred at most, and more in turn."""

    def __init__(self, shapes: Any) -> None:
        self._room, self._boxes = shapes, _least(shapes)
        self.count = self._boxed = len(shapes)

    @property
    def shapes(self) -> Any:
        return self._room[: self.count]

    def add(self, shapes: Any) -> None:
        """Some more of them `(n,)`."""
        count = self.count + len(shapes)
        if count > len(self._room):
            more = np.empty(count + 64, dtype=object)
            boxes = np.empty((4, len(more)))
            more[: self.count], boxes[:, : self.count] = self.shapes, self._boxes[:, : self.count]
            self._room, self._boxes = more, boxes
        self._room[self.count : count] = shapes
        self.count = count

    def keep(self, count: int) -> None:
        """Forget all but so many."""
        self.count, self._boxed = count, min(self._boxed, count)

    def apart_from(self, shapes: Any, areas: bool = False) -> Bools:
        """Which of other shapes `(n,)` touch none of these, or none of the `areas` among them."""
        import shapely

        found = np.ones(len(shapes), dtype=bool)
        if self.count and len(shapes):
            of, number = self._near(shapes)
            if areas:
                area = shapely.get_dimensions(self._room[number]) == 2
                of, number = of[area], number[area]
            if len(of):
                found[of[shapely.intersects(shapes[of], self._room[number])]] = False
        return found

    def _near(self, shapes: Any) -> tuple[Ints, Ints]:
        """The pairs, of other shapes `(n,)` and these, whose boxes meet: the numbers of both."""
        if self._boxed < self.count:
            self._boxes[:, self._boxed : self.count] = _least(self._room[self._boxed : self.count])
            self._boxed = self.count
        return np.divmod(np.flatnonzero(_meet(_least(shapes), self._boxes[:, : self.count])), self.count)


def boxes_meet(shapes: Any, others: Any) -> Bools:
    """Whether the boxes about shapes `(n,)` and others `(m,)` meet: `(n, m)`."""
    return _meet(_least(shapes), _least(others))


def _meet(least: Floats, others: Floats) -> Bools:
    left, low, right, high = others
    most = -least[..., None]
    meet = left <= most[2]
    meet &= low <= most[3]
    meet &= right <= most[0]
    meet &= high <= most[1]
    return np.asarray(meet)


def _least(shapes: Any) -> Floats:
    """Left and low of the boxes about shapes `(n,)`, and the opposite of right and high: `(4, n)`.

    Two boxes meet where each of these is no more than the opposite of the other's other side.
    """
    import shapely

    return np.asarray((shapely.bounds(shapes) * _OPPOSITE).T)


_OPPOSITE = np.array([1.0, 1.0, -1.0, -1.0])
