"""The sentences of a band: closed and folded, sewn to its opening, and pressed."""

from __future__ import annotations

from collections.abc import Collection, Mapping

import numpy as np

from draft.garment.garment import Join, Piece, SidePart
from draft.paper.booklet.bands_section import band_ratio
from draft.paper.booklet.closing_words import closes, closings, each_of
from draft.paper.booklet.edges_marked import marked_on, marked_together, seam_called
from draft.paper.booklet.facts import BookletFacts, joined_to
from draft.paper.booklet.fitting_words import fitted, notches_met
from draft.paper.booklet.stages import Sentence, staged
from draft.paper.booklet.two_sides import is_pressed_before, the_side
from draft.paper.flat.bands import Band
from draft.seams.joins_in_order import neighbour
from draft.seams.parts_named import HALF, QUARTER
from draft.seams.walk import goes_on_along, is_peaked


def ring_folded(join: Join, facts: BookletFacts, found: Mapping[str, Band]) -> list[Sentence]:
    """A band is folded along its length once its ends are closed."""
    band = found.get(join.first[0].piece)
    last = any(one is join for one in closings(join, facts)[-1:])
    if not (band and last and _folded(band)):
        return []
    return [staged("ring_fold" + each_of(band.piece.name, facts), facts)]


def _folded(band: Band) -> bool:
    """Whether a band's finished width is half of what is cut."""
    return "other_long" in {edge.name for edge in band.piece.edges} or len(band.piece.edges) > 3


def band_sewn(band: Band, facts: BookletFacts) -> list[Sentence]:
    """The sentences of a band that is sewn to its opening."""
    join = band.join
    edges = marked_on(band.edges, facts, join)
    ring = _is_ring(band, facts)
    own = next(parts for parts in (join.first, join.second) if parts != band.edges)
    text = [] if ring else _folded_before(band, facts)
    key = "band" + each_of(band.piece.name, facts) if ring else "band_flat"
    text = [*text, *fitted(join, facts), staged(key, facts, piece=the_side(own, facts), edges=edges)]
    text += _pinned_first(band, facts) if _is_divided(band, facts, ring) else notches_met(join, facts)
    if join.ratio is not None and join.stretched:
        ratio = band_ratio(band, facts)[list(facts.bodies)]
        shares = dict.fromkeys(facts.wording.percent(float(reach(ratio))) for reach in (np.min, np.max))
        text.append(staged("shorter", facts, share=" – ".join(shares)))
    if at_a_point(band, facts):
        text.append(staged("point", facts))
    return [*text, *(_band_seam(band, facts) if ring else [])]


def _is_divided(band: Band, facts: BookletFacts, ring: bool) -> bool:
    """Whether the band's notches meet seams and middles of its opening: those of a ring by quarters, and those of a
    flat band along several edges, or along one of several pieces."""
    plain = [notch for notch in band.join.notches if not notch.double]
    if ring:
        return len(plain) == 3
    pieces = [facts.garment.piece(part.piece) for part in band.edges]
    return bool(plain) and sum(piece.copies() for piece in pieces) > 2 * band.piece.copies()


def _pinned_first(band: Band, facts: BookletFacts) -> list[Sentence]:
    """Where a flat opening has no notch of its own, the middle of a piece is its fold."""
    folded = any(_reaches_a_fold(part, facts) for part in band.edges)
    double = any(notch.double for notch in band.join.notches)
    parts = {notch.part for notch in band.piece.notches if notch.part}
    named = ["quarters_named" if QUARTER in parts else "quarters_half"] if HALF in parts else []
    keys = named + ["quarters_fold"] * folded + ["notches_back"] * double
    said = facts.piece(band.piece)
    return [staged(key, facts, piece=said) for key in ("quarters", *keys)]


def _reaches_a_fold(part: SidePart, facts: BookletFacts) -> bool:
    """Whether an edge begins or ends on the fold of its piece, so that its middle lies there."""
    beside = (neighbour(facts.garment, part, at_end) for at_end in (False, True))
    return any(facts.garment.piece(piece).edge(edge).on_fold for piece, edge in beside)


def _is_ring(band: Band, facts: BookletFacts) -> bool:
    """Whether the band's ends are sewn to one another before it is sewn on."""
    return any(closes(one, band.piece.name, facts) for one in facts.garment.joins)


def pressed_under(join: Join, facts: BookletFacts, found: Mapping[str, Band]) -> bool:
    """Whether what is stitched down was pressed under before its band was sewn on."""
    band = found.get(join.first[0].piece)
    return band is not None and join in _under(band, facts) and not _is_ring(band, facts)


def _folded_before(band: Band, facts: BookletFacts) -> list[Sentence]:
    """A flat band is pressed before it is sewn on: its fold, and the allowance that is stitched down later."""
    piece = facts.piece(band.piece)
    down = [one for one in _under(band, facts) if not is_pressed_before(one, facts)]
    fold = [staged("band_fold", facts, piece=piece)] if _folded(band) and not band.piece.layers else []
    edges = marked_together(down, facts)
    return [*fold, *([staged("band_under", facts, piece=piece, edges=edges)] if down else [])]


def _under(band: Band, facts: BookletFacts) -> list[Join]:
    """What of a band is stitched down on its seam, and what goes on from that along the same line, as within a lap."""
    own = [one for one in facts.garment.joins if one.onto and one.first[0].piece == band.piece.name]
    found = [one for one in own if one.onto == band.join.name]
    edges = {part.edge for one in found for part in one.first}
    return [*found, *(one for one in own if one not in found and _goes_on(one, edges, band.piece))]


def _goes_on(join: Join, edges: Collection[str], piece: Piece) -> bool:
    return any(goes_on_along(piece, part.edge, edge) for part in join.first for edge in edges)


def at_a_point(band: Band, facts: BookletFacts) -> bool:
    """Whether the band's opening begins at a point, as that of a V neck does."""
    begin = band.edges[0]
    piece = facts.garment.piece(begin.piece)
    return piece.on_fold and is_peaked(piece, begin.edge, at_start=not begin.reverse)


def _band_seam(band: Band, facts: BookletFacts) -> list[Sentence]:
    """Where the band's own seam comes to lie: at the beginning of its opening."""
    begin, own = band.edges[0], facts.piece(band.piece)
    piece, edge = neighbour(facts.garment, begin, at_end=False)
    if facts.garment.piece(piece).edge(edge).on_fold:
        return [staged("band_seam_middle", facts, band=own, piece=facts.piece(facts.garment.piece(piece)))]
    joins = joined_to(facts.garment, piece, edge)
    return [staged("band_seam_at", facts, band=own, seam=seam_called(joins[0].name, facts))] if joins else []


def after_band(band: Band, facts: BookletFacts) -> list[Sentence]:
    """Away from a knit band; into a woven one, the other edge of which is turned under already."""
    if facts.knit:
        return [staged("press_band", facts, piece=facts.piece(band.piece))]
    return [staged("press_into", facts, piece=facts.piece(band.piece))]
