"""An order bettered in several chains, each from the same first one by other changes, for the best of all to be taken.

One chain soon comes to where no small change helps, each to somewhere else. Pieces that may lie in the same ways are
one kind, so that no change only exchanges two alike. A changed order is given up where the pieces laid so far reach
higher than the same ones did before. A count of pieces laid bounds each chain, no clock.
"""

from __future__ import annotations

import math
import random
from collections.abc import Callable, Iterator, Sequence
from functools import cached_property

import numpy as np

from draft.base.arrays import Ints
from draft.base.record import dataclass
from draft.geometry.column_profile import UNIT
from draft.geometry.ground import Ground, Place
from draft.geometry.in_order import KEPT, LATE, ROUGH, USUAL, InOrder, changed, longer_by

_NEAR, _FAR = 6, 0.1
"""Most changes move a piece by no more than so many places, this share of them anywhere: close in turn, close by."""
_HIGHER = 100.0
"""By how much higher pieces laid so far may reach in the mean, mm."""


@dataclass(frozen=True)
class _Before:
    """The strip before a piece, how high each column is taken, in units, and the mean of that in mm."""

    ground: Ground
    tops: Ints
    mean: float


@dataclass(frozen=True)
class Ordered:
    """An order of kinds, and what came of it: the places, and the length in mm."""

    order: tuple[int, ...]
    places: tuple[Place, ...]
    before: tuple[_Before, ...]
    length: float
    worth: float


class Chains:
    """Chains of orders of the pieces of a strip."""

    def __init__(self, strip: InOrder) -> None:
        self._strip, self._laid = strip, 0
        groups: dict[tuple[int, ...], list[int]] = {}
        for kind in strip.pieces:
            groups.setdefault(tuple(sorted(strip.kinds[kind].ways)), []).append(kind)
        self._alike = {group[0]: group for group in groups.values()}
        self._first = {kind: group[0] for group in groups.values() for kind in group}

    @property
    def may_be_kept(self) -> bool:
        """Whether there is room to keep the strip before every piece."""
        return self._strip.empty.nbytes * len(self._strip.pieces) <= KEPT

    @cached_property
    def start(self) -> Ordered | None:
        """The largest first, those alike beside one another; None where some piece fits nowhere."""
        kinds = self._strip.kinds
        order = sorted((self._first[kind] for kind in self._strip.pieces), key=lambda kind: (-kinds[kind].area, kind))
        return self._tried(tuple(order))

    def bettered(self, seed: int, pieces: int, stopped: Callable[[], bool] = lambda: False) -> Ordered | None:
        """The best order that the chain of a seed comes to, laying about so many pieces; fewer where there are many."""
        now = best = self.start
        if now is None or best is None or len(self._alike) < 2:
            return best
        chance, worths, number = random.Random(seed), [now.worth] * LATE, 0
        until = self._laid + pieces * min(math.sqrt(USUAL / len(now.order)), 1.0)
        while self._laid < until and not stopped():
            tried = self._tried(changed(now.order, chance, _NEAR, _FAR), now, longer_by(best.length))
            if tried and tried.worth <= max(now.worth, worths[number % LATE]):
                now = tried
                best = min(best, now, key=lambda one: one.length)
            worths[number % LATE] = now.worth
            number += 1
        return best

    def kinds(self, order: Sequence[int]) -> list[int]:
        """The strip's own kinds in an order of those that stand for all alike."""
        left: dict[int, Iterator[int]] = {first: iter(group) for first, group in self._alike.items()}
        return [next(left[kind]) for kind in order]

    def _tried(self, order: tuple[int, ...], base: Ordered | None = None, limit: float = math.inf) -> Ordered | None:
        """The order laid, going on from where it departs from `base`; None where that is given up."""
        start, end = _differing(order, base.order) if base else (0, 0)
        before = list(base.before[:start]) if base else []
        ground = base.before[start].ground.copy() if base else self._strip.empty.copy()
        tops = base.before[start].tops.copy() if base else np.zeros(self._strip.columns, dtype=int)
        for number, kind in enumerate(order[start:], start):
            before.append(_Before(ground.copy(), tops.copy(), float(tops.mean()) * UNIT))
            if base and number >= end and before[-1].mean > base.before[number].mean + _HIGHER:
                return None
            place = self._strip.lowest(ground, kind)
            if place is None:
                return None
            ground.lay(place)
            self._raise(tops, place)
            self._laid += 1
            if tops.max() * UNIT > limit:
                return None
        length = max(map(self._strip.top, ground.laid))
        return Ordered(order, ground.laid, tuple(before), length, length + ROUGH * float(tops.mean()) * UNIT)

    def _raise(self, tops: Ints, place: Place) -> None:
        shape = self._strip.clear.shapes[place.shape]
        part = tops[place.column : place.column + len(shape)]
        np.maximum(part, shape.high + place.height, out=part)


def _differing(one: Sequence[int], other: Sequence[int]) -> tuple[int, int]:
    """The first place at which two orders differ, and the first after the last such."""
    apart = [number for number, (a, b) in enumerate(zip(one, other, strict=True)) if a != b]
    return apart[0], apart[-1] + 1
