"""The arrow from plan and bodies to an outcome."""

from __future__ import annotations

from collections.abc import Mapping

import numpy as np

from draft.base.arrays import Floats
from draft.base.notes import Span
from draft.bodies.bodies import Bodies
from draft.plan.plan import Plan, Solve, Trace, Unknown
from draft.solve import bracket, system
from draft.solve.margins import Ranges
from draft.solve.outcome import Outcome
from draft.solve.steps import stand, take


def evaluate(
    plan: Plan,
    bodies: Bodies,
    given: Mapping[str, Floats] | None = None,
    instead: Mapping[Span, float] | None = None,
    kept: Mapping[str, Floats] | None = None,
) -> Outcome:
    """Draft all bodies at once. Bodies that cannot be drafted are masked in the outcome, with finite values.

    `given` are values `(bodies, ...)` that steps of the plan take from neither the bodies nor one another.
    `instead` are other values for numbers of the text, as `Trace` has them; `kept` is what comes out as it did before,
    by the names of its steps: it is not found again.
    """
    measured = {name: bodies.values[name] for name in plan.measures}
    kept = kept or {}
    trace = Trace(len(bodies), bodies.names, measured | dict(given or {}) | dict(kept), instead=instead or {})
    blocks = {unknown.name: block for block in plan.solves for unknown in block.unknowns}
    chosen: dict[str, Floats] = {}
    remarks: list[tuple[Span, str]] = []
    with np.errstate(all="ignore"):
        for step in plan.steps:
            if step.name in kept:
                chosen |= {} if step.run else {step.name: kept[step.name]}
            elif step.run is not None:
                take(step, trace)
            elif step.name not in chosen:
                since = len(trace.failures)
                found = _solve(blocks[step.name], trace, remarks)
                trace.values.update(found)
                trace.spoilt.update(dict.fromkeys(found, trace.keep_first(step.needs, since)))
                chosen.update(found)
        standings = tuple(stand(r, trace) for block in plan.solves for r in block.relations)
        promises = tuple(stand(r, trace) for r in plan.checks)
    return Outcome(bodies, trace, chosen, standings, promises, tuple(remarks))


def _solve(block: Solve, trace: Trace, remarks: list[tuple[Span, str]]) -> dict[str, Floats]:
    """Settle the unknowns of a block, by whichever way suits its relations."""
    ranges = {unknown.name: _range(unknown, trace) for unknown in block.unknowns}
    equal = any(relation.sort == "equals" for relation in block.relations)
    if equal and len(block.unknowns) + len(block.relations) > 2:
        return system.solve_together(block, trace, ranges, remarks)
    return bracket.solve_in_turn(block, trace, ranges)


def _range(unknown: Unknown, trace: Trace) -> Ranges:
    """Low, high, and where it is wanted, for each body; a range turned about is a failure of that body."""
    low, high = unknown.low.run(trace), unknown.high.run(trace)
    trace.fail(unknown.span, "the range is empty: its low end lies above its high end", low > high)
    high = np.maximum(low, high)
    return low, high, np.clip(unknown.nearest.run(trace), low, high)
