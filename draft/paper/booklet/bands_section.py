"""The bands worked out: from the opening to the cut length, for each size, and how to cut one to a measured opening."""

from __future__ import annotations

import numpy as np

from draft.base.arrays import Floats
from draft.garment.garment import SidePart
from draft.geometry.length import length
from draft.paper.booklet.booklet_page import Book
from draft.paper.booklet.facts import BookletFacts
from draft.paper.booklet.figures_table import put_table
from draft.paper.booklet.set_blocks import STRONG, paragraph
from draft.paper.booklet.sizes_section import TableRows, in_units
from draft.paper.drawing.wording import capitalised
from draft.paper.flat.bands import Band, bands
from draft.seams.sides import side
from draft.seams.walk import inside_angle

ASLANT = 3.0  # degrees


def bands_section(book: Book, facts: BookletFacts) -> None:
    """The section; nothing for a garment without stretched bands."""
    say = facts.wording.say
    found = _stretched(facts)
    if not found:
        return
    book.chapter(say("bands.title"), 90.0)
    book.topics([("", [say("bands.text")])])
    worn = {band.piece.name: band.width for band in bands(facts.drafted.garment, facts.middle)}
    for band in found:
        _band(book, band, worn[band.piece.name], facts)


def has_bands(facts: BookletFacts) -> bool:
    """Whether the booklet has the section."""
    return bool(_stretched(facts))


def _stretched(facts: BookletFacts) -> list[Band]:
    return [band for band in bands(facts.garment, facts.middle) if band.join.stretched]


def _band(book: Book, band: Band, finished: float, facts: BookletFacts) -> None:
    """One band: what it is cut by, its length in each size, and how to cut it to an opening that was measured.

    `finished` is how wide it is worn, mm, which is less than half of what is cut where that is not washed yet.
    """
    say, shown = facts.wording.say, list(facts.bodies)
    if is_pointed(band):
        book.topics([(facts.wording.title(band.piece), [say("bands.pointed")])])
        return
    ratio, ends = band_ratio(band, facts)[shown], _ends(band, facts.middle)
    formula = say("bands.formula" if ends else "bands.formula_plain", share=_shares(ratio, facts),
                  ends=facts.wording.length(2 * ends))  # fmt: skip
    width = say("bands.width", width=facts.wording.length(_cut_width(band, facts.middle)),
                finished=facts.wording.length(finished))  # fmt: skip
    book.section(facts.wording.title(band.piece), 60.0, marked=False)
    strong = paragraph(formula, book.format.full, STRONG)
    book.full_width(strong, 1.6)
    book.full_width(paragraph(width, book.format.full), 2.4)
    put_table(book, ["", "", *facts.sizes], [*_rows(band, facts, ends), *_share_row(ratio, facts)])
    book.topics([(say("bands.measure"), [_measured(band, ratio, ends, facts), _tried(band, facts)])])


def _measured(band: Band, ratio: Floats, ends: float, facts: BookletFacts) -> str:
    """How to cut this band to an opening that was measured."""
    inside = facts.garment.piece(band.edges[0].piece).edge(band.edges[0].edge).allowance
    one = _shares(ratio[:1], facts)
    factor = facts.wording.say("bands.factor_of_size") if _share_row(ratio, facts) else one
    lengths = {"length": facts.wording.length(inside), "ends": facts.wording.length(2 * ends)}
    return facts.wording.say("bands.measure_text", factor=factor, **lengths)


def _tried(band: Band, facts: BookletFacts) -> str:
    """A band round an edge that meets the fold of a panel goes over the head; another over a hand or the body."""
    pieces = [facts.garment.piece(part.piece) for part in band.edges]
    head = any(piece.on_fold for piece in pieces) and "neck" in band.edges[0].edge
    return facts.wording.say("bands.try", over=facts.wording.say("bands.over_neck" if head else "bands.over_other"))


def is_pointed(band: Band) -> bool:
    """Whether the band's ends are cut aslant, to the point of a V, so that no length alone describes it."""
    own = _own(band)
    ends = [inside_angle(band.piece, own.edge, at_start)[0] for at_start in (True, False)]
    return bool(np.any(np.abs(np.array(ends) - 90.0) > ASLANT))


def band_ratio(band: Band, facts: BookletFacts) -> Floats:
    """What the band measures for each length of its opening `(B,)`, as both are cut."""
    return np.asarray(length(band.piece.edge(_own(band).edge).segments) / opening(band, facts))


def _own(band: Band) -> SidePart:
    return (band.join.first if band.join.first[0].piece == band.piece.name else band.join.second)[0]


def _shares(ratio: Floats, facts: BookletFacts) -> str:
    """One share, or the range of it over the sizes."""
    low, high = (facts.wording.number(value, 2) for value in (float(ratio.min()), float(ratio.max())))
    return low if low == high else f"{low}–{high}"


def _share_row(ratio: Floats, facts: BookletFacts) -> TableRows:
    """The share of each size, where they differ: as exactly as the cut lengths beside it can be worked out by it."""
    shares = [facts.wording.number(float(value), 3) for value in ratio]
    apart = len({facts.wording.number(float(value), 2) for value in ratio}) > 1
    return [[capitalised(facts.wording.say("bands.share")), "", *shares]] if apart else []


def opening(band: Band, facts: BookletFacts) -> Floats:
    """The sewn length of one opening on the whole garment, mm `(bodies,)`."""
    join = band.join
    own, other = (join.first, join.second) if join.first[0].piece == band.piece.name else (join.second, join.first)
    return np.asarray(side(facts.garment, other).whole / side(facts.garment, own).copies)


def _rows(band: Band, facts: BookletFacts, ends: float) -> TableRows:
    shown = list(facts.bodies)
    cut = np.asarray(length(band.piece.edge(_own(band).edge).segments)) + 2 * ends
    names = [capitalised(facts.wording.say(f"bands.{key}")) for key in ("opening", "length")]
    return [
        *in_units(names[0], opening(band, facts)[shown], facts.wording),
        *in_units(names[1], cut[shown], facts.wording),
    ]


def _ends(band: Band, body: int) -> float:
    """The allowance at either end of a band: of the edges next to the one that is set on."""
    names = [edge.name for edge in band.piece.edges]
    at = names.index(_own(band).edge)
    return max(band.piece.edges[at - 1].allowance, band.piece.edges[(at + 1) % len(names)].allowance)


def _cut_width(band: Band, body: int) -> float:
    """Both halves and an allowance on either side."""
    return 2 * band.width + 2 * band.piece.edge(_own(band).edge).allowance
