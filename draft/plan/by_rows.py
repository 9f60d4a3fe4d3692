"""Values by rows: one for each option of a style, one for each size, or a value read between levels."""

from __future__ import annotations

from typing import Protocol

import numpy as np

from draft.base.arrays import Floats
from draft.base.notes import Note, Span, error, nearest
from draft.base.units import Kind
from draft.language import tree
from draft.plan.between_levels import read_between
from draft.plan.names import Names
from draft.plan.plan import Run, Trace, Value, broken, is_broken, needs_of
from draft.words.word import QUANTITIES, Kinds

ANY: Kinds = frozenset(Kind) - {Kind.CHOICE}
SIZE = "size"  # what `by` is followed by where each size of the chart has a row of its own


class Compiler(Protocol):
    """What rows ask of whoever compiles the expressions in them."""

    names: Names
    notes: list[Note]
    settings: dict[str, tuple[str, tuple[str, ...]]]

    def compile(self, expr: tree.Expr, piece: str | None, wanted: Kinds = ANY) -> Value:
        """The value of an expression inside `piece`, of one of the wanted kinds."""

    def alike(self, exprs: list[tree.Expr], piece: str | None, allowed: Kinds = QUANTITIES) -> list[Value]:
        """Values of one kind."""


class Rows:
    """Compiles what follows `by`."""

    def __init__(self, values: Compiler) -> None:
        self.values = values
        self.notes = values.notes

    def compile(self, by: tree.By, piece: str | None) -> Value:
        if by.subject.text in self.values.settings:
            return self._by_choice(by, piece)
        if by.subject.text == SIZE and not self.values.names.knows(by.subject, piece):
            return self._by_size(by, piece)
        if any(isinstance(row.key, tree.SizeName) for row in by.rows):
            self.notes.append(error("sizes are told apart by `size`", by.subject.span, "try `by size: ...`"))
            return broken(by.span)
        if any(isinstance(row.key, str) for row in by.rows):
            self._note_unknown_choice(by)
            return broken(by.span)
        return self._by_level(by, piece)

    def _note_unknown_choice(self, by: tree.By) -> None:
        subject, options = by.subject.text, list(dict.fromkeys(row.key for row in by.rows if isinstance(row.key, str)))
        fix = f"choices are declared under `style`, as in `{subject} {options[0]} of {', '.join(options)}`"
        hint = nearest(subject, self.values.settings) or (fix,)
        self.notes.append(error(f"`{subject}` is not a choice of the styles", by.subject.span, *hint))

    def _by_choice(self, by: tree.By, piece: str | None) -> Value:
        chosen, options = self.values.settings[by.subject.text]
        rows = {row.key: row for row in by.rows if isinstance(row.key, str)}
        self.notes += _row_notes(by, options)
        found = self.values.alike([row.value for row in rows.values()], piece, ANY)
        kept = dict(zip(rows, found, strict=True)).get(chosen)
        return broken(by.span) if kept is None or is_broken(tuple(found)) else kept

    def _by_size(self, by: tree.By, piece: str | None) -> Value:
        names = [row.key.name for row in by.rows if isinstance(row.key, tree.SizeName)]
        for row in by.rows:
            if not isinstance(row.key, tree.SizeName):
                fix = f'try `"{row.key if isinstance(row.key, str) else "M"}" {row.value.span.text}`'
                self.notes.append(error("a size is named in quotes here", row.span, fix))
        if len(names) < len(by.rows):
            return broken(by.span)
        for k, row in enumerate(by.rows):
            if names[k] in names[:k]:
                self.notes.append(error("this size is given twice", row.span, "take one of the two out"))
        values = self.values.alike([row.value for row in by.rows], piece)
        if is_broken(tuple(values)):
            return broken(by.span)
        return Value(by.span, values[0].kind, needs_of(*values), _by_names(by.span, names, [v.run for v in values]))

    def _by_level(self, by: tree.By, piece: str | None) -> Value:
        subject = self.values.compile(by.subject, piece, QUANTITIES)
        if subject.broken:
            return subject
        levels = [self.values.compile(_level(row), piece, frozenset({subject.kind})) for row in by.rows]
        values = self.values.alike([row.value for row in by.rows], piece)
        known = (subject, *levels, *values)
        if is_broken(known):
            return broken(by.span)
        runs = tuple(part.run for part in known)
        return Value(by.span, values[0].kind, needs_of(*known), _reading_between(by.span, runs, len(by.rows)))


def _level(row: tree.Row) -> tree.Expr:
    assert not isinstance(row.key, str | tree.SizeName)
    return row.key


def _by_names(span: Span, names: list[str | None], runs: list[Run]) -> Run:
    """Looks up each body's row by its name; the row of no name is for all others."""
    row = {name: k for k, name in enumerate(names)}

    def run(trace: Trace) -> Floats:
        chosen = np.array([row.get(name, row.get(None, -1)) for name in trace.names])
        trace.fail(span, "there is no row for this size, and none for `otherwise`", chosen < 0)
        values = np.stack([value(trace) for value in runs])
        return np.asarray(values[np.maximum(chosen, 0), np.arange(trace.count)])

    return run


def _row_notes(by: tree.By, options: tuple[str, ...]) -> list[Note]:
    notes = []
    said: set[str] = set()
    for row in by.rows:
        if not isinstance(row.key, str):
            notes.append(
                error("a choice has names, not levels or sizes", row.span, f"begin with one of {', '.join(options)}")
            )
        elif row.key not in options:
            fact = f"`{by.subject.text}` has no option `{row.key}`"
            notes.append(error(fact, row.span, *(nearest(row.key, options) or (f"choose from {', '.join(options)}",))))
        elif row.key in said:
            notes.append(error(f"`{row.key}` is given twice", row.span, "take one of the two out"))
        else:
            said.add(row.key)
    missing = [option for option in options if option not in said]
    if missing and not notes:
        names = ", ".join(f"`{m}`" for m in missing)
        notes.append(error(f"no value is given for {names}", by.span, f"add a row for `{missing[0]}`"))
    return notes


def _reading_between(span: Span, runs: tuple[Run, ...], rows: int) -> Run:
    def run(trace: Trace) -> Floats:
        subject, *rest = (part(trace) for part in runs)
        found, fits = read_between(subject, np.stack(rest[:rows], axis=-1), np.stack(rest[rows:], axis=-1))
        trace.fail(span, "the levels do not rise one above another", ~fits)
        return found

    return run
