"""Pieces of two sides in words: outside sewn to inside, what is caught between them, what is stitched down."""

from __future__ import annotations

from collections.abc import Sequence

from draft.garment.garment import Join, SidePart
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
    said = facts.wording.say("sewing.sides", piece=piece, edges=edges_of(join.first, facts))
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
    return [facts.wording.say("sewing.caught", piece=the_side(between, facts), edges=edges_of(between, facts))]


def stitched_down(join: Join, facts: BookletFacts, pressed: bool) -> list[str]:
    """An edge stitched down on a seam, and turned under before unless it is pressed under already."""
    fields = {"edges": edges_of(join.first, facts), "piece": the_side(join.first, facts)}
    key, seam = "sewing.down_pressed" if pressed else "sewing.down", facts.wording.named(join.onto)
    return [facts.wording.say(key, **fields, seam=seam)]


def edges_of(parts: Sequence[SidePart], facts: BookletFacts) -> str:
    """The edges of a side, each once: `“end”, “wrist” and “other”`."""
    names = dict.fromkeys(part.edge for part in parts)
    return facts.wording.listed([facts.wording.say("sewing.edge", edge=facts.edge(name)) for name in names])


def within(join: Join, facts: BookletFacts) -> list[str]:
    """That the seam begins or ends within an edge, which is sewn in another seam beyond."""
    parts = (*join.first, *join.second)
    return [facts.wording.say("sewing.within")] if any(part.drawn != part.edge for part in parts) else []
