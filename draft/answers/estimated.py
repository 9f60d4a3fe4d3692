"""What was not measured of a person, and what stands in its place."""

from __future__ import annotations

from collections.abc import Sequence

from draft.base.text_columns import in_columns
from draft.bodies.estimates import Estimate


def estimates_report(estimates: Sequence[Estimate]) -> str:
    """What was not measured: the figure that is used instead, its spread, and what it follows from."""
    rows = [(f"  {e.name}", *e.in_words().split(", "), e.source) for e in estimates]
    most = "estimated, not measured: nineteen women of twenty lie within the spread; measure what you can"
    return f"{most}\n{in_columns(rows)}"
