"""What the command prints: tables in plain text."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from draft.bodies.measures import MEASURES
from draft.checks.seam_lengths import fits
from draft.drafting import Drafted
from draft.piece import Garment, SidePart
from draft.plan.plan import Plan
from draft.seams.walk import walk
from draft.units import in_words


def seam_report(garment: Garment) -> str:
    """Every join with its lengths over all bodies, and the greatest miss."""
    rows = [("join", "first side", "second side", "first cm", "second cm", "stretched", "off mm", "")]
    for walked in walk(garment):
        join = walked.join
        worst = float(np.max(np.abs(walked.difference)))
        stretched = "" if join.ratio is None else f"x {1 / float(join.ratio[0]):.2f}"
        rows.append(
            (
                join.name.replace("_", " "),
                _side(join.first),
                _side(join.second),
                _span(walked.first / 10),
                _span(walked.second / 10),
                stretched,
                f"{worst:.2f}",
                "fits" if fits(walked) else "does not fit",
            )
        )
    return _table(rows)


def chosen_report(drafted: Drafted) -> str:
    """What the solver chose for each body, where it chose anything."""
    if not drafted.garment.chosen:
        return ""
    kinds = {step.name: step.kind for step in drafted.plan.steps}
    sizes = drafted.garment.sizes
    rows: list[Sequence[str]] = [("solved", *sizes)]
    for name, values in drafted.garment.chosen:
        rows.append((name, *(in_words(float(value), kinds[name]) for value in values)))
    return _table(rows) if len(sizes) <= 12 else ""


def about_report(plan: Plan) -> str:
    """The measures that a pattern needs and the styles that it offers."""
    needs = [(f"  {name}", MEASURES[name].how) for name in plan.measures]
    offers = [(f"  {s.name}", s.set_to, s.limits, s.words) for s in plan.styles]
    pieces = [
        (f"  {p.title}", f"cut {p.cut}{' on the fold' if any(e.on_fold for e in p.edges) else ''}") for p in plan.pieces
    ]
    maker = f", by {plan.maker}" if plan.maker else ""
    return "\n".join(
        [
            f"{plan.title}{maker}",
            "",
            "measures",
            _table(needs),
            "",
            "styles (now, limits)",
            _table(offers),
            "",
            "pieces",
            _table(pieces),
        ]
    )


def _span(values: np.ndarray) -> str:  # type: ignore[type-arg]
    low, high = float(values.min()), float(values.max())
    return f"{low:.1f}" if f"{low:.1f}" == f"{high:.1f}" else f"{low:.1f} to {high:.1f}"


def _side(parts: tuple[SidePart, ...]) -> str:
    return " + ".join(f"{part.piece}.{part.edge}" for part in parts)


def _table(rows: Sequence[Sequence[str]]) -> str:
    widths = [max(len(row[k]) for row in rows) for k in range(max(map(len, rows), default=0))] if rows else []
    return "\n".join(
        "  ".join(cell.ljust(width) for cell, width in zip(row, widths, strict=True)).rstrip() for row in rows
    )
