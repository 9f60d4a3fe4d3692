"""Taking one step of a plan, and looking how a relation stands."""

from __future__ import annotations

import numpy as np

from draft.plan.plan import Relation, Step, Trace
from draft.solve.outcome import Standing


def take(step: Step, trace: Trace) -> None:
    """Take one step; values that are not finite are set to nothing and masked."""
    assert step.run is not None
    found = np.asarray(step.run(trace), dtype=float)
    bad = ~np.isfinite(found)
    if bad.any():
        trace.fail(step.span, "no finite value comes out here", bad.reshape(len(bad), -1).any(axis=1))
        found = np.where(bad, 0.0, found)
    trace.values[step.name] = found


def stand(relation: Relation, trace: Trace) -> Standing:
    """How a relation stands."""
    left, right = relation.left.run(trace), relation.right.run(trace)
    gap = left - right
    margin = {"at least": gap, "at most": -gap, "equals": -np.abs(gap)}[relation.sort]
    return Standing(relation, left, right, margin)
