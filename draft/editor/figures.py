"""What the names of a plan come to for one body: the size that is asked for, or that in the middle of the chart."""

from __future__ import annotations

import math
from collections.abc import Iterable
from functools import cached_property
from pathlib import Path

import numpy as np

from draft.base.arrays import Floats
from draft.base.notes import Problems
from draft.base.record import dataclass
from draft.base.resources import folder
from draft.base.units import Kind, in_centimetres, in_inches, in_place, in_words
from draft.bodies.bodies import Bodies
from draft.bodies.chart import read_chart
from draft.bodies.estimates import completed_own
from draft.geometry.length import length
from draft.plan.library import Texts, chart_of
from draft.plan.plan import Plan, Step
from draft.solve import Outcome, evaluate

USUAL = "women.csv"  # the bundled chart, for a pattern that names none


@dataclass(frozen=True)
class Figures:
    """A plan with the figures of one body."""

    plan: Plan
    texts: Texts
    wanted: str = ""
    """The size that they are of, if the chart has it."""

    @property
    def size(self) -> str:
        """The name of the size."""
        return self._body.names[0] if self._body else ""

    def of(self, full: str) -> str:
        """What a step comes to, in words; an empty text where it cannot be found."""
        value = self.value(full)
        return in_figures(*value) if value else ""

    def value(self, full: str) -> tuple[Floats, Kind] | None:
        """What a step comes to for the one body, in the shape and unit of its kind without the axis of bodies (a point
        `(2,)` mm, an edge `(segments, 4, 2)` mm), and that kind; None where it cannot be found.
        """
        step = self._steps.get(full)
        outcome = self._outcome
        if step is None or outcome is None or full not in outcome.trace.values or not outcome.drafted[0]:
            return None
        return outcome.trace.values[full][0], step.kind

    def step(self, full: str) -> Step | None:
        """The step of a name."""
        return self._steps.get(full)

    def steps(self, names: Iterable[str]) -> list[Step]:
        """The steps of those names that are in the plan."""
        return [step for name in names if (step := self._steps.get(name))]

    @cached_property
    def _steps(self) -> dict[str, Step]:
        return {step.name: step for step in self.plan.steps}

    @cached_property
    def _body(self) -> Bodies | None:
        for path in (self._chart(), folder("pieces") / USUAL):
            try:
                bodies = self._completed(read_chart(path, self.plan.known)) if path else None
            except Problems:
                continue
            if bodies and all(name in bodies.values for name in self.plan.measures):
                usual = bodies.names[len(bodies) // 2]
                return bodies.select([self.wanted if self.wanted in bodies.names else usual])
        return None

    def _completed(self, sizes: Bodies) -> Bodies:
        return completed_own(sizes, self.plan.measures, self.plan.known)[0]

    def _chart(self) -> Path | None:
        try:
            return chart_of(self.texts)
        except Problems:
            return None

    @cached_property
    def _outcome(self) -> Outcome | None:
        return evaluate(self.plan, self._body) if self._body else None


def in_figures(value: Floats, kind: Kind) -> str:
    """A body's value as a designer reads it: lengths in centimetres and inches, points `(2,)` by both coordinates."""
    if kind is Kind.LENGTH:
        return _length(float(value))
    if kind is Kind.POINT:
        return in_place(*value)
    if kind is Kind.ROW:
        return f"{len(np.unique(value, axis=0))} points, from {in_place(*value[0])} to {in_place(*value[-1])}"
    if kind is Kind.EDGE:
        return (
            f"{_length(float(length(value[None])[0]))} long, from {in_place(*value[0, 0])} to {in_place(*value[-1, 3])}"
        )
    if kind is Kind.DIRECTION:
        return _direction(value)
    if kind is Kind.NUMBER:
        return f"{in_words(float(value), kind)} ({in_words(float(value) * 100, kind)} %)"
    return in_words(float(value), kind) if kind is Kind.ANGLE else ""


def _length(mm: float) -> str:
    return f"{in_centimetres(mm)} ({in_inches(mm, 16)})"


def _direction(way: Floats) -> str:
    x, y = float(way[0]), float(way[1])
    angle = math.degrees(math.atan2(abs(y), abs(x)))
    side = "across" if x >= 0 else "inward"
    if angle > 89.95:
        return "up" if y > 0 else "down"
    return side if angle < 0.05 else f"{angle:.1f} deg {'above' if y > 0 else 'below'} {side}"
