"""Laying pieces on printed pages: as few pages as a short, repeatable search finds.

The sheet is a grid of cells that divide a page exactly. For one piece, the pages that it touches at every offset come
from one table; where it would lie on another piece comes from one correlation by fast Fourier transform. Pieces are
put down one by one where they touch the fewest new pages, then a few are taken up and put down again.
"""

from __future__ import annotations

import random
from collections.abc import Collection, Sequence
from dataclasses import dataclass, field
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from draft.paper.drawing import Turn
from draft.paper.room import mask

Floats = NDArray[np.float64]
Bools = NDArray[np.bool_]

CELL = 6.4
"""About 1/4 in: 30 x 40 cells on a page of Letter, and the least distance between two pieces, room for scissors."""
_FINER = 4  # pieces are sampled so many times finer than a cell, and a cell counts if any of its samples does
_ROUNDS = 80
_TAKEN = 1_000_000  # more than any count of pages: something lies here already
_SEED = 7


@dataclass(frozen=True)
class Layout:
    """Where each piece lies, in the order given, and how many columns and rows of pages the sheet has."""

    turns: tuple[Turn, ...]
    columns: int
    rows: int


@dataclass(frozen=True)
class Rules:
    """What a layout must keep to beside the count of pages.

    `whole`: no piece crosses the edge of a page if it fits on one. `roll`: there is one column of pages, each a strip
    across a roll of paper, and what counts is the length of the roll. `upright` pieces are never turned.
    """

    whole: bool = False
    roll: bool = False
    upright: Collection[int] = ()


TAPED = Rules()
"""Pages that are taped together: pieces may lie across them."""


def pack(
    pieces: Sequence[Sequence[Floats]], page: tuple[float, float], rules: Rules = TAPED, rounds: int = _ROUNDS
) -> Layout:
    """Lay pieces, each by its rings `(n, 2)` in mm, on pages with this printed area in mm. Same input, same layout."""
    chance = random.Random(_SEED)
    sheet = _Sheet(pieces, page, rules)
    order = sorted(range(len(pieces)), key=lambda k: -sheet.forms[k][0].area)
    best = sheet.fill({}, order, chance)
    while best is None:
        sheet = _Sheet(pieces, page, rules, sheet.spare + 1)
        best = sheet.fill({}, order, chance)
    for _ in range(rounds if len(pieces) > 1 else 0):
        if sheet.cost(best)[0] <= sheet.least and not rules.roll:
            break  # the area alone fills so many pages
        taken = chance.sample(order, k=min(len(order), chance.choice((1, 2, 2, 3, len(order)))))
        kept = {k: place for k, place in best.items() if k not in taken}
        tried = sheet.fill(kept, [k for k in order if k in taken], chance)
        if tried is not None and sheet.cost(tried) <= sheet.cost(best):
            best = tried
    return sheet.layout(best)


@dataclass(frozen=True)
class _Place:
    """A piece's form (one of its quarter turns) and the cell of its top left corner."""

    form: int
    row: int
    column: int


@dataclass(frozen=True)
class _Form:
    """A piece in one quarter turn, and which cells it touches."""

    turn: Turn
    cells: Bools

    @cached_property
    def area(self) -> int:
        """In cells."""
        return int(self.cells.sum())

    @cached_property
    def spaced(self) -> Bools:
        """The cells and those around them: what another piece must keep off. One cell larger on every side."""
        return _any_in_windows(np.pad(self.cells, 2), 3, 3)


@dataclass
class _Sheet:
    """The grid, the pieces' forms on it, and what can be worked out once. `spare` adds columns and rows of pages."""

    pieces: Sequence[Sequence[Floats]]
    page: tuple[float, float]
    rules: Rules = TAPED
    spare: int = 1
    forms: list[list[_Form]] = field(init=False)

    def __post_init__(self) -> None:
        self.wide, self.tall = (max(4, round(side / CELL)) for side in self.page)
        self.cell = np.array([self.page[0] / self.wide, self.page[1] / self.tall])
        self.forms = [self._forms_of(rings, k in self.rules.upright) for k, rings in enumerate(self.pieces)]
        spread = 1.5 * sum(forms[0].area for forms in self.forms) / (self.wide * self.tall)
        side = int(np.ceil(np.sqrt(spread)))
        tallest, widest = (max(f.cells.shape[axis] for forms in self.forms for f in forms) for axis in (0, 1))
        self.rows = max(side, -(-tallest // self.tall)) + self.spare
        self.columns = max(side, -(-widest // self.wide)) + self.spare
        if self.rules.roll:
            self.rows, self.columns = int(2.0 * spread) + self.rows * (self.spare + 1), 1
        self.shape = (self.rows * self.tall, self.columns * self.wide)
        self._round = (_quick(self.shape[0] + 2), _quick(self.shape[1] + 2))  # room for a spaced piece at the far end
        self._waves: dict[tuple[int, int], NDArray[np.complex128]] = {}
        self._windows: dict[tuple[int, int], Bools] = {}

    def _forms_of(self, rings: Sequence[Floats], upright: bool) -> list[_Form]:
        found: list[_Form] = []
        for quarters in range(1 if upright else 4):
            form = self._form(rings, quarters)
            if not any(np.array_equal(form.cells, other.cells) for other in found):
                found.append(form)
        return found

    def _form(self, rings: Sequence[Floats], quarters: int) -> _Form:
        turned = [Turn(quarters).points(ring) for ring in rings]
        points, fine = np.concatenate(turned), self.cell / _FINER
        corner = points.min(axis=0) - fine
        columns, rows = np.ceil((points.max(axis=0) + fine - corner) / self.cell).astype(int)
        inside = mask(turned, corner, (fine[0], fine[1]), (rows * _FINER, columns * _FINER))
        grown = _any_in_windows(np.pad(inside, 1), 3, 3)  # what lies between two samples counts too
        cells = np.asarray(grown.reshape(rows, _FINER, columns, _FINER).any(axis=(1, 3)))
        return _Form(Turn(quarters, float(-corner[0]), float(-corner[1])), cells)

    @property
    def least(self) -> int:
        """The pages that the pieces' cells fill without a gap."""
        return -(-sum(forms[0].area for forms in self.forms) // (self.wide * self.tall))

    def fill(self, kept: dict[int, _Place], order: Sequence[int], chance: random.Random) -> dict[int, _Place] | None:
        """The kept places and new ones for the pieces in `order`; None if one of them finds no free place."""
        places = dict(kept)
        for piece in order:
            found = self._best_place(piece, places, chance)
            if found is None:
                return None
            places[piece] = found
        return places

    def _best_place(self, piece: int, places: dict[int, _Place], chance: random.Random) -> _Place | None:
        """The place without overlap that touches the fewest new pages: of equal ones the first, the last or any."""
        used, waves = self._used(places), np.fft.rfft2(self._occupied(places), s=self._round)
        scored: list[tuple[int, _Place]] = []
        for form in self._possible(piece):
            new = self._longer(piece, form, used) if self.rules.roll else self._new_pages(piece, form, used)
            if places:
                new = np.where(self._overlaps(piece, form, waves), _TAKEN, new)
            least = int(new.min())
            rows, columns = np.nonzero(new == least)
            pick = 0 if self.rules.roll else chance.choice((0, 0, len(rows) - 1, chance.randrange(len(rows))))
            scored.append((least, _Place(form, int(rows[pick]), int(columns[pick]))))
        least = min(score for score, _ in scored)
        return chance.choice([place for score, place in scored if score == least]) if least < _TAKEN else None

    def _new_pages(self, piece: int, form: int, used: Bools) -> NDArray[np.int32]:
        """How many pages not yet in use the piece touches, at each offset `(rows, columns)`."""
        windows = self._window(piece, form)
        height, width = self._offsets(piece, form)
        total = np.zeros((height, width), dtype=np.int32)
        for row, column in np.argwhere(~used):
            a, b = row * self.tall, column * self.wide
            total += windows[a + 1 : a + 1 + height, b + 1 : b + 1 + width]
        found = total[::-1, ::-1]
        return np.where(self._crossing(piece, form), _TAKEN, found) if self.rules.whole else found

    def _crossing(self, piece: int, form: int) -> Bools:
        """Where a piece that fits on one page would lie across two, at each offset."""
        tall, wide = self.forms[piece][form].cells.shape
        height, width = self._offsets(piece, form)
        if tall > self.tall or wide > self.wide:
            return np.zeros((height, width), dtype=bool)
        rows, columns = np.arange(height), np.arange(width)
        down = rows // self.tall != (rows + tall - 1) // self.tall
        across = columns // self.wide != (columns + wide - 1) // self.wide
        return np.asarray(down[:, None] | across)

    def _possible(self, piece: int) -> list[int]:
        """The forms of a piece that the sheet can hold; if it must be whole, those that a page can, if any."""
        forms = [k for k, form in enumerate(self.forms[piece]) if all(np.less_equal(form.cells.shape, self.shape))]
        page = (self.tall, self.wide)
        whole = [k for k in forms if all(np.less_equal(self.forms[piece][k].cells.shape, page))]
        return whole if self.rules.whole and whole else forms

    def _longer(self, piece: int, form: int, used: Bools) -> NDArray[np.int32]:
        """By how many strips the roll grows for a piece at each offset; the nearer its begin, the better."""
        height, width = self._offsets(piece, form)
        rows = np.arange(height, dtype=np.int32)
        end = -(-(rows + self.forms[piece][form].cells.shape[0]) // self.tall)
        begun = int(np.flatnonzero(used.any(axis=1)).max(initial=-1)) + 1
        grown = np.maximum(end - begun, 0) * self.shape[0] + rows
        return np.repeat(grown[:, None], width, axis=1).astype(np.int32)

    def _window(self, piece: int, form: int) -> Bools:
        """Whether a page touches the piece, by the place of the page's corner from the piece's; padded for all offsets.

        The page's corner at (row - height, column - width) of the piece stands at [row, column].
        """
        if (piece, form) not in self._windows:
            cells = self.forms[piece][form].cells
            height, width = self._offsets(piece, form)
            room = np.zeros((self.shape[0] + height + self.tall, self.shape[1] + width + self.wide), dtype=bool)
            room[height : height + cells.shape[0], width : width + cells.shape[1]] = cells
            self._windows[piece, form] = _any_in_windows(room, self.tall, self.wide)
        return self._windows[piece, form]

    def _offsets(self, piece: int, form: int) -> tuple[int, int]:
        shape = self.forms[piece][form].cells.shape
        return self.shape[0] - shape[0] + 1, self.shape[1] - shape[1] + 1

    def _overlaps(self, piece: int, form: int, occupied: NDArray[np.complex128]) -> Bools:
        """Where the piece and its surroundings meet a piece that already lies there, at each offset."""
        if (piece, form) not in self._waves:
            self._waves[piece, form] = np.conj(np.fft.rfft2(self.forms[piece][form].spaced, s=self._round))
        shared = np.fft.irfft2(occupied * self._waves[piece, form], s=self._round)
        height, width = self._offsets(piece, form)
        return np.asarray(np.roll(shared, (1, 1), axis=(0, 1))[:height, :width] > 0.5)

    def _occupied(self, places: dict[int, _Place]) -> Bools:
        cells = np.zeros(self.shape, dtype=bool)
        for piece, place in places.items():
            form = self.forms[piece][place.form].cells
            cells[place.row : place.row + form.shape[0], place.column : place.column + form.shape[1]] |= form
        return cells

    def _used(self, places: dict[int, _Place]) -> Bools:
        """Which pages `(rows, columns)` the placed pieces touch."""
        cells = self._occupied(places).reshape(self.rows, self.tall, self.columns, self.wide)
        return np.asarray(cells.any(axis=(1, 3)))

    def cost(self, places: dict[int, _Place]) -> tuple[int, int, int]:
        """Pages, then pages of the whole rectangle that they lie in, then pieces that do not stand upright."""
        used = self._used(places)
        rows, columns = np.nonzero(used)
        turned = sum(place.form > 0 for place in places.values())
        if self.rules.roll:
            return int(rows.max()), turned, sum(place.row for place in places.values())
        return int(used.sum()), int((np.ptp(rows) + 1) * (np.ptp(columns) + 1)), turned

    def layout(self, places: dict[int, _Place]) -> Layout:
        """The places in mm, from the corner of the first page in use."""
        rows, columns = np.nonzero(self._used(places))
        rows = np.append(rows, 0) if self.rules.roll else rows
        top, left = rows.min() * self.tall, columns.min() * self.wide
        turns = []
        for piece in range(len(self.pieces)):
            place = places[piece]
            turn = self.forms[piece][place.form].turn
            x, y = np.array([place.column - left, place.row - top]) * self.cell
            turns.append(Turn(turn.quarters, turn.dx + float(x), turn.dy + float(y)))
        return Layout(tuple(turns), int(np.ptp(columns)) + 1, int(np.ptp(rows)) + 1)


def _any_in_windows(cells: Bools, tall: int, wide: int) -> Bools:
    """Whether any cell is set in each window of this size, by the window's first corner."""
    sums = np.pad(cells.cumsum(axis=0, dtype=np.int32).cumsum(axis=1, dtype=np.int32), ((1, 0), (1, 0)))
    inside = sums[tall:, wide:] - sums[:-tall, wide:] - sums[tall:, :-wide] + sums[:-tall, :-wide]
    return np.asarray(inside > 0)


def _quick(size: int) -> int:
    """The least size from here on that a Fourier transform is quick with: no prime factor above 5."""
    while True:
        rest = size
        for factor in (2, 3, 5):
            while rest % factor == 0:
                rest //= factor
        if rest == 1:
            return size
        size += 1
