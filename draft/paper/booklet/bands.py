"""The bands worked out: from the opening to the cut length, for each size, and how to cut one to a measured opening."""

from __future__ import annotations

import numpy as np

from draft.geometry.length import length
from draft.paper.booklet.about import BookletFacts
from draft.paper.booklet.layout import STRONG, Book, words
from draft.paper.booklet.sizes import Rows, in_units
from draft.paper.drawing import Floats
from draft.paper.flat.strips import Band
from draft.paper.flat.strips import bands as all_bands
from draft.paper.wording import sentence
from draft.seams.sides import side


def bands(book: Book, facts: BookletFacts) -> None:
    """The section; nothing for a garment without stretched bands."""
    say, shown = facts.wording.say, list(facts.bodies)
    found = [band for band in all_bands(facts.garment, facts.middle) if band.join.stretched]
    if not found:
        return
    book.section(say("bands.title"), 150.0)
    book.entry("", say("bands.text"))
    for band in found:
        ratio, ends = _ratio(band)[shown], _ends(band, facts.middle)
        share = _shares(ratio, facts)
        key = "bands.formula" if ends else "bands.formula_plain"
        formula = say(key, share=share, allowance=facts.wording.length(ends))
        width = say("bands.width", width=facts.wording.length(_cut_width(band, facts.middle)),
                    finished=facts.wording.length(band.width))  # fmt: skip
        book.entry(facts.wording.title(band.piece), words(formula, STRONG), width)
        book.table(["", "", *facts.sizes], _rows(band, facts, ends))
    first = found[0]
    inside = facts.garment.piece(first.edges[0].piece).edge(first.edges[0].edge).allowance
    factor = facts.wording.number(float(np.mean(_ratio(first)[shown])), 2)
    both_ends = facts.wording.length(2 * _ends(first, facts.middle))
    text = say("bands.measure_text", length=facts.wording.length(inside), factor=factor, ends=both_ends)
    book.entry(say("bands.measure"), text, say("bands.try", over=say("bands.over_neck")))


def _ratio(band: Band) -> Floats:
    assert band.join.ratio is not None
    return band.join.ratio


def _shares(ratio: Floats, facts: BookletFacts) -> str:
    """One share, or the range of it over the sizes."""
    low, high = (facts.wording.number(value, 2) for value in (float(ratio.min()), float(ratio.max())))
    return low if low == high else f"{low}–{high}"


def opening(band: Band, facts: BookletFacts) -> Floats:
    """The sewn length of one opening, mm, on the whole garment."""
    join = band.join
    own, other = (join.first, join.second) if join.first[0].piece == band.piece.name else (join.second, join.first)
    return np.asarray(side(facts.garment, other).whole / side(facts.garment, own).copies)


def _rows(band: Band, facts: BookletFacts, ends: float) -> Rows:
    shown = list(facts.bodies)
    own = band.join.first if band.join.first[0].piece == band.piece.name else band.join.second
    cut = np.asarray(length(band.piece.edge(own[0].edge).segments)) + 2 * ends
    names = [sentence(facts.wording.say(f"bands.{key}")) for key in ("opening", "length")]
    return [
        *in_units(names[0], opening(band, facts)[shown], facts.wording),
        *in_units(names[1], cut[shown], facts.wording),
    ]


def _ends(band: Band, body: int) -> float:
    """The allowance at either end of a band: of the edges next to the one that is set on."""
    own = band.join.first if band.join.first[0].piece == band.piece.name else band.join.second
    names = [edge.name for edge in band.piece.edges]
    at = names.index(own[0].edge)
    return max(band.piece.edges[at - 1].allowance, band.piece.edges[(at + 1) % len(names)].allowance)


def _cut_width(band: Band, body: int) -> float:
    """Both halves and an allowance on either side."""
    own = band.join.first if band.join.first[0].piece == band.piece.name else band.join.second
    return 2 * band.width + 2 * band.piece.edge(own[0].edge).allowance
