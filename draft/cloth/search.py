"""Laying batches into a strip of cloth as short as can be: a tree of places, walked in a fixed order.

At each step every batch that is left is tried at the lowest places that are free for it: the corners of what the no-fit
regions of the pieces already there leave of the strip. A branch is given up once some batch that is left can nowhere
end below the best length found. The walk asks no clock: a count of looked-up regions bounds it, so that it gives the
same lay on every machine. Few pieces are walked through completely; for many, the branches that depart least from the
first choice at each step come first (limited discrepancy search: Harvey and Ginsberg, 1995, from memory). From the same
shapes in the same places, in whatever order they came there, it goes on once.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import field
from functools import cached_property
from typing import Any, TypeAlias

from draft.base.record import dataclass
from draft.cloth.batches import Batch, Shape, Shelf
from draft.cloth.effort import Effort
from draft.cloth.places import Free, lowest_of, moved, room

BETTER = 0.05
"""A lay counts as shorter only by more than so many mm: scissors cannot tell."""
FEW_PLACES = 7
"""Up to so many places the tree is walked completely; the count of lays grows with the factorial."""
_MOST_DEPARTURES = 64
_WIDE = 4
"""Blocks looked at in one step, the largest first: what is small fits into the gaps that they leave."""


_KEPT = 4_000
"""Sets of places of which is kept what they leave free, about 40 MB."""

_Places: TypeAlias = frozenset[tuple[int, float, float]]


@dataclass(frozen=True)
class Put:
    """A shape in a strip, moved by `x` and `y` mm."""

    batch: int
    shape: Shape
    x: float
    y: float


@dataclass(frozen=True)
class StripLay:
    """A lay of all batches in a strip, `length` mm long."""

    length: float
    puts: tuple[Put, ...]

    @classmethod
    def of(cls, puts: Sequence[Put]) -> StripLay:
        """The lay that shapes in their places make."""
        return cls(max((put.y + float(put.shape.high[1]) for put in puts), default=0.0), tuple(puts))


@dataclass(frozen=True)
class _Choice:
    top: float
    rank: int
    y: float
    x: float
    put: Put

    @property
    def order(self) -> tuple[int, float, float, float]:
        return self.rank, self.top, self.y, self.x


@dataclass(frozen=True)
class _Gone:
    """How far a walk has gone on from some places."""

    departures: int
    cut_off: bool


@dataclass
class _Walk:
    """One search: what is looked for, and the best so far."""

    batches: Sequence[Batch]
    width: float
    shelf: Shelf
    effort: Effort
    best: float
    taken: Sequence[Any] = ()
    bounded: bool = False
    looks: int = 0
    found: StripLay | None = None
    cut_off: bool = False
    placed: list[Put] = field(default_factory=list)
    gone: dict[_Places, _Gone] = field(default_factory=dict)

    @cached_property
    def _known(self) -> dict[_Places, dict[Shape, Free]]:
        return self.shelf.kept("free", self.width, *self.taken, make=dict[_Places, dict[Shape, Free]])

    @cached_property
    def _moved(self) -> dict[tuple[Shape, float, float, Shape], Any]:
        return self.shelf.kept("moved", make=dict[tuple[Shape, float, float, Shape], Any])

    def around(self, put: Put, shape: Shape) -> Any:
        """The moves that would lay a shape on another in its place, a shapely region."""
        key = put.shape, put.x, put.y, shape
        if key not in self._moved:
            if len(self._moved) > _KEPT:
                self._moved.clear()
            self._moved[key] = moved(self.shelf.no_fit(put.shape, shape), put.x, put.y)
        return self._moved[key]

    def known(self, places: _Places) -> dict[Shape, Free]:
        """What is free for each shape beside those places, as far as this walk or one before it has found out."""
        if len(self._known) > _KEPT:
            self._known.clear()
        return self._known.setdefault(places, {})

    @property
    def limit(self) -> float:
        """A lay must be shorter than this."""
        return self.best - BETTER

    @property
    def spent(self) -> bool:
        """Whether the search must end; never before the first lay is found, unless one was known."""
        enough = self.effort.stopped or self.looks >= self.effort.looks
        return enough and (self.bounded or self.found is not None)


def shortest_in_strip(
    batches: Sequence[Batch],
    width: float,
    shelf: Shelf,
    effort: Effort,
    best: float = math.inf,
    taken: Sequence[Shape] = (),
) -> StripLay | None:
    """The shortest lay of the batches found in a strip `width` mm wide, or None if none is shorter than `best` mm.

    `taken` are shapes that stand in the strip already, such as what is missing of a remnant.
    """
    order = sorted(range(len(batches)), key=lambda k: -batches[k].area)
    walk = _Walk([batches[k] for k in order], width, shelf, effort, best, taken, bounded=math.isfinite(best))
    counts = [batch.count for batch in walk.batches]
    try:
        return _walked(walk, counts, order)
    finally:
        shelf.looked += walk.looks


def _walked(walk: _Walk, counts: list[int], order: Sequence[int]) -> StripLay | None:
    for departures in _rounds(sum(counts)):
        walk.cut_off = False
        _step(walk, _Ground(walk), 0.0, counts, departures)
        if walk.spent or not walk.cut_off:
            break
    if walk.found is None:
        return None
    puts = tuple(Put(order[put.batch], put.shape, put.x, put.y) for put in walk.found.puts)
    return StripLay(walk.found.length, puts)


def lay_what_fits(
    batches: Sequence[Batch], width: float, shelf: Shelf, limit: float, taken: Sequence[Shape] = ()
) -> list[int]:
    """How many of each batch find no place below `limit` mm if the largest are laid first, each as low as can be."""
    walk = _Walk(batches, width, shelf, Effort(), limit + 2 * BETTER, taken)
    ground, left = _Ground(walk), [batch.count for batch in batches]
    for rank in sorted(range(len(batches)), key=lambda k: -batches[k].area):
        while left[rank]:
            put = _lowest(walk, ground, rank)
            if put is None:
                break
            ground, left[rank] = _Ground(walk, ground, put), left[rank] - 1
    return left


def _lowest(walk: _Walk, ground: _Ground, rank: int) -> Put | None:
    found = [
        Put(rank, shape, x, y)
        for shape in walk.batches[rank].shapes
        for x, y in lowest_of(ground.free(shape), shape, walk.limit, 1)
    ]
    return min(found, key=lambda put: put.y + float(put.shape.high[1]), default=None)


def _rounds(places: int) -> range:
    """How many departures from the first choice each round allows."""
    return range(_MOST_DEPARTURES, _MOST_DEPARTURES + 1) if places <= FEW_PLACES else range(_MOST_DEPARTURES)


class _Ground:
    """What is free for each shape where others lie in their places; found when it is asked for.

    `known` holds what earlier walks found out about the same places.
    """

    def __init__(self, walk: _Walk, before: _Ground | None = None, put: Put | None = None) -> None:
        self._walk, self._before, self._put = walk, before, put
        self.places: _Places = before.places | {place_of(put)} if before and put else frozenset()
        self._free = walk.known(self.places)

    def knows(self, shape: Shape) -> bool:
        """Whether that was found before."""
        return shape in self._free

    def free(self, shape: Shape) -> Free:
        """The moves that are free for a shape."""
        if shape not in self._free:
            self._free[shape] = self._found(shape)
        return self._free[shape]

    def _found(self, shape: Shape) -> Free:
        import shapely

        if self._put is None or self._before is None:
            taken = [self._walk.shelf.no_fit(other, shape) for other in self._walk.taken]
            there = room(shape, self._walk.width)
            return Free(shapely.difference(there, shapely.union_all(taken)) if there and taken else there)
        before = self._before.free(shape)
        if before.is_none:
            return before
        return Free(shapely.difference(before.region, self._walk.around(self._put, shape)))


def place_of(put: Put) -> tuple[int, float, float]:
    """What a shape in a place is known by, to a hundredth of a mm: in another order the last digits differ."""
    return id(put.shape), round(put.x, 2), round(put.y, 2)


def _step(walk: _Walk, ground: _Ground, top: float, left: list[int], departures: int) -> None:
    """Lay one more batch in every way worth trying, and go on from each."""
    if not any(left):
        walk.best, walk.found = top, StripLay(top, tuple(walk.placed))
        return
    choices, least = _choices(walk, ground, top, left)
    for number, choice in enumerate(choices):
        if least >= walk.limit or walk.spent:
            return
        if number > departures:
            walk.cut_off = True
            return
        if choice.top < walk.limit:
            less = list(left)
            less[choice.put.batch] -= 1
            walk.placed.append(choice.put)
            _go_on(walk, ground, choice, less, departures - number)
            walk.placed.pop()


def _go_on(walk: _Walk, ground: _Ground, choice: _Choice, left: list[int], departures: int) -> None:
    """From a choice that was made; not where the same shapes were laid in the same places in another order before."""
    on = _Ground(walk, ground, choice.put)
    gone = walk.gone.get(on.places)
    if gone and (not gone.cut_off or gone.departures >= departures):
        walk.cut_off |= gone.cut_off
        return
    before, walk.cut_off = walk.cut_off, False
    _step(walk, on, choice.top, left, departures)
    walk.gone[on.places] = _Gone(departures, walk.cut_off)
    walk.cut_off |= before


def _choices(walk: _Walk, ground: _Ground, top: float, left: list[int]) -> tuple[list[_Choice], float]:
    """What may come next, in order, and the least length that every branch from here has."""
    choices, least, looked = [], top, 0
    for rank, batch in enumerate(walk.batches):
        if not left[rank] or looked >= _WIDE:
            continue
        looked += 1
        lowest = math.inf
        for shape in batch.shapes:
            walk.looks += not ground.knows(shape)
            for x, y in lowest_of(ground.free(shape), shape, walk.limit, walk.effort.places):
                end = y + float(shape.high[1])
                lowest = min(lowest, end)
                choices.append(_Choice(max(top, end), rank, y, x, Put(rank, shape, x, y)))
        least = max(least, lowest)
        if least >= walk.limit:
            break
    return sorted(choices, key=lambda choice: choice.order), least
