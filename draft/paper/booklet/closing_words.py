"""A piece sewn to itself: to the other of its pair, into a ring, or into a tube."""

from __future__ import annotations

from collections.abc import Mapping

from draft.garment.garment import Join, Piece
from draft.paper.booklet.facts import BookletFacts
from draft.paper.booklet.fitting_words import notches_met
from draft.paper.booklet.stages import Sentence, staged
from draft.paper.flat.bands import Band
from draft.seams.joins_in_order import folds_an_end, joins_in_order, neighbour
from draft.seams.wedges import closes_a_wedge


def closed(join: Join, facts: BookletFacts, found: Mapping[str, Band]) -> list[Sentence]:
    """A piece sewn to itself: to the other of its pair, into a ring, or into a tube."""
    piece = facts.garment.piece(join.first[0].piece)
    edges = list(dict.fromkeys(part.edge for part in (*join.first, *join.second)))
    fields = {"piece": facts.piece(piece), "letter": facts.letters[join.name]}
    if len(edges) == 1:
        return [staged(_laid(piece), facts, **fields), *notches_met(join, facts)]
    if closed_before(join, facts):
        return [staged("ring_on", facts, **fields)]
    kind = "ring" if piece.name in found else "tube"
    return [staged(f"{kind}{each_of(piece.name, facts)}", facts, **fields), *notches_met(join, facts)]


def _laid(piece: Piece) -> str:
    """The key of how a piece comes to lie on itself along one edge: folded, or the two of a pair, or of several."""
    if piece.on_fold and piece.cut == 1:
        return "itself_folded"
    return "itself_pairs" if piece.cut > 2 else "itself"


def each_of(piece: str, facts: BookletFacts) -> str:
    """The end of the key of what is said of several copies of a piece."""
    return "_each" if facts.garment.piece(piece).cut > 1 else ""


def closings(join: Join, facts: BookletFacts) -> list[Join]:
    """All joins that sew the same piece to itself, in the order in which they are sewn."""
    piece = join.first[0].piece
    return [one for one in joins_in_order(facts.garment) if closes(one, piece, facts)]


def closes(join: Join, piece: str, facts: BookletFacts) -> bool:
    """Whether a join makes a ring, a tube or one whole of a piece."""
    garment = facts.garment
    return join.closes(piece) and not folds_an_end(garment, join) and not closes_a_wedge(garment, join)


def closed_before(join: Join, facts: BookletFacts) -> bool:
    """Whether the seam goes on from one that closed the ends of the same piece, round a corner."""
    before = closings(join, facts)
    before = before[: before.index(join)]
    parts = [part for one in before for part in (*one.first, *one.second)]
    ends = {neighbour(facts.garment, part, at_end) for part in parts for at_end in (False, True)}
    return all((part.piece, part.edge) in ends for part in (*join.first, *join.second))
