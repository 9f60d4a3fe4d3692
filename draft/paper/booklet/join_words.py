"""The sentences of a join, written out from what it sews: flat, into a ring, round an opening, onto a facing."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence

import numpy as np

from draft.garment.garment import Join, Piece, SidePart
from draft.paper.booklet.bands_section import band_ratio
from draft.paper.booklet.edges_marked import marked, marked_on, seam_called
from draft.paper.booklet.faced import faced
from draft.paper.booklet.facts import BookletFacts, joined_to
from draft.paper.booklet.notions_words import sewn_in
from draft.paper.booklet.opening_words import left_open
from draft.paper.booklet.two_sides import caught, sides_together, sides_turned, stitched_down, the_side, within
from draft.paper.booklet.weight import carries
from draft.paper.drawing.called import Called
from draft.paper.drawing.wording import capitalised
from draft.paper.flat.bands import Band
from draft.seams.joins_in_order import folds_an_end, joins_in_order, neighbour
from draft.seams.sides import side
from draft.seams.walk import goes_on_along, is_peaked
from draft.seams.wedges import closes_a_wedge

_EASED = 0.002
"""A side longer by less than this share is as long as the other for a maker."""


def joined(join: Join, facts: BookletFacts, found: Mapping[str, Band]) -> list[str]:
    """The sentences of one join."""
    if join.onto:
        return stitched_down(join, facts, _pressed_under(join, facts, found))
    if join.of_layers:
        sewn = [*sides_together(join, facts), *_notches(join, facts), *left_open(join, facts)]
        return [*sewn, facts.said("sewing.stitch_plain"), *sides_turned(join, facts)]
    if folds_an_end(facts.garment, join):
        return [_end(join, facts), facts.said("sewing.stitch_plain"), facts.wording.say("sewing.end_turned")]
    if closes_a_wedge(facts.garment, join):
        return [*_wedge(join, facts), *_notches(join, facts), facts.said("sewing.stitch_plain")]
    if len(join.pieces) == 1:
        closed = [*_closed(join, facts, found), *_open(join, facts), _stitch_of(join, facts)]
        return [
            *closed,
            *([] if facts.knit else [facts.wording.say("sewing.press_open")]),
            *_ring_folded(join, facts, found),
        ]
    band = found.get(join.first[0].piece) or found.get(join.second[0].piece)
    if band and band.join is join:
        text = [*_band(band, facts), *caught(join, facts), *left_open(join, facts)]
        plain = _at_a_point(band, facts) or not facts.knit  # a woven band closes over the edges
        return [*text, facts.said("sewing.stitch_plain") if plain else _stitch(facts), *_after_band(band, facts)]
    return [*_flat(join, facts), *_after(join, facts)]


def _end(join: Join, facts: BookletFacts) -> str:
    """The end of a band that is folded over right sides together."""
    return facts.wording.say("sewing.end_folded", piece=facts.pieces([join.first[0].piece]))


def _wedge(join: Join, facts: BookletFacts) -> list[str]:
    """A cut into a piece that is closed as a dart is, with what is sewn into it."""
    piece = join.first[0].piece
    letter = facts.letters[join.name]
    text = facts.wording.say("sewing.wedge" + _each(piece, facts), piece=facts.pieces([piece]), letter=letter)
    return [text, *sewn_in(join.name, facts)]


def _flat(join: Join, facts: BookletFacts) -> list[str]:
    """A join of several pieces, until it is sewn."""
    text: list[str] = []
    if len(join.first) == len(join.second) == 1:
        text += _pair(join, facts)
    elif _tube(join, facts):
        piece = join.first[0].piece
        key = "sewing.set_in" + (_each(piece, facts) if _is_sleeve(piece, facts) else "")
        text += [facts.wording.say(key, piece=_the(join.first[:1], facts))]
    else:
        text += [facts.wording.say("sewing.plain", first=_the(join.first, facts), second=_the(join.second, facts))]
    text += [*caught(join, facts), *_fitted(join, facts), *_notches(join, facts), *within(join, facts)]
    text += _open(join, facts)
    text += _elastic(join, facts)
    said = sewn_in(join.name, facts)
    return [*text, *said, *([facts.wording.say("sewing.tape")] if carries(join, facts) and not said else [])]


def _after(join: Join, facts: BookletFacts) -> list[str]:
    """The stitch, and what is done to the seam then: a facing is understitched and turned, all else is pressed."""
    if join.is_facing:
        return [facts.said("sewing.stitch_plain"), *faced(join, facts)]
    covering = _covering(join, facts)
    if covering and not facts.knit:
        piece = facts.pieces([covering[0].first[0].piece])
        return [facts.said("sewing.stitch_plain"), facts.wording.say("sewing.press_into", piece=piece)]
    return [_stitch(facts), _pressed(join, facts)]


def _covering(join: Join, facts: BookletFacts) -> list[Join]:
    """What is stitched down on this seam later, and covers it: its edges are not neatened."""
    return [one for one in facts.garment.joins if one.onto == join.name]


def _stitch_of(join: Join, facts: BookletFacts) -> str:
    """No overlock where the needle stays in the cloth and the pieces are turned about it."""
    return facts.said("sewing.stitch_plain") if _turns(join, facts) else _stitch(facts)


def _turns(join: Join, facts: BookletFacts) -> bool:
    """Whether the seam runs on round a point from one before, or into one after it."""
    return any(_closed_before(other, facts) for other in _closings(join, facts))


def _open(join: Join, facts: BookletFacts) -> list[str]:
    """What is left open of a seam, and where that of one edge goes on as an opening."""
    found = left_open(join, facts)
    if not len(join.first) == len(join.second) == 1:
        return found
    part, piece = join.first[0], facts.garment.piece(join.first[0].piece)
    beside = [neighbour(facts.garment, part, at_end)[1] for at_end in (False, True)]
    names = [name for name in beside if piece.edge(name).unjoined and goes_on_along(piece, part.edge, name)]
    edges = marked([SidePart(piece.name, name) for name in names], facts)
    return [*found, *([facts.wording.say("sewing.open", edges=edges)] if names else [])]


def _pair(join: Join, facts: BookletFacts) -> list[str]:
    """One edge to one edge."""
    first, second = join.first[0], join.second[0]
    over = any(_over_a_fold(part, facts) for part in (first, second))
    twice = side(facts.garment, join.first).copies == 2 and not over
    fields = {"first": _the([first], facts), "second": _the([second], facts), "letter": facts.letters[join.name]}
    return [facts.wording.say("sewing.along_two" if twice else "sewing.along", **fields)]


def _over_a_fold(part: SidePart, facts: BookletFacts) -> bool:
    """Whether an edge runs on over a fold: a seam along it goes across the body in one."""
    piece = facts.garment.piece(part.piece)
    return any(piece.edge(neighbour(facts.garment, part, at_end)[1]).on_fold for at_end in (False, True))


def _closed(join: Join, facts: BookletFacts, found: Mapping[str, Band]) -> list[str]:
    """A piece sewn to itself: to the other of its pair, into a ring, or into a tube."""
    piece = facts.garment.piece(join.first[0].piece)
    edges = list(dict.fromkeys(part.edge for part in (*join.first, *join.second)))
    fields = {"piece": facts.piece(piece), "letter": facts.letters[join.name]}
    if len(edges) == 1:
        key = "sewing.itself_folded" if piece.on_fold and piece.cut == 1 else "sewing.itself"
        return [facts.wording.say(key, **fields), *_notches(join, facts)]
    if _closed_before(join, facts):
        return [facts.wording.say("sewing.ring_on", **fields)]
    kind = "ring" if piece.name in found else "tube"
    return [facts.wording.say(f"sewing.{kind}{_each(piece.name, facts)}", **fields), *_notches(join, facts)]


def _each(piece: str, facts: BookletFacts) -> str:
    """The end of the key of what is said of several copies of a piece."""
    return "_each" if facts.garment.piece(piece).cut > 1 else ""


def _closings(join: Join, facts: BookletFacts) -> list[Join]:
    """All joins that sew the same piece to itself, in the order in which they are sewn."""
    piece = join.first[0].piece
    return [one for one in joins_in_order(facts.garment) if _closes(one, piece, facts)]


def _closes(join: Join, piece: str, facts: BookletFacts) -> bool:
    """Whether a join makes a ring, a tube or one whole of a piece."""
    garment = facts.garment
    return join.closes(piece) and not folds_an_end(garment, join) and not closes_a_wedge(garment, join)


def _closed_before(join: Join, facts: BookletFacts) -> bool:
    """Whether the seam goes on from one that closed the ends of the same piece, round a corner."""
    before = _closings(join, facts)
    before = before[: before.index(join)]
    parts = [part for one in before for part in (*one.first, *one.second)]
    ends = {neighbour(facts.garment, part, at_end) for part in parts for at_end in (False, True)}
    return all((part.piece, part.edge) in ends for part in (*join.first, *join.second))


def _ring_folded(join: Join, facts: BookletFacts, found: Mapping[str, Band]) -> list[str]:
    """A band is folded along its length once its ends are closed."""
    band = found.get(join.first[0].piece)
    last = _closings(join, facts)[-1] is join
    if not (band and last and _folded(band)):
        return []
    return [facts.wording.say("sewing.ring_fold" + _each(band.piece.name, facts))]


def _folded(band: Band) -> bool:
    """Whether a band's finished width is half of what is cut."""
    return "other_long" in {edge.name for edge in band.piece.edges} or len(band.piece.edges) > 3


def _band(band: Band, facts: BookletFacts) -> list[str]:
    say, join = facts.wording.say, band.join
    edges = marked_on(band.edges, facts, join)
    ring = _is_ring(band, facts)
    own = next(parts for parts in (join.first, join.second) if parts != band.edges)
    text = [] if ring else _folded_before(band, facts)
    key = "sewing.band" + _each(band.piece.name, facts) if ring else "sewing.band_flat"
    text += [say(key, piece=_the(own, facts), edges=edges)]
    text += [say("sewing.quarters")] if ring and sum(not n.double for n in join.notches) == 3 else _notches(join, facts)
    if join.ratio is not None and join.stretched:
        share = float(np.mean(band_ratio(band, facts)[list(facts.bodies)]))
        text.append(say("sewing.shorter", share=facts.wording.percent(share)))
    text += _fitted(join, facts)
    if _at_a_point(band, facts):
        text.append(say("sewing.point"))
    return [*text, *(_band_seam(band, facts) if ring else [])]


def _is_ring(band: Band, facts: BookletFacts) -> bool:
    """Whether the band's ends are sewn to one another before it is sewn on."""
    return any(_closes(one, band.piece.name, facts) for one in facts.garment.joins)


def _pressed_under(join: Join, facts: BookletFacts, found: Mapping[str, Band]) -> bool:
    """Whether what is stitched down was pressed under before its band was sewn on."""
    band = found.get(join.first[0].piece)
    return band is not None and join in _under(band, facts) and not _is_ring(band, facts)


def _folded_before(band: Band, facts: BookletFacts) -> list[str]:
    """A flat band is pressed before it is sewn on: its fold, and the allowance that is stitched down later."""
    say, piece = facts.wording.say, facts.piece(band.piece)
    down = _under(band, facts)
    fold = [say("sewing.band_fold", piece=piece)] if _folded(band) and not band.piece.layers else []
    edges = facts.wording.listed([marked(one.first, facts, one) for one in down])
    return [*fold, *([say("sewing.band_under", piece=piece, edges=edges)] if down else [])]


def _under(band: Band, facts: BookletFacts) -> list[Join]:
    """What of a band is stitched down on its seam, and what goes on from that along the same line, as within a lap."""
    own = [one for one in facts.garment.joins if one.onto and one.first[0].piece == band.piece.name]
    found = [one for one in own if one.onto == band.join.name]
    edges = {part.edge for one in found for part in one.first}
    return [*found, *(one for one in own if one not in found and _goes_on(one, edges, band.piece))]


def _goes_on(join: Join, edges: Collection[str], piece: Piece) -> bool:
    return any(goes_on_along(piece, part.edge, edge) for part in join.first for edge in edges)


def _at_a_point(band: Band, facts: BookletFacts) -> bool:
    """Whether the band's opening begins at a point, as that of a V neck does."""
    begin = band.edges[0]
    piece = facts.garment.piece(begin.piece)
    return piece.on_fold and is_peaked(piece, begin.edge, at_start=not begin.reverse)


def _band_seam(band: Band, facts: BookletFacts) -> list[str]:
    """Where the band's own seam comes to lie: at the beginning of its opening."""
    begin = band.edges[0]
    piece, edge = neighbour(facts.garment, begin, at_end=False)
    if facts.garment.piece(piece).edge(edge).on_fold:
        return [facts.wording.say("sewing.band_seam_middle", piece=facts.piece(facts.garment.piece(piece)))]
    joins = joined_to(facts.garment, piece, edge)
    return [facts.wording.say("sewing.band_seam_at", seam=seam_called(joins[0].name, facts))] if joins else []


def _after_band(band: Band, facts: BookletFacts) -> list[str]:
    """Away from a knit band; into a woven one, the other edge of which is turned under already."""
    if facts.knit:
        return [facts.wording.say("sewing.press_band")]
    return [facts.wording.say("sewing.press_into", piece=facts.piece(band.piece))]


def _tube(join: Join, facts: BookletFacts) -> bool:
    """Whether one whole piece, closed to a tube before, goes into an opening of several edges."""
    piece = join.first[0].piece
    return (
        len(join.first) == 1
        and len(join.second) > 1
        and any(_closes(other, piece, facts) for other in facts.garment.joins)
    )


def _fitted(join: Join, facts: BookletFacts) -> list[str]:
    drawn = [
        part
        for part in (*join.first, *join.second)
        if facts.garment.piece(part.piece).edge(part.edge).gathered is not None
    ]
    if drawn:
        return [facts.wording.say("sewing.gathered", first=_the(drawn[:1], facts))]
    if join.ratio is None:
        return []
    longer = float(np.mean(join.ratio[list(facts.bodies)])) - 1
    if join.fit == "gathered":
        return [facts.wording.say("sewing.gathered", first=_the(join.first, facts))]
    if join.fit == "eased" and longer > _EASED:
        share = facts.wording.percent(longer) if longer >= 0.01 else facts.wording.say("units.percent", number="1")
        return [capitalised(facts.wording.say("sewing.eased", first=_the(join.first, facts), share=share))]
    return []


def _elastic(join: Join, facts: BookletFacts) -> list[str]:
    """The elastic that draws in an edge of a seam: a hem is a casing for it, here it is the maker who decides."""
    parts, piece = (*join.first, *join.second), facts.garment.piece
    drawn = [part for part in parts if piece(part.piece).edge(part.edge).elastic is not None]
    return [facts.wording.say("sewing.elastic", edges=marked_on(drawn, facts, join))] if drawn else []


def _notches(join: Join, facts: BookletFacts) -> list[str]:
    if not join.notches:
        return []
    double = any(notch.double for notch in join.notches)
    return [facts.wording.say("sewing.notches_double" if double else "sewing.notches")]


def _pressed(join: Join, facts: BookletFacts) -> str:
    """What is set in as a tube has its own side; else to one side where the seam is overlocked, else open."""
    if _tube(join, facts):
        key = "sewing.press_to" if _is_sleeve(join.first[0].piece, facts) else "sewing.press_away"
        return facts.wording.say(key, piece=_the(join.first, facts))
    if not facts.knit:
        return facts.wording.say("sewing.press_open")
    return facts.wording.say("sewing.press_to", piece=_the(join.second, facts))


def _is_sleeve(piece: str, facts: BookletFacts) -> bool:
    """Whether two edges of a piece make it a tube, and not its two copies one whole, as those of a hood."""
    own = [one for one in facts.garment.joins if _closes(one, piece, facts)]
    return any(len({part.edge for part in (*one.first, *one.second)}) == 2 for one in own)


def _stitch(facts: BookletFacts) -> str:
    return facts.said("sewing.stitch")


def _the(parts: Sequence[SidePart], facts: BookletFacts) -> Called:
    return the_side(parts, facts)
