"""Taking one step of a plan, and looking how a relation stands."""

from __future__ import annotations

import numpy as np

from draft.base.arrays import Floats
from draft.plan.plan import Relation, Step, Trace, Value
from draft.solve.outcome import Standing


def take(step: Step, trace: Trace) -> None:
    """Take one step; values that are not finite are set to nothing and masked."""
    assert step.run is not None
    since = len(trace.failures)
    trace.values[step.name] = trace.found(step.span, step.run)
    spoilt = trace.keep_first(step.needs, since)
    if spoilt.any():
        trace.spoilt[step.name] = spoilt


def find_value(value: Value, trace: Trace) -> Floats:
    """A value that no step has `(bodies, ...)`; where it is not finite it is set to nothing and masked."""
    since = len(trace.failures)
    found = trace.found(value.span, value.run)
    trace.keep_first(value.needs, since)
    return found


def stand(relation: Relation, trace: Trace) -> Standing:
    """How a relation stands."""
    since = len(trace.failures)
    left, right = (trace.found(side.span, side.run) for side in (relation.left, relation.right))
    lost = trace.keep_first(relation.left.needs | relation.right.needs, since)
    gap = left - right
    margin = {"at least": gap, "at most": -gap, "equals": -np.abs(gap)}[relation.sort]
    return Standing(relation, left, right, margin, lost)
