"""Expressions: names found, kinds checked, and made into something that runs over all bodies at once."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from draft.base.arrays import Bools, Floats
from draft.base.notes import Note, Span, caution, either, error
from draft.base.units import Kind
from draft.language import tree
from draft.plan import from_ends
from draft.plan.by_rows import ANY, Rows
from draft.plan.cloths.several_cloths import Cloths
from draft.plan.names import FLAT, SEWN, Names
from draft.plan.plan import Run, Step, Trace, Value, broken, literal, needs_of
from draft.words import TWINS, WORDS
from draft.words.word import QUANTITIES, Kinds, Word

DEEPEST = 30  # names that lean on one another in one go; each takes a dozen calls of Python's thousand


INPUTS = ("length", "angle", "number", "direction")


class _TooDeepError(Exception):
    """A name is asked for too deep down: it is to be made first."""

    def __init__(self, full: str, span: Span) -> None:
        super().__init__(full)
        self.full = full
        self.span = span


class Values:
    """Compiles expressions; `step` gives the step of a full name, `settings` what each choice is set to."""

    def __init__(self, names: Names, settings: dict[str, tuple[str, tuple[str, ...]]]) -> None:
        self.names = names
        self.notes: list[Note] = names.notes
        self.settings = settings
        self.steps: dict[str, Step] = {}
        self.cloths = Cloths()
        self.rows = Rows(self)
        self.edges = names.edges
        self._active: list[str] = []

    def step(self, full: str, span: Span) -> Step:
        """The step of a declared name, with those that it needs before it. Notes a ring of definitions."""
        if full in self.steps:
            return self.steps[full]
        return self._one_step(full, span) if self._active else self._settled(full)

    def _one_step(self, full: str, span: Span) -> Step:
        if full in self._active:
            self._note_ring(full, span)
            return Step.of(span, full, broken(span))
        if len(self._active) == DEEPEST:
            raise _TooDeepError(full, self.names.entries[full].span)
        self._active.append(full)
        try:
            made = self.names.entries[full].make()
        finally:
            self._active.pop()
        self.steps[full] = made
        return made

    def _settled(self, full: str) -> Step:
        """The step of a name that nothing asks for yet, however long a line of names leaning on one another is."""
        waiting = [full]
        while waiting:
            try:
                if waiting[-1] not in self.steps:
                    self._one_step(waiting[-1], self.names.entries[waiting[-1]].span)
                waiting.pop()
            except _TooDeepError as deep:
                if deep.full in waiting:
                    fact, span = f"`{deep.full}` leans on itself, through more than {DEEPEST} others", deep.span
                    self.notes.append(error(fact, span))
                    self.steps[deep.full] = Step.of(span, deep.full, broken(span))
                else:
                    waiting.append(deep.full)
        return self.steps[full]

    def all_steps(self) -> None:
        """Make the steps of all names but those that were only carried over from another draft."""
        for name in [name for name, entry in self.names.entries.items() if not entry.lazy]:
            self.step(name, self.names.entries[name].span)

    def _note_ring(self, full: str, span: Span) -> None:
        ring = [*self._active[self._active.index(full) :], full]
        fact = "these lean on one another in a ring: " + " on ".join(f"`{name}`" for name in ring)
        fact = f"`{full}` leans on itself" if len(ring) == 2 else fact
        note = error(fact, self.names.entries[full].span, "one of them must come from something else")
        if not any(n.message == note.message and n.span == note.span for n in self.notes):
            self.notes.append(note)

    def compile(self, expr: tree.Expr, piece: str | None, wanted: Kinds = ANY) -> Value:
        """The value of an expression inside `piece`, of one of the wanted kinds; a broken one, with notes."""
        return self.fitting(self.unchecked(expr, piece), expr, wanted, piece)

    def compile_any(self, expr: tree.Expr | None, piece: str | None, wanted: Kinds = ANY) -> Value | None:
        """The same of an expression that need not be there."""
        return self.compile(expr, piece, wanted) if expr else None

    def unchecked(self, expr: tree.Expr, piece: str | None) -> Value:
        """The value of an expression, of whatever kind."""
        if isinstance(expr, tree.Literal):
            return literal(expr.span, expr.kind, expr.value)
        if isinstance(expr, tree.Ref):
            return self._ref(expr, piece)
        if isinstance(expr, tree.By):
            return self.rows.compile(expr, piece)
        if isinstance(expr, tree.SewnLength):
            return self._sewn_length(expr, piece)
        return self._call(expr, piece)

    def _ref(self, ref: tree.Ref, piece: str | None) -> Value:
        full = self.names.find(ref, piece)
        if not full:
            return broken(ref.span)
        found = self.found(ref.span, full)
        if full in self.names.own and ref.span.source in self.names.scopes.open and not found.broken:
            self._caution_leaning(ref, found)
        return found

    def _caution_leaning(self, ref: tree.Ref, found: Value) -> None:
        """A template that names what only whoever uses its file may have."""
        fact = f"this template leans on `{ref.text}` of the pattern that uses it, and does not ask for it"
        kind = found.kind.value.split()[-1]
        ask = f"under `input` of the template write `{ref.text}  {kind}`" if kind in INPUTS else "make it an input"
        fix = f"{ask}, and under each of its pieces `{ref.text} = {ref.text}`"
        if not any(note.message == fact and note.span and note.span.source is ref.span.source for note in self.notes):
            self.notes.append(caution(fact, ref.span, fix))

    def found(self, span: Span, full: str) -> Value:
        """What the step of a declared name finds."""
        step = self.step(full, span)
        return Value(span, step.kind, frozenset({full}), lambda trace: trace.values[full], step.broken)

    # ---- words

    def _sewn_length(self, asked: tree.SewnLength, piece: str | None) -> Value:
        if self.compile(asked.edge, piece, frozenset({Kind.EDGE})).broken:
            return broken(asked.span)
        found = self.found(asked.edge.span, f"{self.names.find(asked.edge, piece)}{FLAT if asked.flat else SEWN}")
        return replace(found, span=asked.span)

    def _call(self, call: tree.Call, piece: str | None) -> Value:
        args = [self.unchecked(arg, piece) for arg in call.args]
        if any(arg.broken for arg in args):
            return broken(call.span)
        word = _twin(WORDS[call.word], call, args)
        kept: list[Value] = []
        for written, arg in zip(call.args, self._led(word, call, args, piece), strict=True):
            fitting = self.fitting(arg, written, word.accepted(tuple(a.kind for a in kept)), piece)
            if fitting.broken:
                return fitting
            kept.append(fitting)
        if WORDS[call.word].from_end and (note := from_ends.check(self.names, self.edges, call, piece)):
            self.notes.append(note)
            return broken(call.span)
        kind = word.kind(tuple(arg.kind for arg in kept))
        return Value(call.span, kind, needs_of(*kept), _running(word, call.span, tuple(arg.run for arg in kept)))

    def _led(self, word: Word, call: tree.Call, args: list[Value], piece: str | None) -> list[Value]:
        """The arguments, a bare number before a quantity that it is added to or compared with brought to its kind."""
        if len(args) != 2 or not _is_bare(call.args[0]):
            return args
        alike = word.accepted((Kind.NUMBER,)) == frozenset({Kind.NUMBER}) and args[1].kind in word.accepted(())
        if not alike or args[1].kind is Kind.NUMBER:
            return args
        return [self.fitting(args[0], call.args[0], frozenset({args[1].kind}), piece), args[1]]

    def alike(self, exprs: list[tree.Expr], piece: str | None, allowed: Kinds = QUANTITIES) -> list[Value]:
        """Values of one kind, that of the first which is no bare number."""
        made = [self.unchecked(expr, piece) for expr in exprs]
        said = [v.kind for v, expr in zip(made, exprs, strict=True) if not v.broken and not _is_bare(expr)]
        kind = said[0] if said else Kind.NUMBER
        wanted = frozenset({kind}) if kind in allowed else allowed
        return [self.fitting(value, expr, wanted, piece) for value, expr in zip(made, exprs, strict=True)]

    def fitting(self, value: Value, expr: tree.Expr, wanted: Kinds, piece: str | None) -> Value:
        """The value if it is of one of the wanted kinds, as a broken one is; a bare 0 is of any."""
        if value.broken or value.kind in wanted:
            return value
        if isinstance(expr, tree.Literal) and expr.value == 0 and expr.kind is Kind.NUMBER and wanted & QUANTITIES:
            return replace(value, kind=min(wanted & QUANTITIES, key=lambda kind: kind.value))
        self.notes.append(
            error(_misfit(value, expr, wanted), expr.span, *self._misfit_hints(value, expr, wanted, piece))
        )
        return broken(expr.span)

    def _misfit_hints(self, value: Value, expr: tree.Expr, wanted: Kinds, piece: str | None) -> tuple[str, ...]:
        if _is_bare(expr) and Kind.LENGTH in wanted:
            return (f"did you mean `{expr.span.text} cm`?",)
        if _is_bare(expr) and Kind.ANGLE in wanted:
            return (f"did you mean `{expr.span.text} deg`?",)
        if value.kind is Kind.CHOICE and isinstance(expr, tree.Ref):
            own, called = f"{piece}.{expr.text}", self.names.scopes.called(expr, expr.text) or ""
            options = (self.settings.get(own) or self.settings[called])[1]
            return (f"give a value for each: `by {expr.text}: " + ", ".join(f"{o} ..." for o in options) + "`",)
        if value.kind is Kind.EDGE and Kind.LENGTH in wanted:
            return (f"try `length of {expr.span.text}`",)
        if value.kind is Kind.ANGLE and Kind.DIRECTION in wanted:
            return (f"try `{expr.span.text} below across`",)
        place = value.kind is Kind.POINT and wanted <= QUANTITIES  # no figure is meant by it, whatever its name
        return () if place else self._namesake(expr, wanted, piece)

    def _namesake(self, expr: tree.Expr, wanted: Kinds, piece: str | None) -> tuple[str, ...]:
        """A name of the right kind whose first word is the same: `sleeve_length` for `sleeve_angle`."""
        if not isinstance(expr, tree.Ref):
            return ()
        stem = expr.parts[-1].split("_")[0]
        for full, step in self.steps.items():
            near = full.split(".")[-1]
            seen = "." not in full or (piece is not None and full.startswith(f"{piece}."))
            if seen and not step.broken and step.kind in wanted and near.split("_")[0] == stem:
                return (f"try `{near}`",)
        return ()


def _is_bare(expr: tree.Expr) -> bool:
    """Whether an expression is a number without a unit, which takes the kind of what it is set beside."""
    return isinstance(expr, tree.Literal) and expr.kind is Kind.NUMBER and not expr.span.text.endswith("%")


def _twin(word: Word, call: tree.Call, args: list[Value]) -> Word:
    """The word itself, or its twin for another kind of argument where that one fits; a share is said in %."""
    other = WORDS.get(TWINS.get(word.name, ""))
    if any(_is_bare(arg) for arg in call.args):
        return word
    return other if other and _fits(other, args) and not _fits(word, args) else word


def _fits(word: Word, args: list[Value]) -> bool:
    kinds = tuple(arg.kind for arg in args)
    return all(kind in word.accepted(kinds[:k]) for k, kind in enumerate(kinds))


def _misfit(value: Value, expr: tree.Expr, wanted: Kinds) -> str:
    named = either([kind.value for kind in Kind if kind in wanted])
    if _is_bare(expr):
        return f"`{expr.span.text}` has no unit, but {named} is needed here"
    shown = expr.span.text if "\n" not in expr.span.text else "this"
    return f"`{shown}` is {value.kind.value}, but {named} is needed here"


def _running(word: Word, span: Span, runs: tuple[Run, ...]) -> Run:
    call: Callable[..., object] = word.run

    def run(trace: Trace) -> Floats:
        args = [arg(trace) for arg in runs]
        found = call(*args)
        if isinstance(found, tuple):
            found, fits = found
            _fail(trace, word, span, args, ~fits)
        return found  # type: ignore[return-value]

    return run


def _fail(trace: Trace, word: Word, span: Span, args: list[Floats], where: Bools) -> None:
    if not word.misses:
        trace.fail(span, word.fails, where)
    elif where.any():
        for fact, missed, figures in word.misses(*args):
            trace.fail(span, fact, where & missed)
            trace.figures[span, fact] = figures
