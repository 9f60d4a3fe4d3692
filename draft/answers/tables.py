"""Tables that open in a spreadsheet: finished measurements, ease, the stretch that is needed, every join's lengths.

Inches are decimal here: a spreadsheet takes `5 1/2` for a text and `1/2` for a date.
"""

from __future__ import annotations

from collections.abc import Iterable

import numpy as np

from draft.base.arrays import Floats
from draft.base.csvtext import Row, csv_text
from draft.base.units import MM_PER_INCH, rounded
from draft.fit.stretch import least, needed_stretches
from draft.garment.garment import Garment, SidePart
from draft.seams.sections import sections_of
from draft.seams.walk import walk_seams


def table_files(garment: Garment) -> dict[str, bytes]:
    """The tables of a pack by their place in it."""
    return {
        "tables/finished.csv": csv_text(finished_rows(garment)),
        "tables/ease.csv": csv_text(ease_rows(garment)),
        "tables/stretch.csv": csv_text(stretch_rows(garment)),
        "tables/seams.csv": csv_text(seam_rows(garment)),
        "tables/sections.csv": csv_text(section_rows(garment)),
    }


def finished_rows(garment: Garment) -> Iterable[Row]:
    """The finished measurements, a row for each way that a maker takes them."""
    yield ("measurement", "taken", "unit", *garment.sizes, "where")
    for finished in garment.finished:
        for taken, share in (("round", 1.0), ("flat", 0.5)) if finished.around else (("length", 1.0),):
            for unit, factor, places in (("cm", 10.0, 1), ("in", MM_PER_INCH, 2)):
                figures = [f"{value * share / factor:.{places}f}" for value in finished.values]
                yield (finished.name.replace("_", " "), taken, unit, *figures, finished.words)


def ease_rows(garment: Garment) -> Iterable[Row]:
    """By how much the garment is larger than the body that it was drafted for, at each level."""
    yield ("measurement", "over", "figure", "unit", *garment.sizes)
    for finished in garment.finished:
        if not finished.over:
            continue
        body, ease = finished.over[1], finished.values - finished.over[1]
        for figure, values in (("body", body), ("garment", finished.values), ("ease", ease)):
            for unit, factor, places in (("cm", 10.0, 1), ("in", MM_PER_INCH, 2)):
                figures = [rounded(value / factor, places) for value in values]
                yield (finished.title, finished.over[0], figure, unit, *figures)


def stretch_rows(garment: Garment) -> Iterable[Row]:
    """How far the cloth must stretch and how far it does: for each reason, and the least over all, across and down."""
    found = needed_stretches(garment)
    yield ("stretch needed", "way", "the cloth gives %", *(f"{size} %" for size in garment.sizes))
    for need in found:
        gives = f"{100 * need.limit[0]:.1f}"
        yield (need.why, "across" if need.across[0] >= 0.5 else "down", gives, *_percents(np.maximum(need.share, 0)))
    for way, least_of in zip(("across", "down"), least(garment, found), strict=True):
        known = garment.cloth.get(f"stretch_{way}")
        gives = "" if known is None else f"{100 * known:.1f}"
        yield ("least stretch of the cloth", way, gives, *_percents(least_of.share))


def _percents(shares: Floats) -> list[str]:
    return [f"{100 * share:.1f}" for share in shares]


def seam_rows(garment: Garment) -> Iterable[Row]:
    """Every join of every size: both lengths in one sewn seam, and by how much they miss one another."""
    yield ("join", "first side", "second side", "size", "first mm", "second mm", "stretched to", "difference mm")
    for walked in walk_seams(garment):
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
    return rounded(float(value), 2)


def _side(parts: tuple[SidePart, ...]) -> str:
    layer = f"{parts[0].layer} " if parts[0].layer else ""
    return layer + " then ".join(f"{part.piece}.{part.edge}" for part in parts)
