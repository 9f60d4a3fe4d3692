"""A size chart: comma-separated text for a spreadsheet, a row for each measure and a column for each size.

    measure,unit,S,M,L
    bust_girth,cm,86,94,103

All mistakes are found in one reading, each shown on its cell.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from pathlib import Path

import numpy as np

from draft.base.arrays import Floats
from draft.base.naming import shortened
from draft.base.notes import MANY, Note, Source, Span, caution, error, nearest, stop_if_errors
from draft.base.textfile import read_source
from draft.base.units import UNITS, Kind, in_words, read_quantity
from draft.bodies.bodies import Bodies, outside_body_limits
from draft.bodies.cells import Cell, read_rows
from draft.bodies.fit_names import unfit_name
from draft.bodies.measures import MEASURES, BodyMeasure, unknown_measure
from draft.bodies.own_measure import Known

ODD, ODD_SHARE = 8.0, 0.6
"""How far a figure may lie off the line between its neighbours: mm, or the share of a usual step if that is more.
Charts are graded in steps that change, as from 4 to 5 cm; a digit that slipped is off by most of a step."""

CellValue = float | Note


def read_chart(path: Path, known: Known = MEASURES) -> Bodies:
    """The bodies of a size chart, its rows of the measures `known`.

    Raises Problems with all its mistakes, or with why it cannot be read.
    """
    source = read_source(path, "size chart")
    rows = read_rows(source)
    stop_if_errors(_header_notes(source, rows))
    sizes = _without_empty_end(rows[0][2:])
    notes = _size_notes(sizes) + _row_name_notes(rows[1:], known)
    values: dict[str, list[CellValue]] = {}
    for row in rows[1:]:
        if row[0].text in known:
            values[row[0].text] = _read_row(known[row[0].text], row, sizes, notes)
    if not values and not notes:
        notes.append(error("this chart has no measures", rows[0][0].span, "add a row such as `bust_girth,cm,94`"))
    _stop(notes or _twin_notes(sizes, values))
    arrays = {name: np.array(row, dtype=np.float64) for name, row in values.items()}
    read = [(row, known[row[0].text], arrays[row[0].text]) for row in rows[1:]]
    odd = [note for row, measure, found in read for note in _odd_cells(row, measure, sizes, found)]
    return Bodies(tuple(size.text for size in sizes), arrays, tuple(odd))


def _stop(notes: list[Note]) -> None:
    notes = sorted(notes, key=lambda note: note.span.start if note.span else 0)
    if more := notes[MANY:]:
        notes[MANY:] = [error(f"there are {len(more)} more mistakes from here on", more[0].span)]
    stop_if_errors(notes)


def _header_notes(source: Source, rows: list[list[Cell]]) -> list[Note]:
    start = "begin the chart with `measure,unit,` and the names of the sizes"
    if not rows:
        return [error(f"`{source.name}` is empty", None, start)]
    first = rows[0][0]
    for separator, word in ((";", "semicolons"), ("\t", "tabs")):
        if len(rows[0]) == 1 and separator in first.text:
            hint = "save it with commas between the cells and points in the numbers (an English CSV)"
            return [error(f"the cells of this chart are parted by {word}, not commas", first.span, hint)]
    if [cell.text.lower() for cell in rows[0][:2]] != ["measure", "unit"]:
        return [error("a chart begins with the columns `measure` and `unit`", first.span, start)]
    if not _without_empty_end(rows[0][2:]):
        return [error("this chart names no size", rows[0][1].span, "add a column for each size")]
    return []


def _without_empty_end(cells: list[Cell]) -> list[Cell]:
    """Spreadsheets write empty cells after the last column in use."""
    used = [k for k, cell in enumerate(cells) if cell.text]
    return cells[: used[-1] + 1] if used else []


def _size_notes(sizes: list[Cell]) -> list[Note]:
    notes, seen = [], dict[str, Span]()
    for size in sizes:
        key = size.text.casefold()  # two sizes become two files, also where file names have no case
        if fault := unfit_name(size.text):
            notes.append(error(f"the size's name {fault}", size.span, "name each size, such as `S` or `42`"))
        elif key in seen:
            first = [(seen[key], "first here")]
            notes.append(error(f"size {shortened(size.text)} is there twice", size.span, related=first))
        seen.setdefault(key, size.span)
    return notes


def _row_name_notes(rows: list[list[Cell]], known: Known) -> list[Note]:
    notes, seen = [], dict[str, Span]()
    for cell in (row[0] for row in rows):
        if not cell.text:
            notes.append(error("this row names no measure", cell.span))
        elif cell.text not in known:
            notes.append(unknown_measure(cell.text, cell.span, known))
        elif cell.text in seen:
            first = [(seen[cell.text], "first here")]
            notes.append(error(f"`{cell.text}` has two rows", cell.span, related=first))
        seen.setdefault(cell.text, cell.span)
    return notes


def _read_row(measure: BodyMeasure, row: list[Cell], sizes: list[Cell], notes: list[Note]) -> list[CellValue]:
    """The row's figures in mm or rad; what is wrong with it goes to `notes`."""
    padded = row + [_after(row[-1])] * (2 + len(sizes) - len(row))
    unit, cells = padded[1], padded[2 : 2 + len(sizes)]
    notes += _extra_cells(row, sizes)
    if fault := _unit_note(measure, unit):
        notes.append(fault)
        return []
    values = [_read_cell(measure, c, unit.text, size.text) for c, size in zip(cells, sizes, strict=True)]
    notes += [value for value in values if isinstance(value, Note)]
    notes += _shrinking(measure, cells, sizes, values)
    return values


def _after(cell: Cell) -> Cell:
    return Cell("", Span(cell.span.source, cell.span.end, cell.span.end))


def _extra_cells(row: list[Cell], sizes: list[Cell]) -> list[Note]:
    extra = _without_empty_end(row[2 + len(sizes) :])
    if not extra:
        return []
    span = Span(extra[0].span.source, extra[0].span.start, extra[-1].span.end)
    return [error(f"this row has more cells than the chart has sizes ({len(sizes)})", span)]


def _unit_note(measure: BodyMeasure, cell: Cell) -> Note | None:
    fitting = [unit for unit, (kind, _) in UNITS.items() if kind is measure.kind]
    if cell.text in fitting:
        return None
    choice = "write `deg`" if measure.kind is Kind.ANGLE else "write `cm`, `mm` or `in`"
    if not cell.text:
        return error(f"`{measure.name}` has no unit", cell.span, choice)
    if cell.text in UNITS:
        fact = f"`{measure.name}` is {measure.kind.value}, which `{cell.text}` does not measure"
        return error(fact, cell.span, choice)
    hints = nearest(cell.text[:80], fitting) or (choice,)
    return error(f"{shortened(cell.text)} is not a unit", cell.span, *hints)


def _read_cell(measure: BodyMeasure, cell: Cell, unit: str, size: str) -> CellValue:
    if not cell.text:
        return error(f"`{measure.name}` has no figure for size {size}", cell.span)
    value = _figure(cell.text, unit)
    if value is None:
        repaired = (cell.text.replace(",", "."), cell.text.removesuffix(unit).strip())
        hints = [f"try `{text}`" for text in repaired if _figure(text, unit) is not None]
        return error(f"{shortened(cell.text)} is not a number", cell.span, *hints[:1])
    return outside_body_limits(measure, value, f"size {size}", cell.span) or value


def _figure(text: str, unit: str) -> float | None:
    try:
        return read_quantity(f"{text} {unit}").value
    except (ValueError, OverflowError):
        return None


def _shrinking(measure: BodyMeasure, cells: list[Cell], sizes: list[Cell], values: Sequence[CellValue]) -> list[Note]:
    """Sizes grow: a length that falls from one size to the next is a slip. (A slope may go either way.)"""
    notes = []
    for k, (before, after) in enumerate(pairwise(values)):
        if isinstance(before, Note) or isinstance(after, Note) or after >= before:
            continue
        if measure.kind is Kind.LENGTH:
            words = f"{in_words(before, measure.kind)} to {in_words(after, measure.kind)}"
            fact = f"`{measure.name}` falls from {words} between {sizes[k].text} and {sizes[k + 1].text}"
            notes.append(error(fact, cells[k + 1].span, related=[(cells[k].span, "the size before")]))
    return notes


def _odd_cells(row: list[Cell], measure: BodyMeasure, sizes: list[Cell], values: Floats) -> list[Note]:
    """A figure far off the line between its neighbours: sizes grow evenly, and a slip of one digit does not."""
    if len(values) < 4 or measure.kind is not Kind.LENGTH:
        return []
    off = values[1:-1] - (values[:-2] + values[2:]) / 2
    usual = _middle(np.abs(np.diff(values)))
    worst = int(np.argmax(np.abs(off)))
    if abs(off[worst]) <= max(ODD, ODD_SHARE * usual):
        return []
    name, cell, size = row[0].text, row[3 + worst], sizes[1 + worst].text
    between = in_words(float(values[1 + worst] - off[worst]), Kind.LENGTH)
    fact = f"`{name}` of size {size} is {in_words(float(values[1 + worst]), Kind.LENGTH)}, unlike its neighbours"
    return [caution(fact, cell.span, f"look at it again: between them it would be {between}")]


def _middle(values: Floats) -> float:
    """The median: numpy's own reads another part of numpy for a warning that is never given."""
    half = len(values) // 2
    middle = np.sort(values)[half - 1 + len(values) % 2 : half + 1]
    return float(np.mean(middle))


def _twin_notes(sizes: list[Cell], table: dict[str, list[CellValue]]) -> list[Note]:
    """A size with all the figures of the size before is a column that was copied and not filled in."""
    notes = []
    for k, (before, after) in enumerate(pairwise(sizes)):
        if all(values[k] == values[k + 1] for values in table.values()):
            fact = f"size {after.text} has the same figures as size {before.text}"
            notes.append(error(fact, after.span, related=[(before.span, "the size before")]))
    return notes
