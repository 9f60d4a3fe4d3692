"""Many bodies from one table: a column a measure, a row a body, read piece by piece so that any number fits in memory.

    name,bust_girth cm,waist_girth cm,hip_girth in,stature cm
    Ines,98,83,41 1/2,168

A fault in a row is that body's own: it is told in its place and stops nobody else. An empty cell was not measured.
A column `figure` has what is seen without a tape, as in `"sloping shoulders, bust D"`.
"""

from __future__ import annotations

import csv
import io
from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import islice
from pathlib import Path
from typing import BinaryIO

import numpy as np

from draft.base.arrays import Floats
from draft.base.csvtext import unguarded
from draft.base.naming import shortened
from draft.base.notes import MANY, Note, Problems, error
from draft.base.opening import open_file
from draft.base.record import dataclass
from draft.base.units import UNITS, read_amount
from draft.bodies.bodies import Bodies, outside_body_limits
from draft.bodies.measures import MEASURES, BodyMeasure, unknown_measure
from draft.bodies.own_measure import Known

CHUNK = 1000
"""Bodies at a time: enough for the arrays to be worth it, few enough for a small machine that does two such at once."""

LONGEST_CELL = 1000
"""Characters: a longer one is no name and no figure, but a quote that does not close."""

LONGEST_ROW = 1_000_000
"""Characters: a hundred measures and a name, written out long, take a hundredth of it."""

FIGURE = "figure"
"""The column with what is said of a figure in words, as in `sloping shoulders, bust D`."""

LINE = "name,bust_girth cm,waist_girth cm,hip_girth cm,stature cm"


@dataclass(frozen=True)
class Column:
    """One measure of the table, and what a number in it is multiplied by to be mm or rad."""

    measure: BodyMeasure
    factor: float


@dataclass(frozen=True)
class Chunk:
    """Bodies in the order of the table, their faults in words (empty where there is none), and how far it is read."""

    bodies: Bodies
    faults: list[str]
    read: int
    figures: tuple[str, ...] = ()
    """What is said of each one's figure in words; nothing where the table has no such column."""


def read_many(path: Path, chunk: int = CHUNK, known: Known = MEASURES) -> Iterator[Chunk]:
    """The bodies of a table, so many at a time.

    Raises `Problems` where the file cannot be read or its first line names no measures.
    """
    with open_file(path, "table of bodies") as file:
        try:
            yield from _read(_Lines(file, path), path, chunk, known)
        except UnicodeDecodeError:
            hint = "save it again as UTF-8 (in a spreadsheet: CSV UTF-8)"
            raise Problems([error(f"`{path}` is not UTF-8 text", None, hint)]) from None
        except csv.Error as reason:
            raise Problems([error(f"`{path}` cannot be read as a table: {reason}")]) from None


class _Lines:
    """The lines of a table, none of which, nor a row of several, is read further than a row can be long."""

    def __init__(self, file: BinaryIO, path: Path) -> None:
        self.file, self.path = file, path
        self.text = io.TextIOWrapper(file, encoding="utf-8-sig", newline="")
        self.number, self.long = 0, 0

    def __iter__(self) -> Iterator[str]:
        while line := self.text.readline(LONGEST_ROW + 1):
            self.number, self.long = self.number + 1, self.long + len(line)
            if self.long > LONGEST_ROW:
                fact = f"the row at line {self.number} of `{self.path}` goes on beyond {LONGEST_ROW} characters"
                raise Problems([error(fact, None, "give each body a line of its own, with its measures")])
            yield line

    def rows(self) -> Iterator[list[str]]:
        """The rows that they make, each begun anew."""
        for row in csv.reader(self):
            self.long = 0
            yield row


def _read(lines: _Lines, path: Path, chunk: int, known: Known) -> Iterator[Chunk]:
    before = csv.field_size_limit(LONGEST_CELL)
    try:
        rows = lines.rows()
        head = [cell.strip() for cell in next(rows, [])]
        told = next((k for k, cell in enumerate(head) if cell.lower() == FIGURE), len(head))
        named, columns = _columns(head[:told] + head[told + 1 :], path, known)
        width = len(head)
        count = 0
        while some := [row[: width + 1] for row in islice(rows, chunk)]:
            kept = [row for row in some if any(cell.strip() for cell in row)]
            figures: tuple[str, ...] = ()
            if told < width:
                figures = tuple("".join(row[told : told + 1]).strip() for row in kept)
                kept = [row[:told] + row[told + 1 :] for row in kept]
            yield replace(_some(kept, named, columns, count, lines.file.tell()), figures=figures)
            count += len(kept)
    finally:
        csv.field_size_limit(before)
        lines.text.detach()  # the file is closed by whoever has opened it


def _columns(head: Sequence[str], path: Path, known: Known) -> tuple[bool, list[Column]]:
    if not any(head):
        raise Problems([error(f"`{path.name}` is empty", None, f"begin it with a line such as `{LINE}`")])
    named = head[0].lower() == "name"
    columns: list[Column] = []
    notes: list[Note] = []
    for cell in head[1:] if named else head:
        if len(notes) >= MANY:
            break
        found = _column(cell, known)
        if isinstance(found, Note):
            notes.append(found)
        elif any(found.measure is other.measure for other in columns):
            notes.append(error(f"`{found.measure.name}` has two columns"))
        else:
            columns.append(found)
    if not columns and not notes:
        notes.append(error(f"`{path.name}` has no measures", None, f"begin it with a line such as `{LINE}`"))
    if notes:
        raise Problems(notes)
    return named, columns


def _column(cell: str, known: Known) -> Column | Note:
    name, _, unit = cell.replace("(", " ").replace(")", " ").strip().partition(" ")
    measure = known.get(name)
    if measure is None:
        return unknown_measure(name or cell, known=known)
    kind, factor = UNITS.get(unit.strip(), (None, 0.0))
    if kind is not measure.kind:
        example = measure.example.rpartition(" ")[2]
        return error(f"the column {shortened(cell)} does not say its unit", None, f"try `{name} {example}`")
    return Column(measure, factor)


def _some(rows: list[list[str]], named: bool, columns: list[Column], before: int, read: int) -> Chunk:
    first = 1 if named else 0
    width = first + len(columns)
    faults = ["" if len(row) <= width else "the row has more cells than the first line" for row in rows]
    padded = [row if len(row) >= width else row + [""] * (width - len(row)) for row in rows]
    names = tuple(
        (unguarded(row[0].strip()) if named else "") or f"body {before + k + 1}" for k, row in enumerate(padded)
    )
    values = {
        column.measure.name: _values([row[first + k].strip() for row in padded], column, faults)
        for k, column in enumerate(columns)
    }
    return Chunk(Bodies(names, values), faults, read)


def _values(cells: list[str], column: Column, faults: list[str]) -> Floats:
    """The figures of a column in mm or rad, those not measured not a number; what cannot be goes to `faults`."""
    try:
        with np.errstate(over="ignore"):  # what becomes infinite lies outside of every limit
            found = np.array(cells, dtype=np.float64) * column.factor
    except ValueError:
        found = np.array([_figure(cell, column, faults, k) for k, cell in enumerate(cells)], dtype=np.float64)
    measure = column.measure
    wrong = np.flatnonzero(~((found >= measure.low) & (found <= measure.high)))
    for k in wrong:
        value = float(found[k])
        if np.isfinite(value) or (cells[k] and not faults[k]):
            note = outside_body_limits(measure, value, "her") if np.isfinite(value) else None
            told = f"{note.message}; {note.hints[0]}" if note else f"`{measure.name}` is not a number"
            faults[k] = faults[k] or told.replace(" for her", "")
        found[k] = np.nan
    return found


def _figure(cell: str, column: Column, faults: list[str], k: int) -> float:
    if not cell:
        return np.nan
    try:
        return read_amount(cell) * column.factor
    except (ValueError, OverflowError):
        faults[k] = faults[k] or f"`{column.measure.name}` is not a number: {shortened(cell)}"
        return np.nan
