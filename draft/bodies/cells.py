"""Comma-separated text as rows of cells that know where they stand.

Python's own reader gives no offsets, and every mistake in a chart is shown on its cell. The format is that of
RFC 4180, with blanks around a cell allowed.
"""

from __future__ import annotations

import re

from draft.base.csvtext import unguarded
from draft.base.notes import Note, Problems, Source, Span, error
from draft.base.record import dataclass

_CELL = re.compile(r'(?:[ \t]*"(?P<quoted>[^"]*(?:""[^"]*)*)"[ \t]*|(?P<plain>(?![ \t]*")[^,\n]*))(?P<end>,|\n|\Z)')


@dataclass(frozen=True)
class Cell:
    """What a cell says, without quotes and outer blanks, and where."""

    text: str
    span: Span


def read_rows(source: Source) -> list[list[Cell]]:
    """All rows that are not blank. Raises Problems on a quoted cell that does not end where it should."""
    rows: list[list[Cell]] = [[]]
    position, end = 0, ","
    while end:
        found = _CELL.match(source.text, position)
        if not found:
            raise Problems([_bad_quote(source, position)])
        rows[-1].append(_cell(source, found))
        position, end = found.end(), found["end"]
        if end == "\n":
            rows.append([])
    return [row for row in rows if any(cell.text for cell in row)]


def _cell(source: Source, found: re.Match[str]) -> Cell:
    start, end = found.start(), found.start("end")
    raw = source.text[start:end]
    start += len(raw) - len(raw.lstrip())
    end = max(start, end - (len(raw) - len(raw.rstrip())))
    text = found["plain"] if found["quoted"] is None else found["quoted"].replace('""', '"')
    return Cell(unguarded(text.strip()), Span(source, start, end))


def _bad_quote(source: Source, position: int) -> Note:
    line_end = source.text.find("\n", position)
    span = Span(source, position, line_end if line_end >= 0 else len(source.text))
    fact = 'this cell opens with `"` and does not close with one'
    return error(fact, span, 'end it with `"`, or leave both out')
