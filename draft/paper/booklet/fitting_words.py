"""How the two sides of a seam are brought to one length, and what meets along it."""

from __future__ import annotations

import numpy as np

from draft.garment.garment import Join
from draft.paper.booklet.facts import BookletFacts
from draft.paper.booklet.two_sides import the_side
from draft.paper.drawing.wording import capitalised

_EASED = 0.002
"""A side longer by less than this share is as long as the other for a maker."""

_DRAWN_UP = 0.03
"""In woven cloth a side longer by more than this share needs a thread that draws it up (common practice)."""


def fitted(join: Join, facts: BookletFacts) -> list[str]:
    """The sentences of a side that is longer: gathered or eased to the other."""
    drawn = [
        part
        for part in (*join.first, *join.second)
        if facts.garment.piece(part.piece).edge(part.edge).gathered is not None
    ]
    if drawn:
        return [facts.wording.say("sewing.gathered", first=the_side(drawn[:1], facts))]
    if join.ratio is None:
        return []
    longer = float(np.mean(join.ratio[list(facts.bodies)])) - 1
    if join.fit == "gathered":
        return [facts.wording.say("sewing.gathered", first=the_side(join.first, facts))]
    if join.fit == "eased" and longer > _EASED:
        share = facts.wording.percent(longer) if longer >= 0.01 else facts.wording.say("units.percent", number="1")
        key = "sewing.eased_drawn" if longer > _DRAWN_UP and not facts.knit and join.notches else "sewing.eased"
        return [capitalised(facts.wording.say(key, first=the_side(join.first, facts), share=share))]
    return []


def notches_met(join: Join, facts: BookletFacts) -> list[str]:
    """That the notches of a join meet."""
    if not join.notches:
        return []
    double = any(notch.double for notch in join.notches)
    return [facts.wording.say("sewing.notches_double" if double else "sewing.notches")]


def notches_told_apart(join: Join, facts: BookletFacts) -> list[str]:
    """Which notches stand for the back."""
    return [facts.wording.say("sewing.notches_back")] if any(notch.double for notch in join.notches) else []
