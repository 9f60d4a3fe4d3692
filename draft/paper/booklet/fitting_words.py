"""How the two sides of a seam are brought to one length, and what meets along it."""

from __future__ import annotations

import numpy as np

from draft.garment.garment import Join
from draft.paper.booklet.facts import BookletFacts
from draft.paper.booklet.stages import Sentence, staged
from draft.paper.booklet.two_sides import the_side

_EASED = 0.002
"""A side longer by less than this share is as long as the other for a maker."""

_DRAWN_UP = 0.03
"""In woven cloth a side longer by more than this share needs a thread that draws it up (common practice)."""


def fitted(join: Join, facts: BookletFacts) -> list[Sentence]:
    """How a longer side is brought to the length of the other: gathered, drawn up, or spread between the notches."""
    drawn = [
        part
        for part in (*join.first, *join.second)
        if facts.garment.piece(part.piece).edge(part.edge).gathered is not None
    ]
    if drawn or join.fit == "gathered":
        side = the_side(drawn[:1] or join.first, facts)
        return [staged(key, facts, first=side) for key in ("gather_rows", "gathers_drawn")]
    return _eased(join, facts)


def _longer(join: Join, facts: BookletFacts) -> float:
    """By which share the first side is longer than the second, where it is eased to it."""
    eased = join.ratio is not None and join.fit == "eased"
    return float(np.mean(join.ratio[list(facts.bodies)])) - 1 if eased and join.ratio is not None else 0.0


def _is_drawn_up(join: Join, facts: BookletFacts) -> bool:
    return _longer(join, facts) > _DRAWN_UP and not facts.knit and bool(join.notches)


def _eased(join: Join, facts: BookletFacts) -> list[Sentence]:
    longer = _longer(join, facts)
    if longer <= _EASED:
        return []
    share = facts.wording.percent(longer) if longer >= 0.01 else facts.wording.say("units.percent", number="1")
    keys = ("eased_rows", "drawn_up") if _is_drawn_up(join, facts) else ("eased",)
    return [staged(key, facts, first=the_side(join.first, facts), share=share) for key in keys]


def notches_met(join: Join, facts: BookletFacts) -> list[Sentence]:
    """That the notches of a join meet."""
    if not join.notches:
        return []
    double = any(notch.double for notch in join.notches) and len(join.pieces) > 1  # else both sides are of the back
    return [staged("notches_double" if double else "notches", facts)]


def notches_told_apart(join: Join, facts: BookletFacts) -> list[Sentence]:
    """Which notches stand for the back."""
    return [staged("notches_back", facts)] if any(notch.double for notch in join.notches) else []
