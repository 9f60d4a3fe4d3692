"""How what is left open of a seam is finished, in words: a zip put in, a slit hemmed, a hole closed by hand."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from draft.garment.garment import Join, Opening, SidePart
from draft.geometry.length import length
from draft.paper.booklet.edges_marked import marked, seam_called
from draft.paper.booklet.facts import BookletFacts
from draft.paper.booklet.stages import Sentence, by_cloth, staged
from draft.seams.joins_in_order import neighbour
from draft.seams.openings import NEAR, Gap, gaps

_ALIKE = 0.5  # mm: sizes that differ by less are left open alike
_DISTANCES = {"gap": 5.0, "hair": 3.0, "row": 10.0, "tail": 15.0}
"""What the sentences of a zip name, mm: slider below the waist, fold beside the seam, row beside the fold, what is left
below the teeth of a shortened one (common practice)."""
_LEAST_LAP = 12.0  # mm: what lies over a zip must be as wide as its teeth and a row of stitches beside them


def opening_title(sort: str, join: Join, facts: BookletFacts) -> str:
    """`Zip, centre back`."""
    return facts.wording.say(f"sewing.title_{sort}", seam=facts.wording.named(join.name))


def zip_put_in(join: Join, opening: Opening, facts: BookletFacts) -> list[Sentence]:
    """The sentences of one zip."""
    say = facts.wording.say
    sort = opening.use.replace(" ", "_")
    place = place_of(opening, facts)
    how_long = said_length(opening, facts) or say("sewing.to_notch")
    fields = {"place": place, "length": how_long, "top": _on_top(join, facts), "seam": seam_called(join.name, facts)}
    fields |= {name: facts.wording.length(mm) for name, mm in _DISTANCES.items()}
    text = [staged(f"{sort}_{part}", facts, **fields) for part in ("prepare", "first", "second", "last")]
    return [*_narrow(join, opening, facts), *text]


def _on_top(join: Join, facts: BookletFacts) -> str:
    """The side that lies over a lapped zip: in a centre seam the wearer's left, else that of the piece named first."""
    if len(join.pieces) == 1:
        return facts.wording.say("sewing.top_left")
    return facts.piece(facts.garment.piece(join.first[0].piece))


def _narrow(join: Join, opening: Opening, facts: BookletFacts) -> list[Sentence]:
    """A hint where the allowance is too narrow to lie over a zip."""
    width = facts.garment.piece(opening.part.piece).edge(opening.part.edge).allowance
    if opening.use != "lapped zip" or width >= _LEAST_LAP or facts.bare:
        return []
    return [staged("lap_narrow", facts, length=facts.wording.length(width))]


_OWN = 7.0
"""From the fold, mm, where it is not known how wide the maker's own allowance is: within any usual one."""


def slit_hemmed(join: Join, facts: BookletFacts) -> list[Sentence]:
    """The sentences of a slit, once the hem is turned up beside it."""
    width = facts.garment.piece(join.first[0].piece).edge(join.first[0].edge).allowance
    distance = facts.wording.length(_OWN if facts.bare else max(width - 3.0, width / 2))
    return [staged("slit", facts, distance=distance), by_cloth("stitch_hem", facts)]


def closed_by_hand(facts: BookletFacts) -> list[Sentence]:
    """The sentences of a hole that all was turned through."""
    return [staged("turning", facts)]


def said_length(opening: Opening, facts: BookletFacts) -> str:
    """How long an opening is, where that is alike in all sizes."""
    lengths = opening.length[list(facts.bodies)]
    return facts.wording.length(float(lengths[0])) if float(np.ptp(lengths)) < _ALIKE else ""


def place_of(opening: Opening, facts: BookletFacts) -> str:
    """The edge that an opening begins at, which stands on the paper; within a seam the name of its place."""
    piece = facts.garment.piece(opening.part.piece)
    end = length(piece.edge(opening.part.edge).segments)
    part = SidePart(opening.part.piece, opening.part.edge)
    if bool(np.all(opening.at < NEAR)):
        return _neighbour(part, False, facts)
    if bool(np.all(opening.at > end - NEAR)):
        return _neighbour(part, True, facts)
    return facts.wording.say("sewing.place", place=facts.wording.named(opening.place))


def _neighbour(part: SidePart, at_end: bool, facts: BookletFacts) -> str:
    return marked([SidePart(*neighbour(facts.garment, part, at_end))], facts)


def left_open(join: Join, facts: BookletFacts) -> list[Sentence]:
    """A sentence for each opening of a join; the seam below an invisible zip is sewn up to its end."""
    return [_said(gap, facts) for gap in gaps(facts.garment, join)]


def _said(gap: Gap, facts: BookletFacts) -> Sentence:
    say, opening = facts.wording.say, gap.opening
    place, how_long = place_of(opening, facts), said_length(opening, facts)
    if opening.use == "invisible zip":
        return staged("up_to_zip", facts)
    how = say("sewing.open_for", length=how_long) if how_long else say("sewing.open_to_notch")
    from_end = gap.at_start or gap.at_end
    said = staged("left_open" if from_end else "left_open_within", facts, place=place, how=how)
    side = gap.opening.on_side
    return replace(said, text=f"{said.text} {say(f'sewing.open_{side}')}") if side else said
