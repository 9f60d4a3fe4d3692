"""Every join walked, in a table: as a whole, or from notch to notch."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from draft.base.arrays import Floats
from draft.base.text_columns import in_columns
from draft.base.units import rounded
from draft.checks.seam_lengths import fits
from draft.garment.garment import Garment, Join, SidePart
from draft.seams.openings import gaps
from draft.seams.sections import sections
from draft.seams.walk import walk_seams


def seam_report(garment: Garment) -> str:
    """Every join with its lengths over all bodies, and the greatest miss."""
    rows: list[Sequence[str]] = [("join", "first side", "second side", "first cm", "second cm", "ratio", "off mm", "")]
    for walked in walk_seams(garment):
        join = walked.join
        worst = float(np.max(np.abs(walked.difference)))
        stretched = "" if join.ratio is None else f"{join.fit} {float(join.ratio[0]) * 100:.0f} %"
        rows.append(
            (
                join.name.replace("_", " "),
                _side(join.first),
                _side(join.second),
                _span(walked.first / 10),
                _span(walked.second / 10),
                stretched,
                f"{worst:.2f}",
                "; ".join(["fits" if fits(walked) else "does not fit", *_left_open(garment, join)]),
            )
        )
    return in_columns(rows)


def _left_open(garment: Garment, join: Join) -> list[str]:
    """What is not sewn of a join."""
    said = []
    for gap in gaps(garment, join):
        on_side = f" on the {gap.opening.on_side}" if gap.opening.on_side else ""
        said.append(f"{_span(gap.opening.length / 10)} cm left open{on_side}")
    return said


def sections_report(garment: Garment) -> str:
    """Every join from notch to notch: the lengths over all bodies, and by how much the first side is longer there."""
    rows: list[Sequence[str]] = [("join", "from", "to", "first cm", "second cm", "first longer by mm", "of second")]
    for section in sections(garment):
        second = np.maximum(section.second, 1e-9)
        rows.append(
            (
                section.join.name.replace("_", " "),
                section.begins,
                section.ends,
                _span(section.first / 10),
                _span(section.second / 10),
                _span(section.ease),
                _span(section.ease / second * 100) + " %",
            )
        )
    return in_columns(rows)


def _span(values: Floats) -> str:
    low, high = (rounded(float(end), 1) for end in (values.min(), values.max()))
    return low if low == high else f"{low} to {high}"


def _side(parts: tuple[SidePart, ...]) -> str:
    layer = f"{parts[0].layer} " if parts[0].layer else ""
    return layer + " + ".join(f"{part.piece}.{part.edge}" for part in parts)
