"""Where a body's shape is another than the block's own, and the pattern is drafted to it: said beside the girths."""

from __future__ import annotations

import numpy as np

from draft.base.naming import plain
from draft.base.units import Kind, in_words
from draft.bodies.measures import MEASURES
from draft.bodies.own_measure import OwnMeasure
from draft.drafting.drafting import Drafted

SEEN = 3.0
"""mm: a tape is no truer."""


def shape_report(drafted: Drafted) -> str:
    """A line for each measure of one person's shape that differs from the block's, or an empty text."""
    if len(drafted.bodies) != 1:
        return ""
    lines = []
    for name in drafted.plan.measures:
        own = drafted.plan.known[name]
        if name in MEASURES and isinstance(own, OwnMeasure) and own.estimate:
            block, body = own.estimate(drafted.bodies)[0], drafted.bodies.values[name][0]
            if np.abs(block - body) > SEEN:
                said = f"{in_words(float(body), own.kind)}, where the block has {in_words(float(block), own.kind)}"
                lines.append(f"drafted to the {plain(name)}: {said}{_as_far_as(drafted, name, float(body), own.kind)}")
    return "\n".join(lines)


def _as_far_as(drafted: Drafted, name: str, body: float, kind: Kind) -> str:
    """Where the pattern says itself how far it follows a measure, and that is not all the way."""
    followed = drafted.outcome.trace.values.get(f"{name}_followed")
    if followed is None or np.abs(followed[0] - body) <= SEEN:
        return ""
    far = in_words(float(followed[0]), kind)
    return f"; the pattern follows as far as {far}, beyond it a line would bend too sharply"
