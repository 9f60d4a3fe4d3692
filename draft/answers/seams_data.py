"""Seams walked and outlines across them, as data."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from draft.answers.true_lines import with_trueing
from draft.base.as_data import Data, by_size, degrees, mm, percent_of
from draft.checks.seam_lengths import fits
from draft.garment.garment import Garment, SidePart
from draft.seams.openings import gaps
from draft.seams.sections import sections
from draft.seams.trueing import TELLING, to_true
from draft.seams.walk import walk_seams


def walk_data(garment: Garment) -> Data:
    """Every join: the lengths of both sides for each body, and whether it fits."""
    return {
        "joins": [
            {
                "join": walked.join.name,
                "first": _side(walked.join.first),
                "second": _side(walked.join.second),
                "first_mm": by_size(garment.sizes, walked.first),
                "second_mm": by_size(garment.sizes, walked.second),
                "ratio_percent": None if walked.join.ratio is None else percent_of(walked.join.ratio[0]),
                "sewn": walked.join.fit,
                "off_mm": mm(np.max(np.abs(walked.difference))),
                "fits": fits(walked),
                "left_open": [
                    {"length_mm": by_size(garment.sizes, gap.opening.length), "on_side": gap.opening.on_side or None}
                    for gap in gaps(garment, walked.join)
                ],
            }
            for walked in walk_seams(garment)
        ]
    }


def sections_data(garment: Garment) -> Data:
    """Every join from notch to notch."""
    return {
        "sections": [
            {
                "join": section.join.name,
                "from": section.begins,
                "to": section.ends,
                "first_mm": by_size(garment.sizes, section.first),
                "second_mm": by_size(garment.sizes, section.second),
                "first_longer_by_mm": by_size(garment.sizes, section.ease),
            }
            for section in sections(garment)
        ]
    }


def true_data(garment: Garment, over: float) -> Data:
    """Every end of a join where outlines do not run on, and what blending them over so many mm would move."""
    rows = []
    for trueing in to_true(garment, over):
        end = trueing.seam_end
        sides = zip((end.join.first[0], end.join.second[0]), end.neighbours, strict=True)
        edges = list(dict.fromkeys(f"{part.piece}.{neighbour}" for part, neighbour in sides))
        rows.append(
            {
                "join": end.join.name,
                "end": "start" if end.at_start else "end",
                "edges": edges,
                "kink_deg": dict(zip(garment.sizes, map(degrees, end.kink), strict=True)),
                "would_move_mm": {
                    edge: by_size(garment.sizes, np.abs(moved))
                    for edge, moved in zip(edges, trueing.moved, strict=False)
                },
            }
        )
    joins = dict.fromkeys(trueing.seam_end.join.span for trueing in to_true(garment, over))
    words = [with_trueing(span.text, over) for span in joins]
    return {"within_deg": TELLING, "over_mm": mm(over), "ends": rows, "write": words}


def _side(parts: Sequence[SidePart]) -> list[Data]:
    return [{"piece": part.piece, "edge": part.edge, "layer": part.layer or None} for part in parts]
