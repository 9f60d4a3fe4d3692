"""Comma-separated text that opens in a spreadsheet: UTF-8, with one kind of line end on every machine.

A spreadsheet takes a text that begins like a formula for one, and runs it. An apostrophe goes before such a text, as
its user would type it, also behind a semicolon, which parts the cells in half of the world; `unguarded` takes it away
again. A figure stays a figure.
"""

from __future__ import annotations

import csv
import io
import re
from collections.abc import Iterable, Sequence

Row = Sequence[object]

_LOOKS_LIKE_A_FORMULA = r"(?=\s*'*[-=+@＝＋－＠])"
_GUARD = re.compile(rf"(?:^|(?<=;)){_LOOKS_LIKE_A_FORMULA}")
_GUARDED = re.compile(rf"(?:^|(?<=;))'{_LOOKS_LIKE_A_FORMULA}")
_PARTED = re.compile(r"[\t\r\n]+")
_FIGURE = re.compile(r"[-+]?(?:\d+\.?\d*|\.\d+)(?:[eE][-+]?\d+)?", re.ASCII)


def guarded(cell: object) -> object:
    """A cell as it is written: what a spreadsheet would run has an apostrophe before it."""
    if not isinstance(cell, str) or _FIGURE.fullmatch(cell):
        return cell
    return _GUARD.sub("'", _PARTED.sub(" ", cell))


def unguarded(text: str) -> str:
    """What a cell said before it was written by us."""
    return _GUARDED.sub("", text)


class CsvText:
    """Rows as text, added as they are found."""

    def __init__(self) -> None:
        self._parts: list[bytes] = []

    def add(self, rows: Iterable[Row]) -> None:
        """Write rows below those already there."""
        text = io.StringIO()
        csv.writer(text, lineterminator="\n").writerows(map(guarded, row) for row in rows)
        self.put(text.getvalue().encode("utf-8", "backslashreplace"))

    def put(self, data: bytes) -> None:
        """Rows that are text already."""
        self._parts.append(data)

    @property
    def data(self) -> bytes:
        """What stands in the file."""
        return b"".join(self._parts)


def csv_text(rows: Iterable[Row]) -> bytes:
    """All rows of a table at once."""
    text = CsvText()
    text.add(rows)
    return text.data
