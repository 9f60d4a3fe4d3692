"""Places for words in the order in which they are wanted: the first that lies in a shape and touches nothing.

Most places are out of the question by one of their corners, and of the others a few are looked at at a time, those of
many wishes together: a shapely shape is made for these alone.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise
from typing import Any

import numpy as np

from draft.base.arrays import Bools, Floats, Ints
from draft.base.record import dataclass
from draft.paper.piece.clutter import Clutter
from draft.paper.piece.taken_in_turn import Offer, taken_in_turn

_FEW = (0, 10, 40)
"""As far as these places are looked at: the first of all wishes together, and in the end all."""
_APART = (0, 2, 1, 3)
"""Corners that lie far apart come first."""


@dataclass(frozen=True)
class Places:
    """Rectangles by their corners `(n, 5, 2)`, the one most wanted first, and the shapely shape that must hold one."""

    corners: Floats
    inside: Any


def first_places(wishes: Sequence[Places], clutter: Clutter) -> Iterator[tuple[int, Any] | None]:
    """For each wish in turn the number and the shape of its first place, or None.

    Whoever takes one adds it to the clutter before asking for the next.
    """
    for wish, few in zip(wishes, nearest_of(wishes, clutter), strict=True):
        yield few.first_apart(clutter) or _first_later(wish, _FEW[1], clutter)


@dataclass(frozen=True)
class Likely:
    """Places of a wish whose corners lie in its shape: their `numbers`, their shapes, and which are good, all `(n,)`.

    Those that are lie in the shape and clear of all lines.
    """

    numbers: Ints
    shapes: Any
    good: Bools

    def first_apart(self, clutter: Clutter) -> tuple[int, Any] | None:
        """The first good one that touches nothing placed."""
        found = clutter.first_apart(self.shapes, self.good)
        return None if found is None else (int(self.numbers[found]), self.shapes[found])


def nearest_of(wishes: Sequence[Places], clutter: Clutter, few: int = _FEW[1]) -> list[Likely]:
    """So many places of each wish, which are looked at first: of all together, whatever is placed meanwhile."""
    return _looked_at([(wish, slice(0, few)) for wish in wishes], clutter)


def take_first(
    wishes: Sequence[Places], nearest: Sequence[Likely], clutter: Clutter, few: int = _FEW[1]
) -> list[int | None]:
    """The number of the first place of each wish, which is taken before the next is looked for; None without any.

    So many of the places of each wish were looked at before.
    """
    found = list[int | None]()
    goods = [(some.shapes[some.good], some.numbers[some.good]) for some in nearest]
    offers = [Offer(shapes, shapes, len(wish.corners) > few) for wish, (shapes, _) in zip(wishes, goods, strict=True)]
    for wish, (_, numbers), number in zip(wishes, goods, taken_in_turn(offers, clutter), strict=True):
        later = _first_later(wish, few, clutter) if number is None else None
        if later:
            clutter.take(later[1])
        found.append(int(numbers[number]) if number is not None else later and later[0])
    return found


def _first_later(wish: Places, few: int, clutter: Clutter) -> tuple[int, Any] | None:
    """The first place beyond so few that were looked at first."""
    for begin, end in pairwise((few, *_FEW[2:], len(wish.corners))):
        if begin < min(end, len(wish.corners)):
            (some,) = _looked_at([(wish, slice(begin, end))], clutter)
            place = some.first_apart(clutter)
            if place:
                return place
    return None


def _looked_at(some: Sequence[tuple[Places, slice]], clutter: Clutter) -> list[Likely]:
    """Some of the places of each wish: those that lie in its shape and clear of all lines."""
    import shapely

    parts = [wish.corners[part] for wish, part in some]
    corners = np.concatenate([np.zeros((0, 5, 2)), *parts])
    ends = np.cumsum([0, *map(len, parts)])
    of, insides = np.repeat(np.arange(len(some)), np.diff(ends)), np.array([wish.inside for wish, _ in some])
    shapely.prepare(insides)
    left = _likely(corners, insides[of])
    shapes = shapely.polygons(corners[left])
    good = shapely.contains(insides[of[left]], shapes)
    good[good] = clutter.off_lines(shapes[good])
    cuts = np.searchsorted(left, ends).tolist()
    return [
        Likely(left[a:b] - begin + part.start, shapes[a:b], good[a:b])
        for (a, b), begin, (_, part) in zip(pairwise(cuts), ends.tolist(), some, strict=False)
    ]


def _likely(corners: Floats, insides: Any) -> Ints:
    """The numbers of rectangles `(n, 5, 2)` whose corners all lie in their shapes `(n,)`."""
    import shapely

    left = np.arange(len(corners))
    for corner in _APART:
        x, y = corners[left, corner].T
        left = left[shapely.intersects_xy(insides[left], x, y)]
    return left
