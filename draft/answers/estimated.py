"""What was not measured of a person, and what stands in its place."""

from __future__ import annotations

from collections.abc import Sequence

from draft.base.naming import and_list, plain
from draft.base.text_columns import in_columns
from draft.base.units import in_words
from draft.bodies.estimates import Estimate


def estimates_report(estimates: Sequence[Estimate]) -> str:
    """What was not measured: the figure that is used instead, its spread, and what it follows from."""
    rows = [(f"  {e.name}", *_figures(e), e.source) for e in estimates]
    known = any(e.spread is not None for e in estimates)
    within = "nineteen people of twenty lie within the spread; " if known else ""
    beyond = list(dict.fromkeys(name for e in estimates for name in e.beyond))
    lines = [f"estimated, not measured: {within}measure what you can", in_columns(rows)]
    if beyond:
        rare = and_list([plain(name) for name in beyond])
        lines.append(f"  hardly anybody was measured with such a {rare}, so these may be farther off")
    return "\n".join(lines)


def _figures(estimate: Estimate) -> tuple[str, str]:
    """What it is for the first body, or from the least to the most of several, and how far off it may be."""
    said, _, spread = estimate.in_words().partition(", ")
    values = estimate.values[estimate.where]
    if values.min() < values.max():
        said = " to ".join(in_words(float(value), estimate.kind) for value in (values.min(), values.max()))
    return said, spread
