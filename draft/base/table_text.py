"""A table as a spreadsheet of any country saves it, as cells: with commas, semicolons or tabs, in UTF-8 or not.

A byte order mark, UTF-16 and Windows' own letters are read; a figure may have a comma for its point.
"""

from __future__ import annotations

import csv
import io
import re
from pathlib import Path

from draft.base.csvtext import unguarded
from draft.base.notes import Note, Problems, error, remark
from draft.base.opening import open_file, read_at_most
from draft.base.record import dataclass

LARGEST = 100_000_000
"""Bytes: some hundred thousand orders."""
LONGEST_CELL = 1000
"""Characters: a longer one is no order's, but a quote that does not close."""
_PARTED_BY = ";\t,"
_COMMA = re.compile(r"(?<![\d.,])(\d{1,4}),(\d{1,3})(?![\d.,])")
_QUOTED = re.compile(r'"(?:[^"]|"")*"')


@dataclass(frozen=True)
class Table:
    """The cells of a table: its head, and behind each row its line in the file; what there is to say of its letters."""

    head: list[str]
    rows: list[tuple[int, list[str]]]
    notes: tuple[Note, ...] = ()


def read_table(path: Path, what: str) -> Table:
    """The cells of a table, without blanks around them; empty rows are left out.

    Raises `Problems` if it cannot be read, is too large, holds no head, or a quote does not close.
    """
    with open_file(path, what) as file:
        data = read_at_most(file, LARGEST)
    if len(data) > LARGEST:
        raise Problems([error(f"`{path}` is over 100 MB, too large for a {what}")])
    text, notes = _text(data, path)
    parted_by = _parted_by(text)
    rows: list[tuple[int, list[str]]] = []
    reader = csv.reader(io.StringIO(text, newline=""), delimiter=parted_by)
    try:
        for row in reader:
            cells = [unguarded(cell.strip()) for cell in row]
            if any(len(cell) > LONGEST_CELL for cell in cells):
                raise csv.Error("a cell has over 1000 letters: a quote before it does not close")
            if any(cells):
                rows.append((reader.line_num, cells))
    except csv.Error as reason:
        fact = f"line {reader.line_num} of `{path}` cannot be read: {reason}"
        raise Problems([error(fact, None, "save it again as CSV UTF-8")]) from None
    if not rows:
        raise Problems([error(f"`{path.name}` is empty", None, "begin it with the names of its columns")])
    if rows[0][1][0].lower().startswith("sep="):  # a line of one spreadsheet program for itself
        rows = rows[1:]
    return Table(rows[0][1], rows[1:], notes)


def _text(data: bytes, path: Path) -> tuple[str, tuple[Note, ...]]:
    if data[:2] in (b"\xff\xfe", b"\xfe\xff"):
        return data.decode("utf-16", "replace"), ()
    if b"\0" in data:
        raise Problems([error(f"`{path}` is no table in plain text", None, "save it as CSV UTF-8")])
    try:
        return data.decode("utf-8-sig"), ()
    except UnicodeDecodeError:
        fact = f"`{path.name}` is not UTF-8 text, and is read in the letters of western Windows"
        fix = "if names in it come out wrong save it again as CSV UTF-8"
        return data.decode("cp1252", "replace"), (remark(fact, None, fix),)


def _parted_by(text: str) -> str:
    """What stands most often between the cells of the first line, beyond what is in quotes."""
    first = _QUOTED.sub("", text.lstrip("\r\n").partition("\n")[0])
    if first.lower().startswith("sep=") and first[4:5] in _PARTED_BY:
        return first[4]
    return max(_PARTED_BY, key=first.count)


def with_points(text: str) -> str:
    """A text in which a comma between figures is a decimal point: `98,5 cm` is 98.5 cm."""
    return _COMMA.sub(r"\1.\2", text)
