"""A table of orders: a row a customer, read into one `Order` each.

    order,pattern,bust cm,waist cm,hip cm,height cm,style neckline,cloth,page,language
    A-1017,marlpit,98,83,104,168,vee,moderate,a4,de

A column without a value stands for what the options say, or what is usual. A row that says something odd is refused by
itself, with its words. Names of customers are not read at all: a pack goes by the number of its order.
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import Any

from draft.base.naming import shortened
from draft.base.notes import Note, Problems, Severity, error, nearest
from draft.base.record import dataclass
from draft.base.table_text import read_table, with_points
from draft.bodies.measures import MEASURES
from draft.bodies.own_measure import Known
from draft.orders.became import Refused
from draft.orders.columns_of_orders import Column, columns_of
from draft.orders.one_order import Order
from draft.orders.order_data import order_from
from draft.pack.paper_request import names_in

WHAT = "table of orders"
_YES, _NO = ("yes", "y", "true", "1", "x", "ja"), ("no", "n", "false", "0", "nein")
_FLAGS = {"unwashed": "unwashed", "one way": "one_way", "large print": "large_print"}
_TEXTS = {"like": "like", "figure": "figure", "chart": "chart", "allowance": "allowance", "selvedge": "selvedge",
          "repeat": "repeat", "assemble": "assemble", "language": "language", "units": "units"}  # fmt: skip
_SMALL = ("assemble", "language", "units")
_PARTED = re.compile(r"[,;+/]")
_BARE = re.compile(r"(?:\d+\s+)?\d+/\d+|\d+(?:\.\d+)?|\.\d+")


@dataclass(frozen=True)
class Offered:
    """What rows may ask for by name, patterns and cloths with their names or paths, and what stands where they do not.

    What a row says wins over `usual`, the parts of an order that are the same for all.
    """

    patterns: Mapping[str, str]
    cloths: Mapping[str, str]
    usual: Mapping[str, Any]


def read_orders(path: Path, offered: Offered, known: Known = MEASURES) -> tuple[list[Order | Refused], list[Note]]:
    """The orders of a table in its order, those that cannot be read refused; and what there is to say of the table.

    Raises `Problems` if it cannot be read, or a column of it was surely meant to be another.
    """
    table = read_table(path, WHAT)
    columns, notes = columns_of(table.head, known)
    notes = [*table.notes, *notes]
    if not any(columns):
        fix = "begin it with a line such as `order,bust cm,waist cm,hip cm,height cm`"
        notes.append(error(f"`{path.name}` has no column that orders know", None, fix))
    if not table.rows and not any(note.severity is Severity.ERROR for note in notes):
        notes.append(error(f"`{path.name}` has a head and no orders below it"))
    if any(note.severity is Severity.ERROR for note in notes):
        raise Problems(notes)
    return [_Row(columns, offered, path).order(number, cells) for number, (_, cells) in enumerate(table.rows, 1)], notes


class _Row:
    """One row while it is read: what it says, and what is wrong with it."""

    def __init__(self, columns: Sequence[Column | None], offered: Offered, path: Path) -> None:
        self.columns, self.offered, self.path = columns, offered, path
        self.said: dict[str, Any] = {}
        self.measures: dict[str, str] = {}
        self.styles: dict[str, str] = dict(offered.usual.get("styles", {}))
        self.notes: list[Note] = []

    def order(self, number: int, cells: Sequence[str]) -> Order | Refused:
        key = f"order-{number:04d}"
        if len(cells) > len(self.columns) and any(cells[len(self.columns) :]):
            self.notes.append(
                error("the row has more cells than the first line", None, "put texts with commas in quotes")
            )
        for column, cell in zip(self.columns, cells, strict=False):
            if column and cell:
                self._take(column, cell)
        key = self.said.pop("order", key)
        pattern = self.said.get("pattern") or self.offered.usual.get("pattern", "")
        if not pattern:
            self.notes.append(error("the row names no pattern", None, "give `--pattern`, or a column `pattern`"))
        said = {**self.offered.usual, **self.said, "key": key, "measures": self.measures}
        said["styles"] = self.styles
        if not self.notes:
            try:
                return order_from({name: value for name, value in said.items() if value not in ({}, None)})
            except Problems as problems:
                self.notes += problems.notes
        hints = [hint for note in self.notes for hint in note.hints]
        return Refused(key, tuple(note.message for note in self.notes), tuple(dict.fromkeys(hints)))

    def _take(self, column: Column, cell: str) -> None:
        if column.measure:
            self.measures[column.measure] = _measured(cell, column)
        elif column.style:
            self.styles[column.style] = with_points(cell)
        elif column.word in _FLAGS:
            self._flag(column.word, cell)
        elif column.word in _TEXTS:
            text = with_points(cell) if column.word in ("allowance", "selvedge", "repeat") else cell
            self.said[_TEXTS[column.word]] = text.lower() if column.word in _SMALL else text
        else:
            self._others[column.word](self, cell)

    def _flag(self, word: str, cell: str) -> None:
        plain = cell.lower()
        if plain in _YES or plain in _NO:
            self.said[_FLAGS[word]] = plain in _YES
        else:
            self.notes.append(error(f"`{word}` is {shortened(cell)}, neither yes nor no"))

    def _order(self, cell: str) -> None:
        self.said["order"] = cell

    def _size(self, cell: str) -> None:
        self.said["sizes"] = [name for part in re.split(r"[,;+]", cell) if (name := part.strip())]

    def _style(self, cell: str) -> None:
        for part in re.split(r"[,;](?=\s*\w+\s*=)", cell):
            name, equals, value = (word.strip() for word in part.partition("="))
            if not (name and equals and value):
                self.notes.append(
                    error(f"{shortened(part)} is no style", None, "write NAME=VALUE, as in `neckline=vee`")
                )
            else:
                self.styles[name] = with_points(value)

    def _width(self, cell: str) -> None:
        self.said["widths"] = [with_points(part.strip()) for part in re.split(r";|,(?!\d)", cell) if part.strip()]

    def _page(self, cell: str) -> None:
        self.said["pages"] = list(names_in(_PARTED.sub(",", cell)))

    def _paper(self, cell: str) -> None:
        self.said["large"] = list(names_in(_PARTED.sub(",", cell)))

    def _pattern(self, cell: str) -> None:
        self._named("pattern", cell, self.offered.patterns)

    def _cloth(self, cell: str) -> None:
        self._named("cloth", cell, self.offered.cloths)

    def _named(self, what: str, cell: str, known: Mapping[str, str]) -> None:
        """Only by a plain name: a table may hold what strangers typed, and leads to no file that is not offered."""
        found = known.get(cell) or known.get(Path(cell).stem if Path(cell).name == cell else "")
        if found is None:
            hints = nearest(cell, known) or (
                f"choose from {', '.join(known)}, or give a file with `--{_option(what)}`",
            )
            self.notes.append(error(f"there is no {what} {shortened(cell)} among those offered", None, *hints))
        else:
            self.said[what] = found

    _others: Mapping[str, Any] = {
        "order": _order, "size": _size, "style": _style, "width": _width, "page": _page, "paper": _paper,
        "pattern": _pattern, "cloth": _cloth,
    }  # fmt: skip


def _option(what: str) -> str:
    return {"cloth": "fabric"}.get(what, what)


def _measured(cell: str, column: Column) -> str:
    """A measure with its unit: what the cell says itself, or the head."""
    text = with_points(cell)
    return f"{text} {column.unit}" if column.unit and _BARE.fullmatch(text) else text
