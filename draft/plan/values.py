"""Expressions: names found, kinds checked, and made into something that runs over all bodies at once."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import numpy as np

from draft.language import tree
from draft.notes import Note, Span, error, nearest
from draft.plan.levels import read_between
from draft.plan.names import SEWN, Names
from draft.plan.plan import Run, Step, Trace, Value
from draft.units import Kind
from draft.words import TWINS, WORDS
from draft.words.word import QUANTITIES, Floats, Kinds, Word

SEWN_LENGTH = "sewn_length_of"  # the one word that asks about an edge more than its line
SIZE = "size"  # what `by` is followed by where each size of the chart has a row of its own

ANY: Kinds = frozenset(Kind) - {Kind.CHOICE}


class Values:
    """Compiles expressions; `step` gives the step of a full name, `settings` what each choice is set to."""

    def __init__(self, names: Names, settings: dict[str, tuple[str, tuple[str, ...]]]) -> None:
        self.names = names
        self.notes: list[Note] = names.notes
        self.settings = settings
        self.steps: dict[str, Step] = {}
        self._active: list[str] = []

    def step(self, full: str, span: Span) -> Step | None:
        """The step of a declared name, with those that it needs before it. Notes a ring of definitions."""
        if full in self.steps:
            return self.steps[full]
        if full in self._active:
            self._note_ring(full, span)
            return None
        self._active.append(full)
        made = self.names.entries[full].make()
        self._active.pop()
        if made:
            self.steps[full] = made
        return made

    def _note_ring(self, full: str, span: Span) -> None:
        ring = [*self._active[self._active.index(full) :], full]
        fact = "these lean on one another in a ring: " + " on ".join(f"`{name}`" for name in ring)
        note = error(fact, self.names.entries[full].span)
        if not any(n.message.startswith("these lean") and n.span == note.span for n in self.notes):
            self.notes.append(note)

    def compile(self, expr: tree.Expr, piece: str | None, wanted: Kinds = ANY) -> Value | None:
        """The value of an expression inside `piece`, of one of the wanted kinds, or None with notes."""
        value = self._compile(expr, piece)
        return self._fitting(value, expr, wanted, piece) if value else None

    def _compile(self, expr: tree.Expr, piece: str | None) -> Value | None:
        if isinstance(expr, tree.Literal):
            return Value(expr.span, expr.kind, frozenset(), _constant(expr.value))
        if isinstance(expr, tree.Ref):
            return self._ref(expr, piece)
        if isinstance(expr, tree.By):
            return self._by(expr, piece)
        return self._call(expr, piece)

    def _ref(self, ref: tree.Ref, piece: str | None) -> Value | None:
        full = self.names.find(ref, piece)
        step = self.step(full, ref.span) if full else None
        if not full or not step:
            return None
        return Value(ref.span, step.kind, frozenset({full}), lambda trace: trace.values[full])

    # ---- words

    def _sewn_length(self, call: tree.Call, piece: str | None) -> Value | None:
        ref = call.args[0]
        assert isinstance(ref, tree.Ref)
        if not self.compile(ref, piece, frozenset({Kind.EDGE})):
            return None
        full = self.names.find(ref, piece)
        step = self.step(f"{full}{SEWN}", ref.span)
        if not step:
            return None
        name = step.name
        return Value(call.span, Kind.LENGTH, frozenset({name}), lambda trace: trace.values[name])

    def _call(self, call: tree.Call, piece: str | None) -> Value | None:
        if call.word == SEWN_LENGTH:
            return self._sewn_length(call, piece)
        args = [self._compile(arg, piece) for arg in call.args]
        if any(arg is None for arg in args):
            return None
        args = _typed_zero(args, call)
        word = _twin(WORDS[call.word], args)
        kept: list[Value] = []
        for written, arg in zip(call.args, args, strict=True):
            assert arg is not None
            fitting = self._fitting(arg, written, word.accepted(tuple(a.kind for a in kept)), piece)
            if not fitting:
                return None
            kept.append(fitting)
        needs = frozenset[str]().union(*(arg.needs for arg in kept))
        kind = word.kind(tuple(arg.kind for arg in kept))
        return Value(call.span, kind, needs, _running(word, call.span, tuple(arg.run for arg in kept)))

    def _fitting(self, value: Value, expr: tree.Expr, wanted: Kinds, piece: str | None) -> Value | None:
        if value.kind in wanted:
            return value
        if isinstance(expr, tree.Literal) and expr.value == 0 and expr.kind is Kind.NUMBER and wanted & QUANTITIES:
            return Value(
                value.span, next(iter(sorted(wanted & QUANTITIES, key=lambda k: k.value))), value.needs, value.run
            )
        self.notes.append(
            error(_misfit(value, expr, wanted), expr.span, *self._misfit_hints(value, expr, wanted, piece))
        )
        return None

    def _misfit_hints(self, value: Value, expr: tree.Expr, wanted: Kinds, piece: str | None) -> tuple[str, ...]:
        if isinstance(expr, tree.Literal) and value.kind is Kind.NUMBER and Kind.LENGTH in wanted:
            return (f"did you mean `{expr.span.text} cm`?",)
        if isinstance(expr, tree.Literal) and value.kind is Kind.NUMBER and Kind.ANGLE in wanted:
            return (f"did you mean `{expr.span.text} deg`?",)
        if value.kind is Kind.CHOICE and isinstance(expr, tree.Ref):
            options = self.settings[expr.text][1]
            return (f"give a value for each: `by {expr.text}: " + ", ".join(f"{o} ..." for o in options) + "`",)
        if value.kind is Kind.EDGE and Kind.LENGTH in wanted:
            return (f"try `length of {expr.span.text}`",)
        if value.kind is Kind.ANGLE and Kind.DIRECTION in wanted:
            return (f"try `{expr.span.text} below across`",)
        return self._namesake(expr, wanted, piece)

    def _namesake(self, expr: tree.Expr, wanted: Kinds, piece: str | None) -> tuple[str, ...]:
        """A name of the right kind whose first word is the same: `sleeve_length` for `sleeve_angle`."""
        if not isinstance(expr, tree.Ref):
            return ()
        stem = expr.parts[-1].split("_")[0]
        for full, step in self.steps.items():
            near = full.split(".")[-1]
            seen = "." not in full or (piece is not None and full.startswith(f"{piece}."))
            if seen and step.kind in wanted and near.split("_")[0] == stem:
                return (f"try `{near}`",)
        return ()

    # ---- by

    def _by(self, by: tree.By, piece: str | None) -> Value | None:
        if by.subject.text in self.settings:
            return self._by_choice(by, piece)
        if by.subject.text == SIZE and all(isinstance(row.key, tree.SizeName) for row in by.rows):
            return self._by_size(by, piece)
        if any(isinstance(row.key, tree.SizeName) for row in by.rows):
            self.notes.append(error("sizes are told apart by `size`", by.subject.span, "try `by size: ...`"))
            return None
        if any(isinstance(row.key, str) for row in by.rows):
            self._note_unknown_choice(by, piece)
            return None
        return self._by_level(by, piece)

    def _note_unknown_choice(self, by: tree.By, piece: str | None) -> None:
        full = self.names.find(by.subject, piece)
        if full:
            fact = f"`{by.subject.text}` is not a choice of the styles"
            fix = "for a value between levels, put `at` before each level"
            self.notes.append(error(fact, by.subject.span, fix))

    def _by_choice(self, by: tree.By, piece: str | None) -> Value | None:
        chosen, options = self.settings[by.subject.text]
        rows = {row.key: row for row in by.rows if isinstance(row.key, str)}
        self.notes += _row_notes(by, options)
        compiled = {key: self._compile(row.value, piece) for key, row in rows.items()}
        kinds = [(rows[key].value, value) for key, value in compiled.items() if value]
        for written, value in kinds[1:]:
            if not self._fitting(value, written, frozenset({kinds[0][1].kind}), piece):
                return None
        return compiled.get(chosen)

    def _by_size(self, by: tree.By, piece: str | None) -> Value | None:
        names = [row.key.name for row in by.rows if isinstance(row.key, tree.SizeName)]
        for k, row in enumerate(by.rows):
            if names[k] in names[:k]:
                self.notes.append(error("this size is given twice", row.span))
        first = self.compile(by.rows[0].value, piece, QUANTITIES)
        if not first:
            return None
        rest = [self.compile(row.value, piece, frozenset({first.kind})) for row in by.rows[1:]]
        if any(value is None for value in rest):
            return None
        values = [first, *(value for value in rest if value)]
        needs = frozenset[str]().union(*(value.needs for value in values))
        return Value(by.span, first.kind, needs, _by_names(by.span, names, [value.run for value in values]))

    def _by_level(self, by: tree.By, piece: str | None) -> Value | None:
        subject = self._compile(by.subject, piece)
        subject = self._fitting(subject, by.subject, QUANTITIES, piece) if subject else None
        if not subject:
            return None
        levels = [self.compile(_level(row), piece, frozenset({subject.kind})) for row in by.rows]
        first = self.compile(by.rows[0].value, piece, QUANTITIES)
        if not first:
            return None
        rest = [self.compile(row.value, piece, frozenset({first.kind})) for row in by.rows[1:]]
        parts = [subject, *levels, first, *rest]
        if any(part is None for part in parts):
            return None
        known = [part for part in parts if part]
        needs = frozenset[str]().union(*(part.needs for part in known))
        runs = tuple(part.run for part in known)
        return Value(by.span, first.kind, needs, _reading_between(by.span, runs, len(by.rows)))


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
            fact = f"`{by.subject.text}` has no `{row.key}`"
            notes.append(error(fact, row.span, *(nearest(row.key, options) or (f"choose from {', '.join(options)}",))))
        elif row.key in said:
            notes.append(error(f"`{row.key}` is given twice", row.span))
        else:
            said.add(row.key)
    missing = [option for option in options if option not in said]
    if missing and not notes:
        names = ", ".join(f"`{m}`" for m in missing)
        notes.append(error(f"no value is given for {names}", by.span, f"add `, {missing[0]} ...`"))
    return notes


def _typed_zero(args: list[Value | None], call: tree.Call) -> list[Value | None]:
    """The arguments, a bare 0 before a quantity being nothing of that quantity: `0 - neck_drop`."""
    if not args:
        return args
    first, *rest = args
    written = call.args[0]
    bare = isinstance(written, tree.Literal) and written.kind is Kind.NUMBER and written.value == 0
    if bare and first and rest and rest[0] and call.word in ("plus", "minus", "larger_of", "smaller_of"):
        return [replace(first, kind=rest[0].kind), *rest]
    return args


def _twin(word: Word, args: list[Value | None]) -> Word:
    """The word itself, or its twin for another kind of argument where that one fits."""
    other = WORDS.get(TWINS.get(word.name, ""))
    return other if other and _fits(other, args) and not _fits(word, args) else word


def _fits(word: Word, args: list[Value | None]) -> bool:
    kinds = tuple(arg.kind for arg in args if arg)
    return all(kind in word.accepted(kinds[:k]) for k, kind in enumerate(kinds))


def _misfit(value: Value, expr: tree.Expr, wanted: Kinds) -> str:
    named = " or ".join(kind.value for kind in Kind if kind in wanted)
    if value.kind is Kind.NUMBER and isinstance(expr, tree.Literal):
        return f"`{expr.span.text}` has no unit, but {named} is needed here"
    shown = expr.span.text if "\n" not in expr.span.text else "this"
    return f"`{shown}` is {value.kind.value}, but {named} is needed here"


def _constant(value: float) -> Run:
    return lambda trace: np.full(trace.count, value)


def _running(word: Word, span: Span, runs: tuple[Run, ...]) -> Run:
    call: Callable[..., object] = word.run

    def run(trace: Trace) -> Floats:
        found = call(*(arg(trace) for arg in runs))
        if isinstance(found, tuple):
            found, fits = found
            trace.fail(span, word.fails, ~fits)
        return found  # type: ignore[return-value]

    return run


def _reading_between(span: Span, runs: tuple[Run, ...], rows: int) -> Run:
    def run(trace: Trace) -> Floats:
        subject, *rest = (part(trace) for part in runs)
        found, fits = read_between(subject, np.stack(rest[:rows], axis=-1), np.stack(rest[rows:], axis=-1))
        trace.fail(span, "the levels do not rise one above another", ~fits)
        return found

    return run
