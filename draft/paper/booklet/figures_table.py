"""Tables of the booklet: a name, a unit, and figures that stand under one another by their whole part."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise

from draft.geometry.cubic import lines_through
from draft.paper.booklet.booklet_page import GAP, Book
from draft.paper.booklet.set_blocks import FINE, FINE_STRONG, RULE
from draft.paper.drawing.drawing import Item, Path, Turn
from draft.paper.drawing.flow import Type
from draft.paper.drawing.passage import Passage, said_as

_WIDEST = 22.0
"""Of a column of figures, in mm: further apart they are hard to read across."""
_ROW = FINE.size * 1.24
_APART = 1.0
"""Between the rows of two names, mm."""
_MANY = 8
"""So many names at least stand in two columns where a table is narrow."""
_SECOND = "#3c3c3c"
"""Of the row in the other unit: lighter than the first, and as easy to read."""
_HEAD = FINE.line_height + 1.6
_WHOLE = re.compile(r"\d+(?![\d/])")
"""A figure's whole part: in `1/2` there is none."""

Rows = Sequence[Sequence[str]]


def put_table(book: Book, head: Sequence[str], rows: Rows, first: float = 0.0) -> None:
    """Rows under a head that is repeated on each page; a row whose name is empty goes with the one above.

    The names take `first` mm at least. A table too wide for the page is set in parts.
    """
    wide = book.format.full
    named = min(max(first, *(FINE_STRONG.width(row[0]) + 4.0 for row in (head, *rows))), wide * 0.42)
    left = named + max(FINE.width(row[1]) for row in (head, *rows)) + 1.0
    least = max((FINE.width(cell) + 3.0 for row in (head, *rows) for cell in row[2:]), default=1.0)
    parts = -(-(len(head) - 2) // max(1, int((wide - left) / least)))
    each = -(-(len(head) - 2) // max(1, parts))
    for k in range(0, len(head) - 2, each):
        cells = slice(2 + k, 2 + k + each)
        table = _Table(book, head[cells], [(row[0], row[1], row[cells]) for row in rows], named, left)
        table.put()
        book.flow.gap(GAP)


def table_height(rows: Rows) -> float:
    """About how high a table becomes, in mm, if no first cell needs two lines."""
    return len(rows) * _ROW + sum(bool(row[0]) for row in rows) * _APART + _HEAD + GAP


class _Table:
    """One part of a table while it is set."""

    def __init__(
        self, book: Book, head: Sequence[str], rows: Sequence[tuple[str, str, Sequence[str]]], named: float, left: float
    ) -> None:
        self.book, self.head, self.rows, self.named, self.left = book, head, rows, named, left
        step = min(_WIDEST, (book.format.full - left) / max(1, len(head)))
        self.right = left + step * len(head)
        rests = (max((FINE.width(_parted(row[2][k])[1]) for row in rows), default=0.0) for k in range(len(head)))
        self.wholes = [left + step * (k + 1) - rest for k, rest in enumerate(rests)]
        self.passage = Passage("Table")

    def put(self) -> None:
        """Row after row, those of one name together; a narrow table of many rows in two columns where they fit."""
        starts = [k for k, row in enumerate(self.rows) if row[0] or not k]
        parts = [self.rows[a:b] for a, b in pairwise([*starts, len(self.rows)])]
        first = (len(parts) + 1) // 2
        if len(parts) < _MANY or not self._put_beside([self._groups(parts[:first]), self._groups(parts[first:])]):
            self._put_below(self._groups(parts))

    def _groups(self, parts: Sequence[Sequence[tuple[str, str, Sequence[str]]]]) -> list[tuple[list[Item], float]]:
        """The rows of each name, as they are drawn below a head, and how high they are."""
        return [self._group(rows, ruled=k > 0) for k, rows in enumerate(parts)]

    def _put_below(self, groups: Sequence[tuple[list[Item], float]]) -> None:
        page, first = -1, True
        for items, high in groups:
            self.book.flow.need(high + (0.0 if page == self.book.page else _HEAD))
            if page != self.book.page:
                page = self.book.page
                self.book.flow.put(self._headed(first), _HEAD)
                first = False
            self.book.flow.put(items, high)

    def _put_beside(self, halves: Sequence[Sequence[tuple[list[Item], float]]]) -> bool:
        """The first half of the rows and the rest beside them; whether the columns and the page have room for that."""
        page = self.book.format
        tall = _HEAD + max(sum(high for _, high in part) for part in halves)
        if page.columns == 1 or self.right > page.column or tall > self.book.flow.room:
            return False
        items: list[Item] = []
        for part, x in zip(halves, (0.0, page.column + page.gutter), strict=True):
            y = _HEAD
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
        for x in (0.0, self.left - 1.0) if first else ():  # over names and units, so that rows are of one length
            items += said_as([FINE_STRONG.label(" ", x, FINE.size)], Passage("TH", "", row))
        for text, x in zip(self.head, self.wholes, strict=True):
            label = FINE_STRONG.label(text, x, FINE.size, "end")
            at = max(label.x, self.left + FINE_STRONG.width(text) + 0.5)
            items += said_as([replace(label, x=at)], Passage("TH", text, row)) if first else [label]
        y = FINE.line_height + 0.2
        return [*items, Path((lines_through([(0.0, y), (self.right, y)]),), RULE)]

    def _group(self, rows: Sequence[tuple[str, str, Sequence[str]]], ruled: bool) -> tuple[list[Item], float]:
        names = FINE_STRONG.lines(rows[0][0], self.named - 2.0)
        high = max(len(rows) * _ROW, len(names) * FINE.line_height) + _APART
        items: list[Item] = []
        for k, (_, unit, cells) in enumerate(rows):
            row = Passage("TR", "", self.passage)
            if not k:
                labels = [FINE_STRONG.label(t, 0.0, FINE.size + FINE.line_height * i) for i, t in enumerate(names)]
                items += said_as(labels, Passage("TH", rows[0][0], row, rows=len(rows), of_row=True))
            items += self._cells(unit, cells, FINE.size + k * _ROW, row, replace(FINE, colour=_SECOND) if k else FINE)
        if ruled:
            items.append(Path((lines_through([(0.0, -0.6), (self.right, -0.6)]),), replace(RULE, width=0.1)))
        return items, high

    def _cells(self, unit: str, cells: Sequence[str], y: float, row: Passage, setting: Type) -> list[Item]:
        items: list[Item] = [*said_as([setting.label(unit, self.left, y, "end")], Passage("TD", unit, row))]
        for text, whole in zip(cells, self.wholes, strict=True):
            own = _parted(text)[0]
            x = whole - setting.width(own) if own else whole + setting.width(" ")
            items += said_as([setting.label(text, x, y)], Passage("TD", text, row))
        return items


def _parted(text: str) -> tuple[str, str]:
    """A figure's whole part, and what follows it; a fraction alone follows a space."""
    found = _WHOLE.match(text)
    return (text[: found.end()], text[found.end() :]) if found else ("", f" {text}")
