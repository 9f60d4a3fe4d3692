"""Shapes laid on a strip one after another, each as low as it will go, in an order that is bettered.

The first orders are those of the trade: the largest first, the longest first. Then pieces change places in the order,
and what does not lengthen the lay is kept (late acceptance: Burke and Bykov, 2017, from memory). A count of pieces laid
bounds the search, no clock, so that it gives the same lay on every machine.
"""

from __future__ import annotations

import math
import random
from collections.abc import Callable, Iterator, Sequence
from functools import cached_property

import numpy as np

from draft.base.arrays import Floats
from draft.base.record import dataclass
from draft.geometry.column_profile import UNIT
from draft.geometry.ground import Clearances, Ground, Page, Place

_SEED = 1
LATE = 20
"""A changed order is kept if it is as good as the one so many changes ago: level stretches are crossed."""
_NEAR = 12
"""Most changes move a piece by no more than so many places: what follows closely in the order lies closely, too."""
_FAR = 0.3
"""The others, this share, move it anywhere."""
_LONGER = 1.03
"""A lay is given up once it is so many times as long as the best."""
ROUGH = 0.5
"""The weight of the mean height that the pieces reach, beside the length: an even end leaves room for more."""
USUAL = 80
"""Of more pieces than these proportionately fewer are laid again, as each takes so much longer."""
KEPT = 48_000_000
"""Bytes of strips kept at most, from which a changed order is laid on."""


@dataclass(frozen=True)
class Kind:
    """`count` pieces alike, each of which may lie in any of these ways: numbers of shapes of the clearances."""

    ways: tuple[int, ...]
    count: int
    area: float


@dataclass(frozen=True)
class Laid:
    """An order, a number of a kind for every piece, and what came of it: the places, and the length in mm.

    `before` are the strips as they were before some of the pieces.
    """

    order: tuple[int, ...]
    places: tuple[Place, ...]
    before: tuple[Ground, ...]
    length: float
    worth: float


class InOrder:
    """Pieces of some kinds to be laid in a strip of so many columns, each `step` mm wide."""

    def __init__(
        self, kinds: Sequence[Kind], columns: int, step: float, clear: Clearances, page: Page | None = None
    ) -> None:
        self.kinds, self.columns, self.step, self.clear, self.page = kinds, columns, step, clear, page
        self.heights = [shape.height * UNIT for shape in clear.shapes]
        self.pieces = [number for number, kind in enumerate(kinds) for _ in range(kind.count)]

    @cached_property
    def empty(self) -> Ground:
        """The strip with nothing on it."""
        return Ground.empty(self.clear, self.columns, len(self.pieces), self.page)

    @cached_property
    def _every(self) -> int:
        """The strip is kept before each so manieth piece of an order."""
        return max(math.ceil(len(self.pieces) * self.empty.nbytes / KEPT), 1)

    @cached_property
    def start(self) -> Laid | None:
        """The best of the first orders; None where some piece fits nowhere."""
        found = (self.lay(order) for order in self._first_orders())
        return min((laid for laid in found if laid), key=lambda laid: laid.worth, default=None)

    def _first_orders(self) -> Iterator[tuple[int, ...]]:
        """All pieces by area, by length, and by length and width: the largest first."""
        long = [max(self.heights[way] for way in kind.ways) for kind in self.kinds]
        wide = [max(len(self.clear.shapes[way]) for way in kind.ways) * self.step for kind in self.kinds]
        yield tuple(sorted(self.pieces, key=lambda k: -self.kinds[k].area))
        yield tuple(sorted(self.pieces, key=lambda k: -long[k]))
        yield tuple(sorted(self.pieces, key=lambda k: -long[k] - wide[k]))

    def lay(self, order: tuple[int, ...], base: Laid | None = None, limit: float = math.inf) -> Laid | None:
        """The order laid, going on from where it departs from `base`; None once it is longer than the limit."""
        every = self._every
        start = min(_same(order, base.order), len(order) - 1) // every * every if base else 0
        before = list(base.before[: start // every]) if base else []
        ground = (base.before[start // every] if base else self.empty).copy()
        length = max((self.top(place) for place in ground.laid), default=0.0)
        for number, kind in enumerate(order[start:], start):
            if number % every == 0:
                before.append(ground.copy())
            place = self.lowest(ground, kind)
            if place is None:
                return None
            ground.lay(place)
            length = max(length, self.top(place))
            if length > limit:
                return None
        return Laid(order, ground.laid, tuple(before), length, length + ROUGH * self._mean_top(ground.laid))

    def bettered(self, start: Laid, pieces: int, stopped: Callable[[], bool] = lambda: False) -> Laid:
        """The best lay found from a first one, laying about so many pieces again."""
        chance, best, now = random.Random(_SEED), start, start
        worths, laid, number = [start.worth] * LATE, 0, 0
        if len(set(start.order)) < 2:
            return start  # all alike: there is only one order
        most = pieces * min(USUAL / len(start.order), 1.0)
        while laid < most and not stopped():
            order = changed(now.order, chance)
            laid += len(order) - _same(order, now.order)
            tried = self.lay(order, now, longer_by(best.length))
            if tried and tried.worth <= max(now.worth, worths[number % LATE]):
                now = tried
                best = min(best, now, key=lambda one: one.length)
            worths[number % LATE] = now.worth
            number += 1
        return best

    def top(self, place: Place) -> float:
        """How far along the strip a place reaches, mm."""
        return place.height * UNIT + self.heights[place.shape]

    def lowest(self, ground: Ground, kind: int) -> Place | None:
        """Where a piece of a kind ends lowest, of all ways in which it may lie; None where it fits nowhere."""
        places = [ground.lowest_place(way) for way in self.kinds[kind].ways]
        return min((place for place in places if place), key=lambda one: (self.top(one), one.column), default=None)

    def _mean_top(self, places: Sequence[Place]) -> float:
        tops: Floats = np.zeros(self.columns)
        for place in places:
            columns = self.clear.shapes[place.shape]
            part = tops[place.column : place.column + len(columns)]
            np.maximum(part, (columns.high + place.height) * UNIT, out=part)
        return float(tops.mean())


def longer_by(best: float) -> float:
    """The length, mm, at which a lay is given up."""
    return best * _LONGER


def changed(
    order: tuple[int, ...], chance: random.Random, most: int = _NEAR, anywhere: float = _FAR
) -> tuple[int, ...]:
    """The order with two pieces exchanged, or one moved: by at most so many places, or `anywhere` in a share of all."""
    moved, last = list(order), len(order) - 1
    while tuple(moved) == order:
        one = int(chance.random() * len(order))
        far = int(chance.random() * len(order))
        near = min(max(one - most + int(chance.random() * (2 * most + 1)), 0), last)
        other = far if chance.random() < anywhere else near
        if chance.random() < 0.5:
            moved[one], moved[other] = moved[other], moved[one]
        else:
            moved.insert(other, moved.pop(one))
    return tuple(moved)


def _same(one: tuple[int, ...], other: tuple[int, ...]) -> int:
    """How many pieces two orders begin alike with."""
    return next((k for k, (a, b) in enumerate(zip(one, other, strict=True)) if a != b), len(one))
