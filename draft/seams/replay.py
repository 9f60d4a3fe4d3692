"""A plan whose edges are drawn as they are trued, so that what is measured off them, such as a band, fits them.

The corner that a seam ends at has moved with it. What the redrawn edges themselves are drawn from stays where it was;
for all other steps the corner is where the seam ends now. Where one side of a seam is drawn after the other, it is
drawn after that as it was before both were trued, so that it is not made shorter twice.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import fields, replace
from typing import Any

import numpy as np

from draft.base.arrays import Floats
from draft.base.record import dataclass
from draft.plan.plan import Plan, Run, Solve, Step, Trace, all_behind
from draft.seams.redrawing import Drawn, Redrawing, Turned

AS_DRAWN = " as drawn"


@dataclass(frozen=True)
class _Change:
    """What is done to an edge, with the name under which its amounts are found."""

    name: str
    change: Redrawing

    def redrawn(self, path: Floats, trace: Trace) -> Floats:
        amounts: dict[str, Any] = {what: trace.values[f"{self.name} {what}"] for what in _amounts(self.change)}
        return replace(self.change, **amounts).redrawn(path)


def replayed(plan: Plan, changes: Sequence[Redrawing]) -> tuple[Plan, dict[str, Floats]]:
    """The plan with these changes in the steps of its edges, and the values `(bodies, ...)` that those steps need."""
    named = [_Change(f"{change.edge} redrawn {number}", change) for number, change in enumerate(changes)]
    shifts = _shifts(plan, changes)
    given = {f"{one.name} {what}": getattr(one.change, what) for one in named for what in _amounts(one.change)}
    given |= {f"{corner} shift": shift for corner, shift in shifts.items()}
    replay = _Replay(plan, named, frozenset(shifts))
    solves = tuple(replace(solve, between=tuple(map(replay.again, solve.between))) for solve in plan.solves)
    return replace(plan, steps=tuple(map(replay.again, plan.steps)), solves=solves), given


def untouched(plan: Plan, replay: Plan) -> set[str]:
    """The steps of a plan that come out of its replay as before: neither they nor what they need is changed."""
    again = {step.name: step for step in (*replay.steps, *(step for solve in replay.solves for step in solve.between))}
    before = {step.name: step for step in (*plan.steps, *(step for solve in plan.solves for step in solve.between))}
    changed = {name for name, step in before.items() if again[name].run is not step.run}
    blocks = {unknown.name: solve for solve in plan.solves for unknown in solve.unknowns}
    for step in plan.steps:  # each after all that it needs
        if not changed.isdisjoint(_block_needs(blocks[step.name]) if step.run is None else step.needs):
            changed.add(step.name)
    return {step.name for step in plan.steps} - changed


def _block_needs(solve: Solve) -> set[str]:
    """All that its unknowns are found by, the steps between them and their relations too."""
    values = [value for unknown in solve.unknowns for value in (unknown.low, unknown.high, unknown.nearest)]
    values += [value for relation in solve.relations for value in (relation.left, relation.right)]
    needs = {name for value in values for name in value.needs}
    return needs | {name for step in solve.between for name in (step.name, *step.needs)}


def moved_corners(plan: Plan, changes: Sequence[Redrawing], values: dict[str, Floats]) -> dict[str, Floats]:
    """The values of a draft with its corners `(bodies, 2)` where the seams end now."""
    return values | {corner: values[corner] + shift for corner, shift in _shifts(plan, changes).items()}


def as_drawn(changes: Sequence[Redrawing], values: dict[str, Floats]) -> dict[str, Floats]:
    """The values of a draft with its edges `(bodies, ...)` as they were before they were redrawn."""
    return values | {change.edge: values[f"{change.edge}{AS_DRAWN}"] for change in changes}


class _Replay:
    """Makes each step anew: edges are redrawn, and others see them and their corners as they are to see them."""

    def __init__(self, plan: Plan, changes: Sequence[_Change], corners: frozenset[str]) -> None:
        self._corners = corners
        self._changes: dict[str, list[_Change]] = {}
        for one in changes:
            self._changes.setdefault(one.change.edge, []).append(one)
        steps = (*plan.steps, *(step for solve in plan.solves for step in solve.between))
        self._needs = {step.name: step.needs for step in steps}
        self._drawn_from = self._behind(self._changes)
        self._across = self._other_sides()

    def again(self, step: Step) -> Step:
        """The step as it is taken once edges are trued."""
        if step.run is None:
            return step
        run = step.run
        if step.name not in self._drawn_from and (moved := sorted(step.needs & self._corners)):
            run = _seeing(run, {corner: f"{corner} shift" for corner in moved}, _shifted)
        across = {edge: join for edge, join in self._across.get(step.name, ()) if edge in step.needs}
        if across:
            run = _seeing(run, {edge: _without(edge, join) for edge, join in across.items()}, _instead)
        changes = self._changes.get(step.name)
        return replace(step, run=_redrawing(run, changes) if changes else run)

    def _behind(self, names: Iterable[str]) -> set[str]:
        """These steps, and all that they are drawn from."""
        return all_behind(names, self._needs)

    def _other_sides(self) -> dict[str, list[tuple[str, str]]]:
        """By step, the edges that it is to see without what a join did, as the other side is drawn after them."""
        sides: dict[str, set[str]] = {}
        for edge, changes in self._changes.items():
            for one in changes:
                if isinstance(one.change, Drawn):
                    sides.setdefault(one.change.join, set()).add(edge)
        found: dict[str, list[tuple[str, str]]] = {}
        for join, edges in sides.items():
            for edge in edges:
                for step in self._behind([edge]):
                    found.setdefault(step, []).extend((other, join) for other in edges - {edge})
        return found


def _without(edge: str, join: str) -> str:
    return f"{edge} without {join}"


def _instead(trace: Trace, name: str, other: str) -> Floats:
    return trace.values[other]


def _shifted(trace: Trace, name: str, shift: str) -> Floats:
    return np.asarray(trace.values[name] + trace.values[shift])


def _seeing(run: Run, others: Mapping[str, str], seen: Any) -> Run:
    """A step that sees other values under some names."""

    def with_others(trace: Trace) -> Floats:
        before = {name: trace.values[name] for name in others}
        trace.values.update({name: seen(trace, name, other) for name, other in others.items()})
        try:
            return run(trace)
        finally:
            trace.values.update(before)

    return with_others


def _redrawing(run: Run, changes: Sequence[_Change]) -> Run:
    edge = changes[0].change.edge
    joins = {one.change.join for one in changes}

    def redrawn(trace: Trace) -> Floats:
        drawn = run(trace)
        trace.values[f"{edge}{AS_DRAWN}"] = drawn
        for join in joins:
            trace.values[_without(edge, join)] = _all(drawn, [c for c in changes if c.change.join != join], trace)
        return _all(drawn, changes, trace)

    return redrawn


def _all(path: Floats, changes: Sequence[_Change], trace: Trace) -> Floats:
    for one in changes:
        path = one.redrawn(path, trace)
    return path


def _amounts(change: Redrawing) -> list[str]:
    """The names of what a change has for each body."""
    return [part.name for part in fields(change) if isinstance(getattr(change, part.name), np.ndarray)]


def _shifts(plan: Plan, changes: Sequence[Redrawing]) -> dict[str, Floats]:
    """By how much the corners of the plan move, `(bodies, 2)` each, by their full names."""
    ends = {f"{piece.name}.{edge.name}": edge.ends for piece in plan.pieces for edge in piece.edges}
    steps = {step.name for step in plan.steps}
    found: dict[str, Floats] = {}
    for change in changes:
        if isinstance(change, Turned) and np.any(change.shift):
            corner = f"{change.edge.split('.')[0]}.{ends[change.edge][change.at_end]}"
            if corner in steps:
                found[corner] = found.get(corner, np.zeros_like(change.shift)) + change.shift
    return found
