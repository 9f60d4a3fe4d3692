"""What the solver chose for each body."""

from __future__ import annotations

from collections.abc import Sequence

from draft.base.text_columns import in_columns
from draft.base.units import in_words
from draft.drafting.drafting import Drafted


def solved_report(drafted: Drafted) -> str:
    """What the solver chose for each body, where it chose anything."""
    if not drafted.garment.chosen:
        return ""
    kinds = {step.name: step.kind for step in drafted.plan.steps}
    sizes = drafted.garment.sizes
    rows: list[Sequence[str]] = [("solved", *sizes)]
    for name, values in drafted.garment.chosen:
        rows.append((name, *(in_words(float(value), kinds[name]) for value in values)))
    return in_columns(rows) if len(sizes) <= 12 else ""
