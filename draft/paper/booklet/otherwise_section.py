"""What came out otherwise than was chosen: what gave way and why, and levels that are measured elsewhere."""

from __future__ import annotations

import math

import numpy as np

from draft.base.arrays import Bools, Floats
from draft.base.units import Kind
from draft.drafting.gave_way import GaveWay, gave_way, measured_elsewhere
from draft.paper.booklet.booklet_page import Book
from draft.paper.booklet.facts import BookletFacts
from draft.paper.booklet.set_blocks import FINE, bullets
from draft.paper.drawing.wording import capitalised

_NONE = 0.05  # mm: less is nothing, in any unit


def put_otherwise(book: Book, facts: BookletFacts) -> None:
    """A list of it for the sizes of the booklet; nothing where all came out as it was chosen."""
    rows = given_way(facts)
    if rows:
        key = "choosing.otherwise" if len(facts.sizes) > 1 else "choosing.otherwise_one"
        book.section(facts.wording.say(key), 24.0, marked=False)
        listed = [bullets([row], book.format.column, FINE) for row in rows]
        book.topics([("", [facts.wording.say("choosing.otherwise_text"), *listed])])


def otherwise(facts: BookletFacts) -> list[str]:
    """What gave way, and which levels are measured elsewhere, as sentences."""
    return [*given_way(facts), *elsewhere(facts)]


def given_way(facts: BookletFacts) -> list[str]:
    """What came out otherwise than it was chosen."""
    shown = _shown(facts)
    return [_said(facts, one, one.where & shown) for one in gave_way(facts.drafted) if (one.where & shown).any()]


def elsewhere(facts: BookletFacts) -> list[str]:
    """Which levels are measured where the garment ends, since it does not reach to their own place."""
    shown, found = _shown(facts), list[str]()
    for name, there, girth, where in measured_elsewhere(facts.drafted):
        if (where & shown).any():
            fields = {"there": _range(facts, there, Kind.LENGTH, where & shown), "sizes": _whose(facts, where & shown)}
            girths = _range(facts, girth, Kind.LENGTH, where & shown)
            level = capitalised(facts.wording.named(name))
            found.append(facts.wording.say("choosing.elsewhere", level=level, girth=girths, **fields))
    return found


def _shown(facts: BookletFacts) -> Bools:
    """Whether each body is among those of the booklet `(bodies,)`."""
    shown = np.zeros(len(facts.drafted.garment.sizes), dtype=bool)
    shown[list(facts.bodies)] = True
    return shown


def _said(facts: BookletFacts, one: GaveWay, where: Bools) -> str:
    say, named = facts.wording.say, facts.wording.named
    value, wanted = (_range(facts, values, one.kind, where) for values in (one.values, one.wanted))
    what = capitalised(named(one.chosen_as or one.words))
    if one.is_room and not one.chosen_as:
        what = say("choosing.room_at", level=named(one.words))
    said = say("choosing.gave_way", what=what, value=value, wanted=wanted, sizes=_whose(facts, where))
    reasons = [named(reason) for reason in one.reasons]
    return f"{said} {say('choosing.gave_way_why', reasons=facts.wording.listed(reasons))}" if reasons else said


def _range(facts: BookletFacts, values: Floats, kind: Kind, where: Bools) -> str:
    ends = [_amount(facts, float(end), kind) for end in (np.min(values[where]), np.max(values[where]))]
    return ends[0] if ends[0] == ends[1] else " – ".join(ends)


def _amount(facts: BookletFacts, value: float, kind: Kind) -> str:
    if kind is Kind.ANGLE:
        return facts.wording.say("units.degree", number=facts.wording.number(math.degrees(value)))
    return facts.wording.length(value) if abs(value) >= _NONE else facts.wording.none()


def _whose(facts: BookletFacts, where: Bools) -> str:
    """` (2XL, 3XL)`, nothing where there is one size or it is so of all."""
    names = [name for name, so in zip(facts.drafted.garment.sizes, where, strict=True) if so]
    return f" ({', '.join(names)})" if len(names) < len(facts.sizes) else ""
