"""The plan: steps in the order that they can be taken, the same for every body, and what is made of their results."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field

import numpy as np

from draft.base.arrays import Bools, Floats
from draft.base.notes import Note, Span
from draft.base.units import Kind
from draft.garment.garment import CornerKind, CutAs, Fit, Patch
from draft.language.tree import Sort
from draft.plan.advice import NOTHING, Booklet


@dataclass
class Trace:
    """The values found so far for a list of bodies, and where finding them failed."""

    count: int
    names: tuple[str, ...] = ()
    values: dict[str, Floats] = field(default_factory=dict)
    failures: list[tuple[Span, str, Bools]] = field(default_factory=list)
    spoilt: dict[str, Bools] = field(default_factory=dict)
    """For each value, the bodies for which it means nothing, because it or something that it needs failed."""

    def fail(self, span: Span, fact: str, where: Bools) -> None:
        """Record that `fact` is so for the bodies of the mask."""
        if where.any():
            self.failures.append((span, fact, np.broadcast_to(where, (self.count,))))

    def keep_first(self, needs: Iterable[str], since: int) -> Bools:
        """Drop, of the failures from number `since` on, those that follow from one of something needed.

        Gives the bodies for which what was found means nothing.
        """
        before = np.zeros(self.count, dtype=bool)
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
    """An expression whose names and kinds are settled."""

    span: Span
    kind: Kind
    needs: frozenset[str]
    run: Run


@dataclass(frozen=True)
class Step:
    """One named value; `needs` are the steps before it. An unknown has no `run`: its block is solved instead."""

    span: Span
    name: str
    kind: Kind
    needs: frozenset[str]
    run: Run | None
    words: str = ""


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


@dataclass(frozen=True)
class Block:
    """Unknowns, the relations that settle them, and the steps between the two in their order."""

    span: Span
    unknowns: tuple[Unknown, ...]
    relations: tuple[Relation, ...]
    between: tuple[Step, ...]


@dataclass(frozen=True)
class EdgePlan:
    """One side of a piece: the step that draws it and how it is finished."""

    span: Span
    name: str
    step: str
    allowance: Value
    on_fold: bool
    turned_up: bool
    gathered: Value | None = None
    end_corner: CornerKind = "carried"
    ends: tuple[str, str] = ("", "")
    unjoined: bool = False


@dataclass(frozen=True)
class TakeupPlan:
    """A dart with the point that it runs to, or a pleat with the length that it is folded for."""

    span: Span
    name: str
    edge: str
    width: Value
    at: Value
    to: Value | None
    length: Value | None
    trued_over: Value | None = None


@dataclass(frozen=True)
class NotchPlan:
    """A notch on one edge, at a point that lies on it."""

    span: Span
    edge: str
    at: Value
    strokes: int


@dataclass(frozen=True)
class MarkPlan:
    """A drill mark at one point, or a line through several."""

    span: Span
    name: str
    drill: bool
    at: tuple[Value, ...]
    words: str


@dataclass(frozen=True)
class PiecePlan:
    """A piece: its edges in order round the outline."""

    span: Span
    name: str
    title: str
    edges: tuple[EdgePlan, ...]
    cut: int
    cut_as: CutAs
    grain: Value
    stretch: Value
    takeups: tuple[TakeupPlan, ...] = ()
    notches: tuple[NotchPlan, ...] = ()
    marks: tuple[MarkPlan, ...] = ()
    stretches: bool = True


@dataclass(frozen=True)
class PartPlan:
    """One edge in one side of a seam."""

    span: Span
    piece: str
    edge: str
    reverse: bool


@dataclass(frozen=True)
class SeamPlan:
    """Which edges are sewn to which; notches are shares or lengths along the first side."""

    span: Span
    name: str
    first: tuple[PartPlan, ...]
    second: tuple[PartPlan, ...]
    ratio: Value | None
    fit: Fit
    notches: tuple[Value, ...]
    double_notches: tuple[Value, ...]
    quarters: bool
    trued_over: Value | None = None


@dataclass(frozen=True)
class ReadingPlan:
    """A measurement of the finished garment."""

    span: Span
    name: str
    around: bool
    value: Value
    words: str
    over: Value | None = None
    passing: tuple[Value, ...] = ()
    going: Value | None = None


@dataclass(frozen=True)
class Style:
    """A choice that the reader has: its text form, limits or options, and what it is set to."""

    span: Span
    name: str
    words: str
    set_to: str
    limits: str


@dataclass(frozen=True)
class Plan:
    """A checked pattern, ready to be drafted for any list of bodies."""

    name: str
    title: str
    maker: str
    chart: str
    measures: tuple[str, ...]
    styles: tuple[Style, ...]
    steps: tuple[Step, ...]
    blocks: tuple[Block, ...]
    pieces: tuple[PiecePlan, ...]
    seams: tuple[SeamPlan, ...]
    readings: tuple[ReadingPlan, ...]
    checks: tuple[Relation, ...]
    cloth: Mapping[str, float]
    """What is known of the cloth that it is planned for, by the property's name."""
    properties: tuple[Style, ...] = ()
    """What of it the pattern leans on, as the command line lists it."""
    notes: tuple[Note, ...] = ()
    booklet: Booklet = NOTHING
    patches: tuple[Patch, ...] = ()
