"""Comma-separated text that opens in a spreadsheet: UTF-8, with one kind of line end on every machine."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterable, Sequence

Row = Sequence[object]


class CsvText:
    """Rows as text, added as they are found."""

    def __init__(self) -> None:
        self._text = io.StringIO()
        self._writer = csv.writer(self._text, lineterminator="\n")

    def add(self, rows: Iterable[Row]) -> None:
        """Write rows below those already there."""
        self._writer.writerows(rows)

    @property
    def data(self) -> bytes:
        """What stands in the file."""
        return self._text.getvalue().encode("utf-8")


def csv_text(rows: Iterable[Row]) -> bytes:
    """All rows of a table at once."""
    text = CsvText()
    text.add(rows)
    return text.data
