"""Tables of the booklet: a name, a unit, and figures that stand under one another by their whole part."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise

from draft.geometry.cubic import lines_through
from draft.paper.booklet.booklet_page import GAP, Book
from draft.paper.booklet.set_blocks import FINE, FINE_STRONG, RULE
from draft.paper.drawing.drawing import Item, Label, Path, Turn
from draft.paper.drawing.flow import Type
from draft.paper.drawing.fractions import as_figure
from draft.paper.drawing.passage import Passage, said_as

_WIDEST = 22.0
"""Of a column of figures, in mm: further apart they are hard to read across."""
_AFTER_NAME, _AFTER_FIGURE = 4.0, 5.0
"""Room behind the longest name, and between the figures of a single size, mm."""
_ROW = FINE.size * 1.24
_APART = 1.0
"""Between the rows of two names, mm."""
_COLUMNS, _LEAST = 3, 3
"""A narrow table stands in so many columns at most, of so many names at least."""
_SINGLE = 3
"""Cells of a row of one figure: its name and its unit before it."""
_FIGURES = replace(FINE, tabular=True)
_SECOND = replace(_FIGURES, colour="#3c3c3c")
"""Of the row in the other unit: lighter than the first, and as easy to read."""
_HEAD = FINE.line_height + 1.6
_WHOLE = re.compile(r"\d+(?![\d/])|–")
"""A figure's whole part, or the dash in its stead: in `1/2` there is none."""

Rows = Sequence[Sequence[str]]
_Rows = Sequence[tuple[str, str, Sequence[str]]]
"""Each a name, or none, a unit, and its figures."""


def put_table(book: Book, head: Sequence[str], rows: Rows, first: float = 0.0) -> None:
    """Rows under a head that is repeated on each page; a row whose name is empty goes with the one above.

    The names take `first` mm at least. A table too wide for the page is set in parts. One of a single column of figures
    has a column for each unit instead, for then there is nothing else to be told apart.
    """
    wide = book.format.full
    named = min(max(first, *(FINE_STRONG.width(row[0]) + _AFTER_NAME for row in (head, *rows))), wide * 0.42)
    if len(head) == _SINGLE:
        units, grouped = by_units(rows)
        _Table(book, units, grouped, named, named).put()
        book.flow.gap(GAP)
        return
    left = named + max(FINE.width(row[1]) for row in (head, *rows)) + 1.0
    least = max((_FIGURES.width(cell) + 3.0 for row in (head, *rows) for cell in row[2:]), default=1.0)
    parts = -(-(len(head) - 2) // max(1, int((wide - left) / least)))
    each = -(-(len(head) - 2) // max(1, parts))
    for k in range(0, len(head) - 2, each):
        cells = slice(2 + k, 2 + k + each)
        table = _Table(book, head[cells], [(row[0], row[1], row[cells]) for row in rows], named, left)
        table.put()
        book.flow.gap(GAP)


def by_units(rows: Rows) -> tuple[list[str], _Rows]:
    """The units of a single column of figures as a head, and a row a name with a figure for each.

    A unit that few rows have stands behind their figure, in the first column.
    """
    parts = _by_name([(row[0], row[1], row[2:]) for row in rows])
    most = max(parts, key=lambda part: sum(_units(part) == _units(other) for other in parts))
    units = _units(most)
    found = list[tuple[str, str, Sequence[str]]]()
    for part in parts:
        cells = {unit: figures[0] for _, unit, figures in part}
        if list(cells) == units:
            found.append((part[0][0], "", list(cells.values())))
        else:
            said = [f"{figure} {unit}".strip() for unit, figure in cells.items()]
            found.append((part[0][0], "", [*said, *[""] * len(units)][: max(len(units), len(said))]))
    return units, found


def _units(part: _Rows) -> list[str]:
    return [unit for _, unit, _ in part]


def _by_name(rows: _Rows) -> list[_Rows]:
    """The rows of each name."""
    starts = [k for k, row in enumerate(rows) if row[0] or not k]
    return [rows[a:b] for a, b in pairwise([*starts, len(rows)])]


def table_height(rows: Rows) -> float:
    """About how high a table becomes, in mm, if no first cell needs two lines."""
    single = max((len(row) for row in rows), default=0) == _SINGLE
    count = sum(bool(row[0]) for row in rows)
    return (count if single else len(rows)) * _ROW + count * _APART + _HEAD + GAP


class _Table:
    """One part of a table while it is set."""

    def __init__(self, book: Book, head: Sequence[str], rows: _Rows, named: float, left: float) -> None:
        self.book, self.head, self.rows, self.named, self.left = book, head, rows, named, left
        self.sides = [_sides([row[2][k] for row in rows]) for k in range(len(head))]
        wide = max((sum(sides) for sides in self.sides), default=0.0)
        step = min(_WIDEST, (book.format.full - left) / max(1, len(head)))
        step = max(step, wide + 2.0) if left > named else wide + _AFTER_FIGURE
        self.right = left + step * len(head)
        self.wholes = [left + step * (k + 1) - rest for k, (_, rest) in enumerate(self.sides)]
        self.passage = Passage("Table")

    def put(self) -> None:
        """Row after row, those of one name together; a narrow table in as many columns as the page holds."""
        groups = self._groups(_by_name(self.rows))
        for count in range(min(_COLUMNS, len(groups) // _LEAST), 1, -1):
            each = -(-len(groups) // count)
            if self._put_beside([self._unruled(groups[k : k + each]) for k in range(0, len(groups), each)], count):
                return
        self._put_below(groups)

    def _groups(self, parts: Sequence[_Rows]) -> list[tuple[list[Item], float]]:
        """The rows of each name, as they are drawn below a head, and how high they are."""
        return [self._group(rows, ruled=k > 0) for k, rows in enumerate(parts)]

    def _unruled(self, groups: list[tuple[list[Item], float]]) -> list[tuple[list[Item], float]]:
        """Groups that begin a column, where the line of the head is enough."""
        (items, high), *rest = groups
        return [([item for item in items if isinstance(item, Label)], high), *rest]

    def _put_below(self, groups: Sequence[tuple[list[Item], float]]) -> None:
        page, first = -1, True
        for items, high in groups:
            self.book.flow.need(high + (0.0 if page == self.book.page else _HEAD))
            if page != self.book.page:
                page = self.book.page
                self.book.flow.put(self._headed(first), _HEAD)
                first = False
            self.book.flow.put(items, high)

    def _put_beside(self, parts: Sequence[Sequence[tuple[list[Item], float]]], count: int) -> bool:
        """Parts of the rows beside one another; whether `count` columns and the page have room for that."""
        page = self.book.format
        share, tall = page.share(count), _HEAD + max(sum(high for _, high in part) for part in parts)
        if page.columns == 1 or self.right > share or tall > self.book.flow.room:
            return False
        items: list[Item] = []
        for k, part in enumerate(parts):
            x, y = k * (share + page.gutter), _HEAD
            items += [one.moved(Turn(0, x, 0.0)) for one in self._headed(first=not x)]
            for drawn, high in part:
                items += [one.moved(Turn(0, x, y)) for one in drawn]
                y += high
        self.book.flow.put(items, tall)
        return True

    def _headed(self, first: bool) -> list[Item]:
        """The head; on a further page it is only repeated, and not read again."""
        row = Passage("TR", "", self.passage)
        items: list[Item] = []
        blanks = (0.0, self.left - 1.0) if self.left > self.named else (0.0,)
        for x in blanks if first else ():  # over names and units, so that rows are of one length
            items += said_as([FINE_STRONG.label(" ", x, FINE.size)], Passage("TH", "", row))
        for text, at, (before, behind) in zip(self.head, self.wholes, self.sides, strict=True):
            label = FINE_STRONG.label(text, at + (behind - before) / 2, FINE.size, "middle")
            items += said_as([label], Passage("TH", text, row)) if first else [label]
        y = FINE.line_height + 0.2
        return [*items, Path((lines_through([(0.0, y), (self.right, y)]),), RULE)]

    def _group(self, rows: _Rows, ruled: bool) -> tuple[list[Item], float]:
        names = FINE_STRONG.lines(rows[0][0], self.named - 2.0)
        high = max(len(rows) * _ROW, len(names) * FINE.line_height) + _APART
        items: list[Item] = []
        for k, (_, unit, cells) in enumerate(rows):
            row = Passage("TR", "", self.passage)
            if not k:
                labels = [FINE_STRONG.label(t, 0.0, FINE.size + FINE.line_height * i) for i, t in enumerate(names)]
                items += said_as(labels, Passage("TH", rows[0][0], row, rows=len(rows), of_row=True))
            items += self._cells(unit, cells, FINE.size + k * _ROW, row, _SECOND if k else _FIGURES)
        if ruled:
            items.append(Path((lines_through([(0.0, -0.6), (self.right, -0.6)]),), replace(RULE, width=0.1)))
        return items, high

    def _cells(self, unit: str, cells: Sequence[str], y: float, row: Passage, setting: Type) -> list[Item]:
        items: list[Item] = []
        if self.left > self.named:
            items += said_as([setting.label(unit, self.left, y, "end")], Passage("TD", unit, row))
        for text, whole in zip(cells, self.wholes, strict=True):
            figure, (before, _) = as_figure(text), _parted(text)
            x = whole - setting.width(before)
            items += said_as([setting.label(figure or " ", x, y)], Passage("TD", figure, row))
        return items


def _parted(text: str) -> tuple[str, str]:
    """A figure's whole part, and what follows it."""
    figure = as_figure(text)
    found = _WHOLE.match(figure)
    cut = found.end() if found else 0
    return figure[:cut], figure[cut:]


def _sides(cells: Sequence[str]) -> tuple[float, float]:
    """How far the figures of a column reach before the end of their whole part and behind it, mm."""
    parts = [_parted(cell.split(" ")[0] if cell[-1:].isalpha() else cell) for cell in cells]  # a unit may reach further
    before, behind = (max((_FIGURES.width(part[side]) for part in parts), default=0.0) for side in (0, 1))
    return before, behind
