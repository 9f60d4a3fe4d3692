"""Settings of the same choices drafted at once: they have one topology, so they are bodies of one array."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import fields, is_dataclass, replace
from typing import Any

import numpy as np

from draft.base.arrays import Floats
from draft.base.notes import Note
from draft.base.record import dataclass
from draft.bodies.bodies import Bodies
from draft.bodies.estimates import completed_own
from draft.drafting.drafting import drawn
from draft.garment.garment import Garment
from draft.plan.plan import Plan, Run, Step, Trace, Value
from draft.solve import Outcome
from draft.trying.offered import Plans, ranges
from draft.trying.settings import Setting

MOST_ROWS = 1_500
"""Bodies in all settings of a stack: more would not be quicker, and take memory."""


@dataclass(frozen=True)
class Stack:
    """Some settings drafted for the same bodies: the rows of arrays are the bodies of the first, then of the second."""

    plan: Plan
    settings: tuple[Setting, ...]
    bodies: Bodies
    outcome: Outcome
    garment: Garment

    def setting(self, row: int) -> Setting:
        """The setting of a row."""
        return self.settings[row // len(self.bodies)]


@dataclass(frozen=True)
class Unplanned:
    """A setting in which the pattern cannot be planned at all, and why."""

    setting: Setting
    notes: tuple[Note, ...]


def stacks(
    plans: Plans, settings: Iterable[Setting], bodies: Bodies, sizes: Sequence[str] = ()
) -> Iterator[Stack | Unplanned]:
    """All settings drafted for the bodies, those together that can be; `sizes` are whose rows each of them is given."""
    alike: dict[Setting, list[Setting]] = {}
    for setting in settings:
        alike.setdefault(_one_for_all(plans, setting), []).append(setting)
    for key, several in alike.items():
        plan = plans.of(key)
        if not isinstance(plan, Plan):
            yield from (Unplanned(setting, plan) for setting in several)
            continue
        many = max(1, MOST_ROWS // len(bodies))
        for first in range(0, len(several), many):
            yield _drafted(plan, several[first : first + many], bodies, sizes or bodies.names)


def _one_for_all(plans: Plans, setting: Setting) -> Setting:
    """What of a setting has to be one for all bodies of a stack: its choices, and amounts that allowances lean on."""
    plan = plans.of(())
    amounts = set(ranges(plan, dict(setting))) if isinstance(plan, Plan) else set()
    chosen = tuple((name, text) for name, text in setting if name not in amounts)
    settled = plans.of(chosen)
    if isinstance(settled, Plan):
        free = set(ranges(settled, dict(setting))) - _leant_on_by_allowances(settled)
        return tuple((name, text) for name, text in setting if name not in free)
    return chosen


def _leant_on_by_allowances(plan: Plan) -> set[str]:
    """Every name that an allowance leans on, however far away."""
    needs = {step.name: step.needs for step in plan.steps}
    waiting = [name for value in _allowances((plan.pieces, plan.cloths)) for name in value.needs]
    found: set[str] = set()
    while waiting:
        name = waiting.pop()
        if name not in found:
            found.add(name)
            waiting += needs.get(name, ())
    return found


def _allowances(part: Any) -> Iterator[Value]:
    if isinstance(part, tuple):
        for inner in part:
            yield from _allowances(inner)
    elif is_dataclass(part) and not isinstance(part, Value):
        for inner in fields(part):
            value = getattr(part, inner.name)
            if inner.name == "allowance" and isinstance(value, Value):
                yield value
            elif isinstance(value, tuple):
                yield from _allowances(value)


def _drafted(plan: Plan, settings: Sequence[Setting], bodies: Bodies, sizes: Sequence[str]) -> Stack:
    count = len(settings)
    own = completed_own(bodies, plan.measures, plan.known)[0]
    many = Bodies(tuple(sizes) * count, {name: np.tile(found, count) for name, found in own.values.items()})
    amounts = [ranges(plan, dict(setting)) for setting in settings]
    tried = {name for found in amounts for name in found}
    usual = {name: ranges(plan, {name: style.set_to})[name] for style in plan.styles if (name := style.name) in tried}
    given = {name: np.repeat([found.get(name, usual[name]) for found in amounts], len(bodies)) for name in tried}
    outcome, garment = drawn(replace(plan, steps=tuple(_set(step, given) for step in plan.steps)), many)
    return Stack(plan, tuple(settings), bodies, outcome, garment)


def _set(step: Step, given: Mapping[str, Floats]) -> Step:
    return replace(step, run=_always(given[step.name])) if step.name in given else step


def _always(values: Floats) -> Run:
    def run(trace: Trace) -> Floats:
        return values

    return run
