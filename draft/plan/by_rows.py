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
from draft.plan.scopes import Scopes
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
        if self._choice(by, piece) in self.values.settings:
            return self._by_choice(by, piece)
        if by.subject.text == SIZE and not self.values.names.knows(by.subject, piece):
            return self._by_size(by, piece)
        if any(isinstance(row.key, tree.SizeName) and row.key.name for row in by.rows):
            self.notes.append(error("sizes are told apart by `size`", by.subject.span, "try `by size: ...`"))
            return broken(by.span)
        if any(isinstance(row.key, tree.Options) for row in by.rows):
            self._note_unknown_choice(by)
            return broken(by.span)
        if any(isinstance(row.key, tree.SizeName) for row in by.rows):
            fact = "`otherwise` is for sizes and for choices, and here stand levels"
            self.notes.append(error(fact, by.span, "take it out: beyond the last level the value stays as it is there"))
            return broken(by.span)
        return self._by_level(by, piece)

    def _choice(self, by: tree.By, piece: str | None) -> str:
        """What the subject is called in the pattern, if it is a choice: of its styles, or of a piece's template."""
        if f"{piece}.{by.subject.text}" in self.values.settings:
            return f"{piece}.{by.subject.text}"
        return self.values.names.scopes.called(by.subject, by.subject.text) or ""

    def _note_unknown_choice(self, by: tree.By) -> None:
        subject, options = by.subject.text, list(dict.fromkeys(_all_options(by)))
        fix = f"choices are declared under `style`, as in `{subject} {options[0]} of {', '.join(options)}`"
        hint = nearest(subject, self.values.settings) or (fix,)
        self.notes.append(error(f"`{subject}` is not a choice of the styles", by.subject.span, *hint))

    def _by_choice(self, by: tree.By, piece: str | None) -> Value:
        chosen, options = self.values.settings[self._choice(by, piece)]
        self.notes += _row_notes(by, options, self.values.names.scopes)
        found = self.values.alike([row.value for row in by.rows], piece, ANY)
        mine = [value for row, value in zip(by.rows, found, strict=True) if chosen in _options(row)]
        mine += [value for row, value in zip(by.rows, found, strict=True) if isinstance(row.key, tree.SizeName)]
        return broken(by.span) if not mine or is_broken(tuple(found)) else mine[0]

    def _by_size(self, by: tree.By, piece: str | None) -> Value:
        names = [row.key.name for row in by.rows if isinstance(row.key, tree.SizeName)]
        for row in by.rows:
            if not isinstance(row.key, tree.SizeName):
                fix = f'try `"{(*_options(row), "M")[0]}" {row.value.span.text}`'
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
    assert not isinstance(row.key, tree.Options | tree.SizeName)
    return row.key


def _options(row: tree.Row) -> tuple[str, ...]:
    return row.key.names if isinstance(row.key, tree.Options) else ()


def _all_options(by: tree.By) -> list[str]:
    return [name for row in by.rows for name in _options(row)]


def _by_names(span: Span, names: list[str | None], runs: list[Run]) -> Run:
    """Looks up each body's row by its name; the row of no name is for all others."""
    row = {name: k for k, name in enumerate(names)}

    def run(trace: Trace) -> Floats:
        chosen = np.array([row.get(name, row.get(None, -1)) for name in trace.names])
        trace.fail(span, "there is no row for this size, and none for `otherwise`", chosen < 0)
        values = np.stack([value(trace) for value in runs])
        return np.asarray(values[np.maximum(chosen, 0), np.arange(trace.count)])

    return run


def _row_notes(by: tree.By, options: tuple[str, ...], scopes: Scopes) -> list[Note]:
    notes = []
    said: set[str] = set()
    for row in by.rows:
        if isinstance(row.key, tree.Options):
            for name, span in zip(row.key.names, row.key.name_spans, strict=True):
                place = row.span if row.key.names[1:] == () else span
                if not scopes.had(by.subject.text, name, place) or name in options:
                    notes += _option_notes(by.subject.text, name, place, options, said)
                said.add(name)
        elif not isinstance(row.key, tree.SizeName) or row.key.name:
            fact = "a choice has names, not levels or sizes"
            notes.append(error(fact, row.span, f"begin with one of {', '.join(options)}"))
    notes += _rest_notes(by, [option for option in options if option not in said]) if not notes else []
    return notes


def _option_notes(style: str, name: str, span: Span, options: tuple[str, ...], said: set[str]) -> list[Note]:
    if name not in options:
        hints = nearest(name, options) or (f"choose from {', '.join(options)}",)
        return [error(f"`{style}` has no option `{name}`", span, *hints)]
    return [error(f"`{name}` is given twice", span, "take one of the two out")] if name in said else []


def _rest_notes(by: tree.By, missing: list[str]) -> list[Note]:
    """Whether the options without a row have `otherwise`, once and last."""
    rest = [row for row in by.rows if isinstance(row.key, tree.SizeName)]
    if not rest and missing:
        names = ", ".join(f"`{m}`" for m in missing)
        return [error(f"no value is given for {names}", by.span, f"add a row for `{missing[0]}`")]
    if rest and not missing:
        return [error("every option has a value already", rest[0].span, "take `otherwise` out")]
    if rest[1:]:
        return [error("`otherwise` is given twice", rest[1].span, "take one of the two out")]
    return []


def _reading_between(span: Span, runs: tuple[Run, ...], rows: int) -> Run:
    def run(trace: Trace) -> Floats:
        subject, *rest = (part(trace) for part in runs)
        found, fits = read_between(subject, np.stack(rest[:rows], axis=-1), np.stack(rest[rows:], axis=-1))
        trace.fail(span, "the levels do not rise one above another", ~fits)
        return found

    return run
