"""Pieces of two sides in words: outside sewn to inside, what is caught between them, what is stitched down."""

from __future__ import annotations

from collections.abc import Sequence

from draft.garment.garment import Join, SidePart
from draft.paper.booklet.edges_marked import marked, seam_called
from draft.paper.booklet.facts import BookletFacts
from draft.paper.drawing.called import Called
from draft.seams.joins_in_order import caught_in, joins_in_order


def the_side(parts: Sequence[SidePart], facts: BookletFacts) -> Called:
    """The pieces of a side of a join as they are called within a sentence, and which layer it is where one is named."""
    pieces = facts.pieces([part.piece for part in parts])
    layer = parts[0].layer
    return facts.wording.called([facts.wording.say(f"sewing.{layer}_of", piece=pieces)]) if layer else pieces


def sides_together(join: Join, facts: BookletFacts) -> list[str]:
    """The outside of a piece sewn to its inside."""
    piece = facts.pieces([join.first[0].piece])
    said = facts.wording.say("sewing.sides", piece=piece, edges=marked(join.first, facts, join))
    return [said, *caught(join, facts)]


def sides_turned(join: Join, facts: BookletFacts) -> list[str]:
    """A piece of two sides is turned once the last seam that sews them to one another is sewn."""
    joins = [other for other in joins_in_order(facts.garment) if other.of_layers and not other.onto]
    last = [other for other in joins if other.pieces == join.pieces][-1]
    piece = facts.pieces([join.first[0].piece])
    return [facts.wording.say("sewing.sides_turned", piece=piece)] if last is join else []


def caught(join: Join, facts: BookletFacts) -> list[str]:
    """What lies between the two sides of a join."""
    between = caught_in(facts.garment, join)
    if not between:
        return []
    return [facts.wording.say("sewing.caught", piece=the_side(between, facts), edges=marked(between, facts, join))]


def stitched_down(join: Join, facts: BookletFacts, pressed: bool) -> list[str]:
    """An edge stitched down on a seam, and turned under before unless it is pressed under already."""
    fields = {"edges": marked(join.first, facts, join), "piece": the_side(join.first, facts)}
    key = "sewing.down_pressed" if pressed else "sewing.down"
    return [facts.wording.say(key, **fields, seam=seam_called(join.onto, facts))]


def within(join: Join, facts: BookletFacts) -> list[str]:
    """That the seam begins or ends within an edge, which is sewn in another seam beyond."""
    parts = (*join.first, *join.second)
    return [facts.wording.say("sewing.within")] if any(part.drawn != part.edge for part in parts) else []
