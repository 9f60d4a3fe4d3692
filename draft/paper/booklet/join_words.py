"""The sentences of a join, written out from what it sews: flat, into a ring, round an opening, onto a facing."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from draft.garment.garment import Join, SidePart
from draft.paper.booklet.band_words import after_band, at_a_point, band_sewn, pressed_under, ring_folded
from draft.paper.booklet.closing_words import closed, closed_before, closes, closings, each_of
from draft.paper.booklet.edges_marked import marked, marked_on
from draft.paper.booklet.faced import faced, neatened_before
from draft.paper.booklet.faced_slit import is_faced_slit, slit_faced
from draft.paper.booklet.facts import BookletFacts
from draft.paper.booklet.fitting_words import fitted, notches_met, notches_told_apart
from draft.paper.booklet.notions_words import sewn_in
from draft.paper.booklet.opening_words import left_open
from draft.paper.booklet.stages import Sentence, by_cloth, staged
from draft.paper.booklet.two_sides import caught, sides_together, sides_turned, stitched_down, the_side, within
from draft.paper.booklet.weight import carries
from draft.paper.flat.bands import Band
from draft.seams.joins_in_order import folds_an_end, neighbour
from draft.seams.sides import side
from draft.seams.walk import goes_on_along
from draft.seams.wedges import closes_a_wedge


def joined(join: Join, facts: BookletFacts, found: Mapping[str, Band]) -> list[Sentence]:
    """The sentences of one join."""
    if join.onto:
        return stitched_down(join, facts, pressed_under(join, facts, found))
    if join.of_layers:
        sewn = [*sides_together(join, facts), *notches_met(join, facts), *left_open(join, facts)]
        return [*sewn, by_cloth("sew_plain", facts), *sides_turned(join, facts)]
    if folds_an_end(facts.garment, join):
        return [_end(join, facts), by_cloth("sew_plain", facts), staged("end_turned", facts)]
    if closes_a_wedge(facts.garment, join):
        return [*_wedge(join, facts), *notches_met(join, facts), by_cloth("stitch_plain", facts)]
    if len(join.pieces) == 1:
        own = [*closed(join, facts, found), *_open(join, facts), _stitch_of(join, facts)]
        return [
            *own,
            *([] if facts.knit else [staged("press_open", facts)]),
            *ring_folded(join, facts, found),
        ]
    band = found.get(join.first[0].piece) or found.get(join.second[0].piece)
    if band and band.join is join:
        text = [*band_sewn(band, facts), *caught(join, facts), *left_open(join, facts)]
        plain = at_a_point(band, facts) or not facts.knit  # a woven band closes over the edges
        return [*text, by_cloth("sew_plain", facts) if plain else _stitch(facts), *after_band(band, facts)]
    return [*_flat(join, facts), *_after(join, facts), *_elastic(join, facts)]


def _end(join: Join, facts: BookletFacts) -> Sentence:
    """The end of a band that is folded over right sides together."""
    letter = facts.letters[join.name]
    return staged("end_folded", facts, piece=facts.pieces([join.first[0].piece]), letter=letter)


def _wedge(join: Join, facts: BookletFacts) -> list[Sentence]:
    """A cut into a piece that is closed as a dart is, with what is sewn into it."""
    piece = join.first[0].piece
    letter = facts.letters[join.name]
    laid = staged("wedge" + each_of(piece, facts), facts, piece=facts.pieces([piece]), letter=letter)
    return [laid, *sewn_in(join.name, facts), staged("wedge_sewn", facts)]


def _flat(join: Join, facts: BookletFacts) -> list[Sentence]:
    """A join of several pieces, until it is sewn: what is made ready, how the pieces are laid, and what meets."""
    ready, tape = neatened_before(join, facts), sewn_in(join.name, facts)
    if is_faced_slit(join, facts):
        return [*ready, *tape, *slit_faced(join, facts)]
    tape = tape or ([staged("tape", facts)] if carries(join, facts) else [])
    ready += [*fitted(join, facts), *tape, *caught(join, facts)]
    return [*ready, _laid(join, facts), *_met(join, facts), *within(join, facts), *_open(join, facts)]


def _laid(join: Join, facts: BookletFacts) -> Sentence:
    """How the sides of a join are laid on one another."""
    if len(join.first) == len(join.second) == 1:
        return _pair(join, facts)
    if _tube(join, facts):
        piece = join.first[0].piece
        key = "set_in" + (each_of(piece, facts) if _is_sleeve(piece, facts) else "")
        return staged(key, facts, piece=the_side(join.first[:1], facts))
    if folded := _folded_along(join):
        return _over_itself(join, folded, facts)
    return staged(
        "plain" + (each_of(join.first[0].piece, facts) if _is_one_edge(join.first) else ""),
        facts,
        first=the_side(join.first, facts),
        second=the_side(join.second, facts),
        letter=facts.letters[join.name],
    )


def is_set_in(join: Join, facts: BookletFacts) -> bool:
    """Whether a tube is put into its opening: what the designer says of pinning it is said once it is there."""
    return _tube(join, facts)


def _is_one_edge(parts: Sequence[SidePart]) -> bool:
    """Whether a side is one edge of a piece, whole and not of one of its layers."""
    return len(parts) == 1 and not parts[0].layer


def _folded_along(join: Join) -> str:
    """The piece that is sewn to itself in a seam that goes on over two others: a sleeve, then front to back."""
    pieces = [[part.piece for part in parts] for parts in (join.first, join.second)]
    both = set(pieces[0]) & set(pieces[1])
    return both.pop() if len(both) == 1 and all(len(names) == 2 for names in pieces) else ""


def _over_itself(join: Join, folded: str, facts: BookletFacts) -> Sentence:
    first, second = (the_side(_others(parts, folded), facts) for parts in (join.first, join.second))
    letter, piece = facts.letters[join.name], facts.pieces([folded])
    return staged("along_folded", facts, folded=piece, first=first, second=second, letter=letter)


def _others(parts: Sequence[SidePart], folded: str) -> list[SidePart]:
    return [part for part in parts if part.piece != folded]


def _met(join: Join, facts: BookletFacts) -> list[Sentence]:
    """That the notches meet, where it was not said as a tube was put into its opening."""
    return notches_told_apart(join, facts) if _tube(join, facts) else notches_met(join, facts)


def _after(join: Join, facts: BookletFacts) -> list[Sentence]:
    """The stitch, and what is done to the seam then: a facing is understitched and turned, all else is pressed."""
    plain = by_cloth("stitch_plain" if is_faced_slit(join, facts) else "sew_plain", facts)
    if join.is_facing:
        return [plain, *faced(join, facts)]
    covering = _covering(join, facts)
    if covering and not facts.knit:
        piece = facts.pieces([covering[0].first[0].piece])
        return [plain, staged("press_into", facts, piece=piece)]
    return [by_cloth("sew", facts), _pressed(join, facts)]


def _covering(join: Join, facts: BookletFacts) -> list[Join]:
    """What is stitched down on this seam later, and covers it: its edges are not neatened."""
    return [one for one in facts.garment.joins if one.onto == join.name]


def _stitch_of(join: Join, facts: BookletFacts) -> Sentence:
    """No overlock where the needle stays in the cloth and the pieces are turned about it."""
    return by_cloth("sew_plain", facts) if _turns(join, facts) else _stitch(facts)


def _turns(join: Join, facts: BookletFacts) -> bool:
    """Whether the seam runs on round a point from one before, or into one after it."""
    return any(closed_before(other, facts) for other in closings(join, facts))


def _open(join: Join, facts: BookletFacts) -> list[Sentence]:
    """What is left open of a seam, and where that of one edge goes on as an opening."""
    found = left_open(join, facts)
    if not len(join.first) == len(join.second) == 1:
        return found
    part, piece = join.first[0], facts.garment.piece(join.first[0].piece)
    beside = [neighbour(facts.garment, part, at_end)[1] for at_end in (False, True)]
    names = [name for name in beside if piece.edge(name).unjoined and goes_on_along(piece, part.edge, name)]
    edges = marked([SidePart(piece.name, name) for name in names], facts)
    return [*found, *([staged("open", facts, edges=edges)] if names else [])]


def _pair(join: Join, facts: BookletFacts) -> Sentence:
    """One edge to one edge."""
    first, second = join.first[0], join.second[0]
    over = any(_over_a_fold(part, facts) for part in (first, second))
    twice = side(facts.garment, join.first).copies == 2 and not over
    fields = {
        "first": the_side([first], facts),
        "second": the_side([second], facts),
        "letter": facts.letters[join.name],
    }
    return staged("along_two" if twice else "along", facts, **fields)


def _over_a_fold(part: SidePart, facts: BookletFacts) -> bool:
    """Whether an edge runs on over a fold: a seam along it goes across the body in one."""
    piece = facts.garment.piece(part.piece)
    return any(piece.edge(neighbour(facts.garment, part, at_end)[1]).on_fold for at_end in (False, True))


def _tube(join: Join, facts: BookletFacts) -> bool:
    """Whether one whole piece, closed to a tube before, goes into an opening of several edges."""
    piece = join.first[0].piece
    return (
        len(join.first) == 1
        and len(join.second) > 1
        and any(closes(other, piece, facts) for other in facts.garment.joins)
    )


def _elastic(join: Join, facts: BookletFacts) -> list[Sentence]:
    """The elastic that draws in an edge of a seam: a hem is a casing for it, here it is the maker who decides."""
    parts, piece = (*join.first, *join.second), facts.garment.piece
    drawn = [part for part in parts if piece(part.piece).edge(part.edge).elastic is not None]
    return [staged("elastic", facts, edges=marked_on(drawn, facts, join))] if drawn else []


def _pressed(join: Join, facts: BookletFacts) -> Sentence:
    """What is set in as a tube has its own side; else to one side where the seam is overlocked, else open."""
    if _tube(join, facts):
        key = "press_to" if _is_sleeve(join.first[0].piece, facts) else "press_away"
        return staged(key, facts, piece=the_side(join.first, facts))
    if not facts.knit:
        return staged("press_open", facts)
    folded = _folded_along(join)
    return staged("press_to", facts, piece=the_side(_others(join.second, folded), facts))


def _is_sleeve(piece: str, facts: BookletFacts) -> bool:
    """Whether two edges of a piece make it a tube, and not its two copies one whole, as those of a hood."""
    own = [one for one in facts.garment.joins if closes(one, piece, facts)]
    return any(len({part.edge for part in (*one.first, *one.second)}) == 2 for one in own)


def _stitch(facts: BookletFacts) -> Sentence:
    return by_cloth("sew", facts)
