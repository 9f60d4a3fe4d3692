"""Where outlines do not run on across a seam, what blending them would move, and the words for it."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from draft.base.arrays import Floats
from draft.base.text_columns import in_columns
from draft.base.units import in_centimetres
from draft.base.worst import worst_of
from draft.garment.garment import Garment
from draft.seams.trueing import TELLING, to_true
from draft.seams.walk import SeamEnd


def true_report(garment: Garment, over: float) -> str:
    """Every end of a join where the outlines do not run on, what blending them over so many mm moves, and the words."""
    found = list(to_true(garment, over))
    if not found:
        return f"all outlines run on across their seams, within {TELLING} deg"
    rows: list[Sequence[str]] = [("join", "end", "edges that meet there", "off deg", "would move mm")]
    for trueing in found:
        corner = trueing.seam_end
        sides = zip((corner.join.first[0], corner.join.second[0]), corner.neighbours, strict=True)
        edges = dict.fromkeys(f"{part.piece}.{neighbour}" for part, neighbour in sides)
        shape = "peak" if corner.kink[np.argmax(np.abs(corner.kink))] < 0 else "hollow"
        kink = f"{_worst(corner.kink, garment)} {shape}"
        moved = " and ".join(_worst(move, garment) for move, _ in zip(trueing.moved, edges, strict=False))
        rows.append((corner.join.name.replace("_", " "), _end(corner), " and ".join(edges), kink, moved))
    joins = dict.fromkeys(trueing.seam_end.join.span for trueing in found)
    written = [f"    {with_trueing(span.text, over)}" for span in joins]
    return "\n".join([in_columns(rows), "", "to have them blended, write under `join`:", *written])


def _end(corner: SeamEnd) -> str:
    return "start" if corner.at_start else "end"


def _worst(values: Floats, garment: Garment) -> str:
    worst = worst_of(np.abs(values))
    return f"{abs(values[worst]):.1f} ({garment.sizes[worst]})"


def with_trueing(seam: str, over: float) -> str:
    """A join as it is written and trued over so many mm: the option stands before its sentence."""
    option = f"trued over {in_centimetres(over)}"
    rows = (row.partition("#")[0].strip() for row in seam.split("\n"))  # on one line, however many it has
    line, quote, sentence = " ".join(row for row in rows if row).partition('"')
    return f"{line.rstrip()}, {option}" + (f"   {quote}{sentence}" if quote else "")
