"""What is said of darts and pleats: how they are sewn, and which way each is pressed, as the edge was trued for it."""

from __future__ import annotations

from draft.garment.garment import Join, SidePart, Takeup
from draft.paper.booklet.facts import BookletFacts
from draft.paper.booklet.order import neighbour
from draft.seams.sides import takeups_of

Folded = set[tuple[str, str]]
"""The edges, by piece and name, whose darts and pleats are sewn already."""


def takeups_sewn(join: Join, facts: BookletFacts, folded: Folded) -> list[str]:
    """Darts and pleats of the edges that are sewn here for the first time."""
    found: list[str] = []
    pressed: list[str] = []
    for part in (*join.first, *join.second):
        piece = facts.garment.piece(part.piece)
        takeups = takeups_of(piece, piece.edge(part.edge))
        if takeups and (part.piece, part.edge) not in folded:
            folded.add((part.piece, part.edge))
            kinds = ["sewing.darts" if takeup.to is not None else "sewing.pleats" for takeup in takeups]
            found += sorted(set(kinds))
            pressed += [_pressed(takeup, part, facts) for takeup in takeups]
    return [
        *(facts.wording.say(key) for key in dict.fromkeys(found)),
        *(text for text in dict.fromkeys(pressed) if text),
    ]


def _pressed(takeup: Takeup, part: SidePart, facts: BookletFacts) -> str:
    """A dart goes to the middle where nothing else is said and its edge is not trued for another way."""
    towards = takeup.towards
    if not towards and takeup.trued_over is not None:
        towards = neighbour(facts.garment, SidePart(part.piece, part.edge), at_end=False)[1]
    if not towards:
        return facts.wording.say("sewing.press_darts") if takeup.to is not None else ""
    kind = "dart" if takeup.to is not None else "pleat"
    named = facts.wording.named
    return facts.wording.say(f"sewing.press_{kind}", name=named(takeup.name), towards=named(towards))
