"""A pattern drafted for whom it is asked for, and looked at by every check: what the command and the page call."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from pathlib import Path

from draft import checks
from draft.bodies.bodies import Bodies
from draft.bodies.chart import read_chart
from draft.bodies.person import read_person
from draft.drafting import Drafted, draft_plan
from draft.notes import Problems, error
from draft.plan.library import chart_of, find, read_texts
from draft.plan.make import plan_texts


def draft_and_check(
    pattern: str,
    *,
    body: Path | None = None,
    chart: Path | None = None,
    sizes: Sequence[str] | None = None,
    styles: Mapping[str, str] | None = None,
) -> Drafted:
    """Draft a bundled pattern by name, or the file at a path, for one person or for sizes of a chart.

    Raises `Problems` for mistakes in the texts; faults of the drawing are among the notes of the result.
    """
    texts = read_texts(find(pattern))
    plan = plan_texts(texts, styles or {})
    bodies = read_person(body) if body else _sizes(chart or chart_of(texts), sizes)
    drafted = draft_plan(plan, bodies)
    drawn = drafted.outcome.drawn
    if not drawn.all():
        return drafted  # the lines of a body that failed mean nothing, and checking them would only add to the noise
    used = checks.CHECKS if body else (*checks.CHECKS, *checks.CHART_CHECKS)
    return replace(drafted, notes=(*drafted.notes, *checks.run(drafted.garment, used)))


def _sizes(chart: Path | None, sizes: Sequence[str] | None) -> Bodies:
    if chart is None:
        raise Problems(
            [error("this pattern names no chart", None, "give `--chart FILE`, or `--body FILE` for one person")]
        )
    bodies = read_chart(chart)
    return bodies.select(sizes) if sizes is not None else bodies
