"""Taking one step of a plan, and looking how a relation stands."""

from __future__ import annotations

import numpy as np

from draft.base.arrays import Floats
from draft.base.notes import Span
from draft.plan.plan import Relation, Run, Step, Trace, Value
from draft.solve.outcome import Standing


def take(step: Step, trace: Trace) -> None:
    """Take one step; values that are not finite are set to nothing and masked."""
    assert step.run is not None
    since = len(trace.failures)
    trace.values[step.name] = _finite(step.span, step.run, trace)
    spoilt = trace.keep_first(step.needs, since)
    if spoilt.any():
        trace.spoilt[step.name] = spoilt


def find_value(value: Value, trace: Trace) -> Floats:
    """A value that no step has; where it is not finite it is set to nothing and masked."""
    since = len(trace.failures)
    found = _finite(value.span, value.run, trace)
    trace.keep_first(value.needs, since)
    return found


def _finite(span: Span, run: Run, trace: Trace) -> Floats:
    found = np.asarray(run(trace), dtype=float)
    found = np.broadcast_to(found, (trace.count, *found.shape[1:]))  # a fixed direction is given once for all bodies
    bad = ~np.isfinite(found)
    if bad.any():
        trace.fail(span, "no number comes out here that could be drawn", bad.reshape(len(bad), -1).any(axis=1))
        found = np.where(bad, 0.0, found)
    return found


def stand(relation: Relation, trace: Trace) -> Standing:
    """How a relation stands."""
    since = len(trace.failures)
    left, right = (_finite(side.span, side.run, trace) for side in (relation.left, relation.right))
    lost = trace.keep_first(relation.left.needs | relation.right.needs, since)
    gap = left - right
    margin = {"at least": gap, "at most": -gap, "equals": -np.abs(gap)}[relation.sort]
    return Standing(relation, left, right, margin, lost)
