"""A plan whose edges are drawn as they are trued, so that what is measured off them, such as a band, fits them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from draft.base.arrays import Floats
from draft.plan.plan import Plan, Run, Step, Trace
from draft.seams.trueing import Turned


def replayed(plan: Plan, turns: Sequence[Turned]) -> tuple[Plan, dict[str, Floats]]:
    """The plan with these turns in the steps of its edges, and the values `(bodies, ...)` that those steps need."""
    by_edge: dict[str, list[str]] = {}
    given: dict[str, Floats] = {}
    for number, turn in enumerate(turns):
        by_edge.setdefault(turn.edge, []).append(name := f"{turn.edge} turned {number}")
        given |= {f"{name} along": turn.along, f"{name} by": turn.degrees, f"{name} over": turn.over}
    at_end = {f"{turn.edge} turned {number}": turn.at_end for number, turn in enumerate(turns)}

    def redrawn(step: Step) -> Step:
        names = by_edge.get(step.name)
        if step.run is None or not names:
            return step
        return replace(step, run=_turning(step.run, [(name, at_end[name]) for name in names]))

    solves = tuple(replace(solve, between=tuple(map(redrawn, solve.between))) for solve in plan.solves)
    return replace(plan, steps=tuple(map(redrawn, plan.steps)), solves=solves), given


def _turning(run: Run, turns: list[tuple[str, bool]]) -> Run:
    def turned(trace: Trace) -> Floats:
        path = run(trace)
        for name, at_end in turns:
            along, by, over = (trace.values[f"{name} {what}"] for what in ("along", "by", "over"))
            path = Turned(name, at_end, along, by, over).redrawn(path)
        return path

    return turned
