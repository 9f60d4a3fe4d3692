"""Pieces of two sides in words: outside sewn to inside, what is caught between them, what is stitched down."""

from __future__ import annotations

from collections.abc import Sequence

from draft.garment.garment import Join, SidePart
from draft.geometry.cubic import is_straight
from draft.paper.booklet.edges_marked import marked, seam_called
from draft.paper.booklet.facts import BookletFacts
from draft.paper.booklet.stages import Sentence, staged
from draft.paper.drawing.called import Called
from draft.seams.joins_in_order import caught_in, joins_in_order


def the_side(parts: Sequence[SidePart], facts: BookletFacts) -> Called:
    """The pieces of a side of a join as they are called within a sentence, and which layer it is where one is named."""
    pieces = facts.pieces([part.piece for part in parts])
    layer = parts[0].layer
    return facts.wording.called([facts.wording.say(f"sewing.{layer}_of", piece=pieces)]) if layer else pieces


def sides_together(join: Join, facts: BookletFacts) -> list[Sentence]:
    """The outside of a piece sewn to its inside."""
    piece = facts.pieces([join.first[0].piece])
    said = staged("sides", facts, piece=piece, edges=marked(join.first, facts, join))
    return [*_pressed_before(join, facts), *caught(join, facts), said]


def _pressed_before(join: Join, facts: BookletFacts) -> list[Sentence]:
    """What is stitched down later is pressed under while the piece still lies open: before its first edge is closed."""
    down = _stitched_later(join, facts)
    closed = [one for one in joins_in_order(facts.garment) if one.of_layers and not one.onto]
    if not down or next(one for one in closed if one.pieces == join.pieces) is not join:
        return []
    fields = {"piece": the_side(down[0].first, facts), "edges": marked(down[0].first, facts, down[0])}
    return [staged("band_under", facts, **fields)]


def _stitched_later(join: Join, facts: BookletFacts) -> list[Join]:
    """The joins that stitch a layer of the piece down once a join of both its layers is sewn."""
    order = joins_in_order(facts.garment)
    later = order[order.index(join) + 1 :]
    return [one for one in later if one.onto and one.first[0].piece in join.pieces and one.first[0].layer]


def is_pressed_before(join: Join, facts: BookletFacts) -> bool:
    """Whether what a join stitches down was pressed under before the piece was closed."""
    closed = [one for one in joins_in_order(facts.garment) if one.of_layers and not one.onto]
    return any(join in _stitched_later(one, facts) for one in closed)


def sides_turned(join: Join, facts: BookletFacts) -> list[Sentence]:
    """A piece of two sides is turned once the last seam that sews them to one another is sewn."""
    joins = [other for other in joins_in_order(facts.garment) if other.of_layers and not other.onto]
    last = [other for other in joins if other.pieces == join.pieces][-1]
    piece = facts.pieces([join.first[0].piece])
    if last is not join:
        return []
    sewn = [
        facts.garment.piece(part.piece).edge(part.edge)
        for one in joins
        if one.pieces == join.pieces
        for part in one.first
    ]
    curved = any(not is_straight(edge.segments[facts.middle]).all() for edge in sewn)
    return [staged("sides_turned" if curved else "sides_turned_straight", facts, piece=piece)]


def caught(join: Join, facts: BookletFacts) -> list[Sentence]:
    """What lies between the two sides of a join."""
    between = caught_in(facts.garment, join)
    if not between:
        return []
    return [staged("caught", facts, piece=the_side(between, facts), edges=marked(between, facts, join))]


def stitched_down(join: Join, facts: BookletFacts, pressed: bool) -> list[Sentence]:
    """An edge stitched down on a seam, and turned under before unless it is pressed under already."""
    fields = {"edges": marked(join.first, facts, join), "piece": the_side(join.first, facts)}
    key = "down_pressed" if pressed or is_pressed_before(join, facts) else "down"
    return [staged(key, facts, **fields, seam=seam_called(join.onto, facts))]


def within(join: Join, facts: BookletFacts) -> list[Sentence]:
    """That the seam begins or ends within an edge, which is sewn in another seam beyond."""
    parts = (*join.first, *join.second)
    return [staged("within", facts)] if any(part.drawn != part.edge for part in parts) else []
