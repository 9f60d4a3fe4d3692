"""Where each piece may lie on printed pages, and how many new pages it touches there.

The sheet is a grid of cells that divide a page exactly.
"""

from __future__ import annotations

import random
from collections.abc import Sequence
from dataclasses import field
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from draft.base.arrays import Bools, Floats
from draft.base.record import dataclass
from draft.paper.drawing.drawing import Turn
from draft.paper.pages.packing_rules import TAPED, Packing, Rules
from draft.paper.pages.touching import Counts, GridPiece, Table, Waves, cells_by_page, grid_pieces, with_page

_TAKEN, _FAR = 30_000, 1_000_000_000  # more than any count of pages, or length of a roll: something lies here already
_TAKEN_OF_FEW, _FEW = 255, 100  # the same of a sheet of so many pages at most, in a byte
_KEPT = 32e6
"""Bytes of counts that are kept, as the same pieces are taken up beside the same pages again and again."""


@dataclass(frozen=True)
class Place:
    """One of a piece's quarter turns, by its number, and the cell of its top left corner."""

    way: int
    row: int
    column: int


class _Least(NamedTuple):
    """Where a piece in one of its ways touches the fewest new pages: places counted row by row, of so many columns."""

    way: int
    least: int
    found: NDArray[np.int32]
    columns: int


@dataclass
class PackingGrid:
    """The grid, the pieces on it in their quarter turns, and what can be worked out once.

    `spare` adds columns and rows of pages.
    """

    pieces: Sequence[Sequence[Floats]]
    live: tuple[float, float]
    rules: Rules = TAPED
    spare: int = 1
    turned: list[list[GridPiece]] = field(init=False)

    def __post_init__(self) -> None:
        self.wide, self.tall = (max(4, round(side / self.rules.cell)) for side in self.live)
        self.cell = np.array([self.live[0] / self.wide, self.live[1] / self.tall])
        self.turned = [grid_pieces(rings, self.cell, k in self.rules.upright) for k, rings in enumerate(self.pieces)]
        spread = 1.5 * sum(ways[0].area for ways in self.turned) / (self.wide * self.tall)
        side = int(np.ceil(np.sqrt(spread)))
        tallest, widest = (max(one.shape[axis] for ways in self.turned for one in ways) for axis in (0, 1))
        self.rows = max(side, -(-tallest // self.tall)) + self.spare
        self.columns = max(side, -(-widest // self.wide)) + self.spare
        if self.rules.roll:
            self.rows, self.columns = int(2.0 * spread) + self.rows * (self.spare + 1), 1
        self.shape = (self.rows * self.tall, self.columns * self.wide)
        self._pages: dict[tuple[int, int], Table] = {}
        self._touching: dict[tuple[int, Place], Bools] = {}
        self._cells: dict[tuple[int, Place], Counts] = {}
        self._counts: dict[tuple[int, int], Counts] = {}
        self._beside: dict[tuple[int, int, bytes], Counts] = {}
        self._lately: dict[tuple[int, int], tuple[Bools, Counts]] = {}  # the last of these: the next differs by little
        self._ways: dict[int, list[int]] = {}
        self._known: dict[tuple[int, frozenset[tuple[int, Place]]], list[_Least]] = {}
        self._room = _KEPT / 4
        self._pairs: dict[tuple[int, int, int, int], Table] = {}
        self._waves = Waves()
        few = self.rows * self.columns <= _FEW
        self._taken = np.int32(_FAR) if self.rules.roll else np.uint8(_TAKEN_OF_FEW) if few else np.int16(_TAKEN)

    @property
    def least(self) -> int:
        """The pages that the pieces' cells fill without a gap."""
        return -(-sum(ways[0].area for ways in self.turned) // (self.wide * self.tall))

    def fill(self, kept: dict[int, Place], order: Sequence[int], chance: random.Random) -> dict[int, Place] | None:
        """The kept places and new ones for the pieces in `order`; None if one of them finds no free place."""
        places = dict(kept)
        for piece in order:
            found = self._best_place(piece, places, chance)
            if found is None:
                return None
            places[piece] = found
        return places

    def _best_place(self, piece: int, places: dict[int, Place], chance: random.Random) -> Place | None:
        """The place without overlap that touches the fewest new pages: of equal ones the first, the last or any."""
        scored: list[tuple[int, Place]] = []
        for way, least, found, columns in self._least(piece, places):
            pick = 0 if self.rules.roll else chance.choice((0, 0, len(found) - 1, chance.randrange(len(found))))
            row, column = divmod(int(found[pick]), columns)
            scored.append((least, Place(way, row, column)))
        least = min(score for score, _ in scored)
        return chance.choice([place for score, place in scored if score == least]) if least < self._taken // 2 else None

    def _least(self, piece: int, places: dict[int, Place]) -> list[_Least]:
        """Of each way that a piece may lie the fewest new pages and where: looked up if it is asked for again."""
        beside = piece, frozenset(places.items())
        if beside not in self._known:
            used = self._used(places)
            found = [self._least_of(piece, way, places, used) for way in self._possible(piece)]
            if self._room < 0:
                self._known.clear()
                self._room = _KEPT / 4
            self._room -= sum(one.found.nbytes for one in found)
            self._known[beside] = found
        return self._known[beside]

    def _least_of(self, piece: int, way: int, places: dict[int, Place], used: Bools) -> _Least:
        new = self._longer(piece, way, used) if self.rules.roll else self._new_pages(piece, way, used)
        for other, place in places.items():
            part, taken = self._pair(piece, way, other, place.way).on(new, place.row, place.column)
            np.maximum(part, taken, out=part)
        flat = new.ravel()
        least = flat.min()
        return _Least(way, int(least), (flat == least).nonzero()[0].astype(np.int32), new.shape[1])

    def _new_pages(self, piece: int, way: int, used: Bools) -> Counts:
        """How many pages not yet in use the piece touches, at each offset `(rows, columns)`."""
        known = self._beside.get((piece, way, used.tobytes()))
        if known is not None:
            return known.copy()
        before, total = self._lately.get((piece, way), (None, None))
        changed = used if before is None else used ^ before
        if total is None or np.count_nonzero(changed) >= np.count_nonzero(used):
            changed, total = used, self._count(piece, way)
        total, table = total.copy(), self._page(piece, way)
        for row, column in np.argwhere(changed).tolist():
            part, meets = table.on(total, row * self.tall, column * self.wide)
            if used[row, column]:
                part -= meets
            else:
                part += meets
        if len(self._beside) * total.nbytes > _KEPT / 2:
            self._beside.clear()
            self._lately.clear()
        self._lately[piece, way] = used, total
        self._beside[piece, way, used.tobytes()] = total
        return total.copy()

    def _count(self, piece: int, way: int) -> Counts:
        """How many pages the piece touches at each offset; where it must be whole and is not, it cannot lie."""
        if (piece, way) not in self._counts:
            height, width = (self.shape[k] - self.turned[piece][way].shape[k] + 1 for k in (0, 1))
            total, table = np.zeros((height, width), dtype=self._taken.dtype), self._page(piece, way)
            for row in range(self.rows):
                for column in range(self.columns):
                    part, meets = table.on(total, row * self.tall, column * self.wide)
                    part += meets
            if self.rules.is_whole(piece):
                total[self._crossing(piece, way)] = self._taken
            self._counts[piece, way] = total
        return self._counts[piece, way]

    def _crossing(self, piece: int, way: int) -> Bools:
        """Where a piece that fits on one page would lie across two, at each offset."""
        tall, wide = self.turned[piece][way].shape
        height, width = self.shape[0] - tall + 1, self.shape[1] - wide + 1
        if tall > self.tall or wide > self.wide:
            return np.zeros((height, width), dtype=bool)
        rows, columns = np.arange(height), np.arange(width)
        down = rows // self.tall != (rows + tall - 1) // self.tall
        across = columns // self.wide != (columns + wide - 1) // self.wide
        return np.asarray(down[:, None] | across)

    def _possible(self, piece: int) -> list[int]:
        """The quarter turns of a piece that the sheet can hold; if it must be whole, those that a page can, if any."""
        if piece not in self._ways:
            ways = [k for k, one in enumerate(self.turned[piece]) if all(np.less_equal(one.shape, self.shape))]
            page = (self.tall, self.wide)
            whole = [k for k in ways if all(np.less_equal(self.turned[piece][k].shape, page))]
            self._ways[piece] = whole if self.rules.is_whole(piece) and whole else ways
        return self._ways[piece]

    def _longer(self, piece: int, way: int, used: Bools) -> Counts:
        """By how many strips the roll grows for a piece at each offset; the nearer its begin, the better."""
        tall, wide = self.turned[piece][way].shape
        rows = np.arange(self.shape[0] - tall + 1)
        end = -(-(rows + tall) // self.tall)
        begun = int(np.flatnonzero(used.any(axis=1)).max(initial=-1)) + 1
        grown = np.maximum(end - begun, 0) * self.shape[0] + rows
        return np.repeat(grown[:, None], self.shape[1] - wide + 1, axis=1).astype(np.int32)

    def _page(self, piece: int, way: int) -> Table:
        if (piece, way) not in self._pages:
            self._pages[piece, way] = with_page(self.turned[piece][way], self.tall, self.wide, self._taken.dtype)
        return self._pages[piece, way]

    def _pair(self, piece: int, way: int, other: int, its: int) -> Table:
        if (piece, way, other, its) not in self._pairs:
            table = self._waves.with_piece(self.turned[piece][way], self.turned[other][its], self._taken)
            self._pairs[piece, way, other, its] = table
            self._pairs[other, its, piece, way] = table.seen_from_the_other()
        return self._pairs[piece, way, other, its]

    def _used(self, places: dict[int, Place]) -> Bools:
        """Which pages `(rows, columns)` the placed pieces touch."""
        used = np.zeros((self.rows, self.columns), dtype=bool)
        for piece, place in places.items():
            used |= self._touched(piece, place)
        return used

    def _touched(self, piece: int, place: Place) -> Bools:
        if (piece, place) not in self._touching:
            table = self._page(piece, place.way)
            touched = [
                [table.at(place.row - row * self.tall, place.column - column * self.wide)
                 for column in range(self.columns)] for row in range(self.rows)
            ]  # fmt: skip
            self._touching[piece, place] = np.array(touched, dtype=bool)
        return self._touching[piece, place]

    def cost(self, places: dict[int, Place]) -> tuple[int, int, int]:
        """Pages, then pages of the whole rectangle that they lie in, then pieces that do not stand upright."""
        used = self._used(places)
        rows, columns = np.nonzero(used)
        sideways = sum(place.way > 0 for place in places.values())
        if self.rules.roll:
            return int(rows.max()), sideways, sum(place.row for place in places.values())
        return int(used.sum()), int((np.ptp(rows) + 1) * (np.ptp(columns) + 1)), sideways

    def promise(self, places: dict[int, Place], cost: tuple[int, int, int]) -> tuple[int, ...]:
        """The cost, and before equal counts of pages tell apart how little lies on the emptiest."""
        if self.rules.roll:
            return cost
        filled = np.zeros((self.rows, self.columns), dtype=np.int64)
        for piece, place in places.items():
            counts = self._filled(piece, place)
            top, left = place.row // self.tall, place.column // self.wide
            filled[top : top + counts.shape[0], left : left + counts.shape[1]] += counts
        return (cost[0], int(filled[filled > 0].min()), *cost[1:])

    def _filled(self, piece: int, place: Place) -> Counts:
        if (piece, place) not in self._cells:
            on_page = place.row % self.tall, place.column % self.wide
            self._cells[piece, place] = cells_by_page(self.turned[piece][place.way], *on_page, self.tall, self.wide)
        return self._cells[piece, place]

    def packing(self, places: dict[int, Place]) -> Packing:
        """The places in mm, from the corner of the first page in use."""
        rows, columns = np.nonzero(self._used(places))
        rows = np.append(rows, 0) if self.rules.roll else rows
        top, left = rows.min() * self.tall, columns.min() * self.wide
        turns = []
        for piece in range(len(self.pieces)):
            place = places[piece]
            turn = self.turned[piece][place.way].turn
            x, y = np.array([place.column - left, place.row - top]) * self.cell
            turns.append(Turn(turn.quarters, turn.dx + float(x), turn.dy + float(y)))
        return Packing(tuple(turns), int(np.ptp(columns)) + 1, int(np.ptp(rows)) + 1)
