"""What a garment for children must not have at the neck and the hood; of a hood it is said whoever wears it."""

from __future__ import annotations

from draft.bodies.wearers import CHILDREN
from draft.paper.booklet.facts import BookletFacts
from draft.paper.flat.hoods import hoods


def no_cords(facts: BookletFacts) -> list[str]:
    """The rule for cords, after EN 14682 from memory; nothing where neither the wearer nor a hood asks for it."""
    if facts.drafted.plan.wearers is CHILDREN:
        return [facts.wording.say("book.cords")]
    return [facts.wording.say("book.hood_cords")] if hoods(facts.garment) else []
