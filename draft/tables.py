"""Tables that open in a spreadsheet: finished measurements, and every join with both its lengths.

Inches are decimal here: a spreadsheet takes `5 1/2` for a text and `1/2` for a date.
"""

from __future__ import annotations

import csv
import io
from collections.abc import Iterable, Sequence

from draft.piece import Garment, SidePart
from draft.seams.sections import sections_of
from draft.seams.walk import walk
from draft.units import MM_PER_INCH

Row = Sequence[object]


def table_files(garment: Garment) -> dict[str, bytes]:
    """The tables of a pack by their place in it."""
    return {
        "tables/finished.csv": _csv(finished_rows(garment)),
        "tables/seams.csv": _csv(seam_rows(garment)),
        "tables/sections.csv": _csv(section_rows(garment)),
    }


def finished_rows(garment: Garment) -> Iterable[Row]:
    """The finished measurements, a row for each way that a maker takes them."""
    yield ("measurement", "taken", "unit", *garment.sizes, "where")
    for finished in garment.finished:
        for taken, share in (("round", 1.0), ("flat", 0.5)) if finished.girth else (("length", 1.0),):
            for unit, factor, places in (("cm", 10.0, 1), ("in", MM_PER_INCH, 2)):
                figures = [f"{value * share / factor:.{places}f}" for value in finished.values]
                yield (finished.name.replace("_", " "), taken, unit, *figures, finished.words)


def seam_rows(garment: Garment) -> Iterable[Row]:
    """Every join of every size: both lengths in one sewn seam, and by how much they miss one another."""
    yield ("join", "first side", "second side", "size", "first mm", "second mm", "stretched to", "difference mm")
    for walked in walk(garment):
        join = walked.join
        for k, size in enumerate(garment.sizes):
            ratio = "" if join.ratio is None else f"{1 / join.ratio[k]:.3f}"
            yield (
                *(join.name, _side(join.first), _side(join.second), size),
                *(_mm(walked.first[k]), _mm(walked.second[k]), ratio, _mm(walked.difference[k])),
            )


def section_rows(garment: Garment) -> Iterable[Row]:
    """Every join of every size from notch to notch: both lengths, and by how much the first is longer there."""
    yield ("join", "section", "from", "to", "size", "first mm", "second mm", "first longer by mm", "miss mm")
    for join in garment.joins:
        for number, section in enumerate(sections_of(garment, join), start=1):
            for k, size in enumerate(garment.sizes):
                lengths = (section.first[k], section.second[k], section.ease[k], section.difference[k])
                places = (what.replace("`", "") for what in (section.begins, section.ends))
                yield (join.name, number, *places, size, *map(_mm, lengths))


def _mm(value: float) -> str:
    return f"{round(float(value), 2) + 0.0:.2f}"  # never -0.00


def _side(parts: tuple[SidePart, ...]) -> str:
    return " then ".join(f"{part.piece}.{part.edge}" for part in parts)


def _csv(rows: Iterable[Row]) -> bytes:
    text = io.StringIO()
    csv.writer(text, lineterminator="\n").writerows(rows)
    return text.getvalue().encode("utf-8")
