"""The plan: steps in the order that they can be taken, the same for every body, and what is made of their results."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import field, fields, is_dataclass, replace
from functools import cache

import numpy as np

from draft.base.arrays import Bools, Floats
from draft.base.notes import Note, Span
from draft.base.record import dataclass
from draft.base.units import Kind
from draft.bodies.own_measure import Known, OwnMeasure, known_with
from draft.bodies.wearers import WOMEN, Wearers
from draft.garment.garment import ClothOf, FinishedOf, JoinOf, NotionOf, Patch, PieceOf
from draft.language.tree import Node, Sort
from draft.plan.advice import NOTHING, Booklet


@dataclass
class Trace:
    """The values found so far for a list of bodies, and where finding them failed."""

    count: int
    names: tuple[str, ...] = ()
    values: dict[str, Floats] = field(default_factory=dict)
    failures: list[tuple[Span, str, Bools]] = field(default_factory=list)
    figures: dict[tuple[Span, str], str] = field(default_factory=dict)
    """By how much it fails, where somebody can say so."""
    spoilt: dict[str, Bools] = field(default_factory=dict)
    """For each value, the bodies for which it means nothing, because it or something that it needs failed."""
    instead: Mapping[Span, float] = field(default_factory=dict)
    """What numbers of the text are while they are moved, in the engine's own units, by where they stand."""

    def fail(self, span: Span, fact: str, where: Bools) -> None:
        """Record that `fact` is so for the bodies of the mask `(bodies,)`."""
        if where.any():
            self.failures.append((span, fact, np.broadcast_to(where, (self.count,))))

    def found(self, span: Span, run: Run) -> Floats:
        """A value for every body, `(bodies, ...)`: nothing where it is not finite, which is recorded as a failure."""
        found = np.asarray(run(self), dtype=float)
        if not found.ndim or len(found) != self.count:  # a fixed direction is given once for all bodies
            found = np.broadcast_to(found, (self.count, *found.shape[1:]))
        good = np.isfinite(found)
        if not good.all():
            bad = ~good
            fact = "no number comes out here that could be drawn"
            self.fail(span, fact, bad.reshape(len(bad), -1).any(axis=1))
            found = np.where(bad, 0.0, found)
        return found

    def keep_first(self, needs: Iterable[str], since: int) -> Bools:
        """Drop, of the failures from number `since` on, those that follow from one of something needed.

        Gives the bodies `(bodies,)` for which what was found means nothing.
        """
        before = np.zeros(self.count, dtype=bool)
        if not self.spoilt and len(self.failures) == since:
            return before
        for need in needs:
            before = before | self.spoilt.get(need, False)
        fresh, self.failures[since:] = self.failures[since:], []
        spoilt = before
        for span, fact, where in fresh:
            self.fail(span, fact, where & ~before)
            spoilt = spoilt | where
        return spoilt


Run = Callable[[Trace], Floats]


@dataclass(frozen=True)
class Value:
    """An expression whose names and kinds are settled.

    One that could not be made is `broken`: it fits wherever a value is wanted, what is made with it is broken too, and
    a note has been taken, so that no plan with a broken value leaves this room.
    """

    span: Span
    kind: Kind
    needs: frozenset[str]
    run: Run
    broken: bool = False

    def then(self, kind: Kind, change: Callable[[Floats], Floats]) -> Value:
        """What `change` makes of this value, `(bodies, ...)`, once it is found."""
        return replace(self, kind=kind, run=lambda trace: change(trace.found(self.span, self.run)))


def constant(span: Span, kind: Kind, value: float) -> Value:
    """The same for all bodies."""
    return Value(span, kind, frozenset(), lambda trace: np.full(trace.count, value))


def literal(span: Span, kind: Kind, value: float) -> Value:
    """A number of the text: the same for all bodies, and another while it is moved."""

    def run(trace: Trace) -> Floats:
        return np.full(trace.count, trace.instead.get(span, value) if trace.instead else value)

    return Value(span, kind, frozenset(), run)


def broken(span: Span, kind: Kind = Kind.NUMBER) -> Value:
    """In place of a value that could not be made; a note says why."""
    return Value(span, kind, frozenset(), _never, broken=True)


def _never(trace: Trace) -> Floats:
    raise AssertionError("a plan with a broken value is never drafted")


def needs_of(*values: Value | None) -> frozenset[str]:
    """Everything that these values need."""
    return frozenset[str]().union(*(value.needs for value in values if value))


def all_behind(names: Iterable[str], needs: Mapping[str, Iterable[str]]) -> set[str]:
    """The names and everything that they lean on, however far away, by what each needs itself."""
    found: set[str] = set()
    waiting = list(names)
    while waiting:
        name = waiting.pop()
        if name not in found:
            found.add(name)
            waiting += needs.get(name, ())
    return found


def is_broken(made: object) -> bool:
    """Whether a value is broken, or anything in a record or a tuple of them."""
    if isinstance(made, Value):
        return made.broken
    if isinstance(made, tuple):
        return any(map(is_broken, made))
    return any(is_broken(getattr(made, part)) for part in _parts(type(made)))  # type: ignore[arg-type]


@cache
def _parts(sort: type) -> tuple[str, ...]:
    """The fields of a record that may hold values; none of what says only where something was written."""
    if issubclass(sort, Span | Node) or not is_dataclass(sort):
        return ()
    return tuple(part.name for part in fields(sort))


@dataclass(frozen=True)
class Step:
    """One named value; an unknown has no `run` of its own: its block is solved instead."""

    span: Span
    name: str
    kind: Kind
    needs: frozenset[str]
    run: Run | None
    words: str = ""
    broken: bool = False

    @classmethod
    def of(cls, span: Span, name: str, value: Value, words: str = "") -> Step:
        """The step that finds a value."""
        return cls(span, name, value.kind, value.needs, value.run, words, value.broken)


@dataclass(frozen=True)
class Relation:
    """Two values and how they must stand to one another."""

    span: Span
    left: Value
    sort: Sort
    right: Value
    words: str
    fix: str = ""


@dataclass(frozen=True)
class Unknown:
    """A value to be found between `low` and `high`, as near to `nearest` as the relations allow."""

    span: Span
    name: str
    low: Value
    high: Value
    nearest: Value
    words: str = ""


@dataclass(frozen=True)
class Solve:
    """Unknowns, the relations that settle them, and the steps between the two in their order."""

    span: Span
    unknowns: tuple[Unknown, ...]
    relations: tuple[Relation, ...]
    between: tuple[Step, ...]


@dataclass(frozen=True)
class Style:
    """A choice that the reader has: its text form, limits or options, and what it is set to."""

    span: Span
    name: str
    words: str
    set_to: str
    limits: str
    ends: tuple[str, ...] = ()
    """What it can be set to at most: all options of a choice; the least and the greatest of an amount."""
    is_choice: bool = False


@dataclass(frozen=True)
class ChangeNote:
    """What a version of the pattern has changed, in the designer's words, and on which day, as in ISO 8601."""

    version: str
    day: str
    words: str


@dataclass(frozen=True)
class Plan:
    """A checked pattern, ready to be drafted for any list of bodies."""

    name: str
    title: str
    maker: str
    charts: tuple[tuple[str, str], ...]
    """Its size charts, each by its name and with whom it is for; the usual one comes first, mostly without a name."""
    measures: tuple[str, ...]
    styles: tuple[Style, ...]
    steps: tuple[Step, ...]
    solves: tuple[Solve, ...]
    pieces: tuple[PieceOf[Value, Value], ...]
    joins: tuple[JoinOf[Value], ...]
    finished: tuple[FinishedOf[Value], ...]
    checks: tuple[Relation, ...]
    cloth: Mapping[str, float]
    """What is known of the cloth that it is planned for, by the property's name."""
    properties: tuple[Style, ...] = ()
    """What of it the pattern leans on, as the command line lists it."""
    notes: tuple[Note, ...] = ()
    booklet: Booklet = NOTHING
    notions: tuple[NotionOf[Value], ...] = ()
    patches: tuple[Patch, ...] = ()
    cloths: tuple[ClothOf[Value], ...] = ()
    """Those of several that a piece is cut of."""
    blocks: tuple[PieceOf[Value, Value], ...] = ()
    """What is drawn and not cut."""
    version: str = ""
    changed: tuple[ChangeNote, ...] = ()
    """What its versions have changed, in the order written; not those of a pattern that it varies."""
    wearers: Wearers = WOMEN
    """Whom it is drafted for."""
    moved_from: Mapping[str, str] = field(default_factory=dict)
    """The draft that each block or piece with moves was traced from."""
    own_measures: tuple[OwnMeasure, ...] = ()
    """What it declares of body measures beside those that are known."""

    @property
    def day(self) -> str:
        """The day of its version, where the designer says one, as in ISO 8601."""
        return next((one.day for one in self.changed if one.version == self.version), "")

    @property
    def known(self) -> Known:
        """The body measures that can be given for it."""
        return known_with(self.own_measures)
