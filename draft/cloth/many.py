"""Laying many pieces into a strip of cloth: each as low as it will go, one after another, in an order that is bettered.

The first orders are those of the trade: the largest first, the longest first. Then pieces change places in the order,
and what does not lengthen the lay is kept (late acceptance: Burke and Bykov, 2017, from memory). A count of pieces laid
bounds the search, no clock, so that it gives the same lay on every machine.
"""

from __future__ import annotations

import math
import random
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np

from draft.base.arrays import Floats
from draft.cloth.batches import Batch, Shape, Shelf
from draft.cloth.columns import columns_of
from draft.cloth.effort import Effort
from draft.cloth.ground import Clearances, Ground, Place
from draft.cloth.places import FIT
from draft.cloth.search import BETTER, Put, StripLay

_SEED = 1
_LATE = 20
"""A changed order is kept if it is as good as the one so many changes ago: level stretches are crossed."""
_NEAR = 12
"""Most changes move a piece by no more than so many places: what lies far apart in the order lies far apart on the cloth."""
_LONGER = 1.03
"""A lay is given up once it is so many times as long as the best."""
_ROUGH = 0.5
"""The weight of the mean height that the pieces reach, beside the length: an even end leaves room for the next change."""
_USUAL = 80
"""Of more pieces than these proportionately fewer are laid again, as each takes so much longer."""
_KEPT = 48_000_000
"""Bytes of strips kept at most, from which a changed order is laid on."""


@dataclass(frozen=True)
class _Laid:
    """An order and what came of it: the strip as it was before some of its pieces, and the places of all."""

    order: tuple[int, ...]
    places: tuple[Place, ...]
    before: tuple[Ground | None, ...]
    length: float
    worth: float


class ManyPieces:
    """Batches to be laid in a strip `width` mm wide, of columns each `step` mm wide."""

    def __init__(self, batches: Sequence[Batch], width: float, step: float, clear: Clearances) -> None:
        self.batches, self.step, self.clear = batches, step, clear
        self.count = int((width + FIT) / step)
        shapes = [shape for batch in batches for shape in batch.shapes]
        numbers = iter(clear.numbers([(columns_of(shape, step), shape.on_fold) for shape in shapes]))
        self.ways: list[dict[int, Shape]] = [{next(numbers): shape for shape in batch.shapes} for batch in batches]
        self.heights = np.array([columns.height for columns in clear.shapes])

    @cached_property
    def empty(self) -> Ground:
        """The strip with nothing on it."""
        return Ground.empty(self.clear, self.count, sum(batch.count for batch in self.batches))

    @property
    def every(self) -> int:
        """The strip is kept before each so manieth piece of an order."""
        pieces = sum(batch.count for batch in self.batches)
        one = self.empty.lowest.nbytes + self.empty.unsure.nbytes
        return max(math.ceil(pieces * one / _KEPT), 1)

    @cached_property
    def start(self) -> _Laid | None:
        """The best of the first orders; None where some piece fits nowhere."""
        found = (self.lay(order) for order in self.first_orders())
        return min((laid for laid in found if laid), key=lambda laid: laid.worth, default=None)

    def first_orders(self) -> Iterator[tuple[int, ...]]:
        """All pieces by area, by length, and by length and width: the largest first."""
        long = [max(self.heights[way] for way in ways) for ways in self.ways]
        wide = [max(len(self.clear.shapes[way]) for way in ways) * self.step for ways in self.ways]
        pieces = [number for number, batch in enumerate(self.batches) for _ in range(batch.count)]
        yield tuple(sorted(pieces, key=lambda k: -self.batches[k].area))
        yield tuple(sorted(pieces, key=lambda k: -long[k]))
        yield tuple(sorted(pieces, key=lambda k: -long[k] - wide[k]))

    def lay(self, order: tuple[int, ...], base: _Laid | None = None, limit: float = math.inf) -> _Laid | None:
        """The order laid, going on from where it departs from `base`; None once it is longer than the limit."""
        every = self.every
        start = _same(order, base.order) // every * every if base else 0
        ground = base.before[start // every] if base and start < len(base.order) else self.empty
        assert ground
        before = list(base.before[: start // every]) if base else []
        ground, length = ground.copy(), max((self.top(place) for place in ground.laid), default=0.0)
        for number, batch in enumerate(order[start:], start):
            if number % every == 0:
                before.append(ground.copy())
            place = self._lowest(ground, batch)
            if place is None:
                return None
            ground.lay(place)
            length = max(length, self.top(place))
            if length > limit:
                return None
        return _Laid(order, tuple(ground.laid), tuple(before), length, length + _ROUGH * self._mean_top(ground.laid))

    def _lowest(self, ground: Ground, batch: int) -> Place | None:
        places = [ground.lowest_place(way) for way in self.ways[batch]]
        return min((place for place in places if place), key=lambda one: (self.top(one), one.column), default=None)

    def top(self, place: Place) -> float:
        """How far along the strip a place reaches, mm."""
        return place.height + float(self.heights[place.shape])

    def _mean_top(self, places: Sequence[Place]) -> float:
        tops: Floats = np.zeros(self.count)
        for place in places:
            columns = self.clear.shapes[place.shape]
            part = tops[place.column : place.column + len(columns)]
            np.maximum(part, columns.high + place.height, out=part)
        return float(tops.mean())

    def move(self, shape: Shape, place: Place) -> tuple[float, float]:
        """The move that takes a shape to its place."""
        x = 0.0 if shape.on_fold else place.column * self.step - float(shape.low[0])
        return x, place.height - float(shape.low[1])

    def strip_lay(self, laid: _Laid) -> StripLay:
        """The places as moves of the batches' shapes."""
        puts = []
        for batch, place in zip(laid.order, laid.places, strict=True):
            shape = self.ways[batch][place.shape]
            puts.append(Put(batch, shape, *self.move(shape, place)))
        return StripLay(max((put.y + float(put.shape.high[1]) for put in puts), default=0.0), tuple(puts))


def lay_many(
    batches: Sequence[Batch], width: float, step: float, shelf: Shelf, effort: Effort, best: float = math.inf
) -> StripLay | None:
    """The shortest lay found of the batches in a strip `width` mm wide, or None if none is shorter than `best` mm."""
    many = made_ready(batches, width, step, shelf)
    start = many.start
    if start is None or not start.order:
        return StripLay(0.0, ()) if start else None
    found = many.strip_lay(_bettered(many, start, effort))
    return found if found.length < best - BETTER else None


def made_ready(batches: Sequence[Batch], width: float, step: float, shelf: Shelf) -> ManyPieces:
    """The same batches in the same strip are made ready once, and what is clear between their shapes is found once."""
    clear = shelf.kept("clear", step, make=Clearances)
    key = (width, step, *((batch.count, *map(id, batch.shapes)) for batch in batches))
    return shelf.kept("many", *key, make=lambda: ManyPieces(batches, width, step, clear))


def _bettered(many: ManyPieces, start: _Laid, effort: Effort) -> _Laid:
    chance, best, now = random.Random(_SEED), start, start
    worths, laid, number = [start.worth] * _LATE, 0, 0
    if len(set(start.order)) == 1:
        return start  # all alike: there is only one order
    most = effort.pieces * min(_USUAL / len(start.order), 1.0)
    while laid < most and not effort.stopped:
        order = _changed(now.order, chance)
        laid += len(order) - _same(order, now.order)
        tried = many.lay(order, now, best.length * _LONGER)
        if tried and tried.worth <= max(now.worth, worths[number % _LATE]):
            now = tried
            best = min(best, now, key=lambda one: one.length)
        worths[number % _LATE] = now.worth
        number += 1
    return best


def _changed(order: tuple[int, ...], chance: random.Random) -> tuple[int, ...]:
    """The order with two pieces exchanged, or one moved elsewhere."""
    changed, last = list(order), len(order) - 1
    while tuple(changed) == order:
        one = int(chance.random() * len(order))
        far = int(chance.random() * len(order))
        near = min(max(one - _NEAR + int(chance.random() * (2 * _NEAR + 1)), 0), last)
        other = far if chance.random() < 0.3 else near
        if chance.random() < 0.5:
            changed[one], changed[other] = changed[other], changed[one]
        else:
            changed.insert(other, changed.pop(one))
    return tuple(changed)


def _same(one: tuple[int, ...], other: tuple[int, ...]) -> int:
    """How many pieces two orders begin alike with."""
    return next((k for k, (a, b) in enumerate(zip(one, other, strict=True)) if a != b), len(one))
