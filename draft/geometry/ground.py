"""What is free on a strip for every shape at once: the lowest height at which it may lie, column by column.

A height is kept as a bound that only rises. A piece that is laid raises the bounds that it stands in the way of;
whether a raised one is free is looked at only where the lowest place is asked for.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from draft.base.arrays import Bools, Ints
from draft.base.record import dataclass
from draft.geometry.column_profile import NOWHERE, UNIT, Columns, kept_apart_from_each

Heights = NDArray[np.int32]
"""In units, and `NOWHERE` where there is no place."""

_SHORT = np.iinfo(np.int16)
"""Tables of every two shapes are the most that a search keeps, so their heights are short whole numbers."""


class Clearances:
    """For every two shapes the heights between which one would lie on the other, by the columns between them.

    `low` and `high` are `(lying, coming, columns)`, with the shapes' left sides level in the middle column, `reach`.
    """

    def __init__(self) -> None:
        self.shapes: list[Columns] = []
        self.on_fold: list[bool] = []
        self._known: dict[tuple[bytes, bool], int] = {}
        self.reach = 0
        self.low = self.high = np.zeros((0, 0, 1), dtype=np.int16)

    def numbers(self, shapes: list[tuple[Columns, bool]]) -> list[int]:
        """The number of each shape, on the fold or not; shapes that take the same room have the same."""
        before = len(self.shapes)
        found = [self._number(columns, on_fold) for columns, on_fold in shapes]
        if len(self.shapes) > before:
            self._grow(before)
        return found

    def _number(self, columns: Columns, on_fold: bool) -> int:
        key = columns.key, on_fold
        if key not in self._known:
            self._known[key] = len(self.shapes)
            self.shapes.append(columns)
            self.on_fold.append(on_fold)
        return self._known[key]

    def _grow(self, before: int) -> None:
        count, reach = len(self.shapes), max(len(shape) for shape in self.shapes)
        low = np.full((count, count, 2 * reach + 1), _SHORT.max, dtype=np.int16)
        high = np.full_like(low, _SHORT.min)
        kept = slice(reach - self.reach, reach + self.reach + 1)
        low[:before, :before, kept], high[:before, :before, kept] = self.low, self.high
        self.low, self.high, self.reach = low, high, reach
        for coming in range(before, count):
            apart = kept_apart_from_each(self.shapes[: coming + 1], self.shapes[coming])
            for lying, heights in enumerate(apart):
                self._put(lying, coming, *(np.clip(of, _SHORT.min + 1, _SHORT.max - 1) for of in heights))

    def _put(self, lying: int, coming: int, low: Ints, high: Ints) -> None:
        one, other = self.shapes[lying], self.shapes[coming]
        start, end = self.reach - len(other) + 1, self.reach + len(one)
        self.low[lying, coming, start:end], self.high[lying, coming, start:end] = low, high
        start, end = self.reach - len(one) + 1, self.reach + len(other)
        self.low[coming, lying, start:end], self.high[coming, lying, start:end] = -high[::-1], -low[::-1]


@dataclass(frozen=True)
class Place:
    """A shape laid: its number, the column of its left side and the height of its lowest point, in units."""

    shape: int
    column: int
    height: int


@dataclass(frozen=True)
class Page:
    """A strip may be cut into pages, so many columns wide and so many mm high.

    Of the shapes whose numbers are in `whole` each that fits on a page lies on one.
    """

    columns: int
    height: float
    whole: frozenset[int] = frozenset()

    def keeps_whole(self, number: int, shape: Columns) -> bool:
        """Whether a shape may not lie across the edge of a page."""
        return number in self.whole and len(shape) <= self.columns and shape.height * UNIT <= self.height


@dataclass
class Ground:
    """A strip with what has been laid on it."""

    clear: Clearances
    lowest: Heights
    """For each shape and column `(shapes, columns)`: no place lower than this is free."""
    unsure: Bools
    """Where that has not been looked at since it rose."""
    laid: tuple[Place, ...]
    _shapes: Ints
    _columns: Ints
    _heights: Heights
    _tops: Heights
    page: Page | None = None

    @classmethod
    def empty(cls, clear: Clearances, columns: int, most: int, page: Page | None = None) -> Ground:
        """A strip of so many columns for at most so many pieces; one on the fold may lie at its left side only."""
        lowest = np.zeros((len(clear.shapes), columns), dtype=np.int32)
        for number, (shape, folded) in enumerate(zip(clear.shapes, clear.on_fold, strict=True)):
            places = max(columns - len(shape) + 1, 0)
            lowest[number, min(places, 1) if folded else places :] = NOWHERE
            if page and page.keeps_whole(number, shape):
                first = np.arange(columns)
                lowest[number, first // page.columns != (first + len(shape) - 1) // page.columns] = NOWHERE
        (shapes, firsts), (heights, tops) = np.zeros((2, most), dtype=int), np.zeros((2, most), dtype=np.int32)
        unsure = np.zeros_like(lowest, dtype=bool)
        return cls(clear, lowest, unsure, (), shapes, firsts, heights, tops, page)

    @property
    def nbytes(self) -> int:
        """What a copy of it takes."""
        return self.lowest.nbytes + self.unsure.nbytes

    def copy(self) -> Ground:
        """The same strip, to lay on further without changing this one."""
        own = self._shapes.copy(), self._columns.copy(), self._heights.copy(), self._tops.copy()
        return Ground(self.clear, self.lowest.copy(), self.unsure.copy(), self.laid, *own, self.page)

    def lay(self, place: Place) -> None:
        """Lay a shape down, and raise what it stands in the way of."""
        reach = self.clear.reach
        first, last = max(place.column - reach, 0), min(place.column + reach + 1, self.lowest.shape[1])
        window = slice(first - place.column + reach, last - place.column + reach)
        known = len(self.lowest)  # shapes that came to the clearances later are none of this strip's
        low, high = self.clear.low[place.shape, :known, window], self.clear.high[place.shape, :known, window]
        heights = self.lowest[:, first:last]
        above = heights - np.int32(place.height)
        hit = (low < above) & (above < high)
        np.copyto(heights, high + np.int32(place.height), where=hit)
        self.unsure[:, first:last] |= hit
        number = len(self.laid)
        self._shapes[number], self._columns[number], self._heights[number] = place.shape, place.column, place.height
        self._tops[number] = place.height + self.clear.shapes[place.shape].height
        self.laid = (*self.laid, place)

    def lowest_place(self, shape: int, first: int = 0, last: int | None = None) -> Place | None:
        """The lowest free place for a shape from one column to before another, the leftmost of such; None if none."""
        heights, unsure = self.lowest[shape, first:last], self.unsure[shape, first:last]
        if not len(heights):
            return None
        column = int(heights.argmin())
        if unsure[column]:
            sure = np.min(heights, where=~unsure, initial=NOWHERE)
            self._settle(shape, first + np.flatnonzero(unsure & (heights <= sure)))
            column = int(heights.argmin())
        height = int(heights[column])
        return Place(shape, first + column, height) if height < NOWHERE else None

    def _settle(self, shape: int, columns: Ints) -> None:
        """Raise a shape's bounds at these columns until they are free."""
        heights, (low, high) = self.lowest[shape, columns], self._in_the_way(shape, columns)
        rising: Ints | slice = slice(None)
        while True:
            now = heights[rising]
            hit = (low < now) & (now < high)
            raised = self._onto_page(shape, np.maximum(now, (high * hit).max(axis=0, initial=0)))
            rose = np.flatnonzero(raised > now)
            if not len(rose):
                break
            heights[rising] = raised
            rising = np.arange(len(columns))[rising][rose]
            low, high = low[:, rose], high[:, rose]
        self.lowest[shape, columns] = heights
        self.unsure[shape, columns] = False

    def _in_the_way(self, shape: int, columns: Ints) -> tuple[Heights, Heights]:
        """Between which heights `(laid, columns)` the shape would lie on what is laid and reaches so high."""
        reach, count = self.clear.reach, len(self.laid)
        lowest = self.lowest[shape, columns].min()
        beside = (self._columns[:count] >= columns[0] - reach) & (self._columns[:count] <= columns[-1] + reach)
        near = np.flatnonzero(beside & (self._tops[:count] > lowest))
        steps = self._columns[near, None] - columns
        at = np.minimum(np.maximum(steps, -reach), reach) + (reach + (2 * reach + 1) * self._shapes[near, None])
        heights = self._heights[near, None]
        return heights - self.clear.high[shape].take(at), heights - self.clear.low[shape].take(at)

    def _onto_page(self, shape: int, heights: Heights) -> Heights:
        """The heights, raised to the next page's begin where a shape that must lie on one page would lie on two."""
        page, own = self.page, self.clear.shapes[shape]
        if page is None or not page.keeps_whole(shape, own):
            return heights
        page_height = page.height / UNIT
        over = (heights < NOWHERE) & (heights % page_height + own.height > page_height + 1)
        return np.where(over, np.ceil(np.ceil(heights / page_height) * page_height), heights).astype(np.int32)
