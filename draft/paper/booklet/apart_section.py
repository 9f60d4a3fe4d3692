"""Left and right that were measured apart: which measures differ, and which pieces are cut for each side."""

from __future__ import annotations

import math
from collections.abc import Sequence

from draft.base.units import Kind
from draft.bodies.left_right import ACROSS, SIDES
from draft.paper.booklet.booklet_page import Book
from draft.paper.booklet.facts import BookletFacts
from draft.paper.booklet.measure_names import measure_name
from draft.paper.booklet.set_blocks import FINE, bullets
from draft.paper.drawing.wording import capitalised


def put_apart(book: Book, facts: BookletFacts) -> None:
    """What to know before cutting for a body whose sides differ; nothing for any other."""
    if facts.drafted.apart is None:
        return
    say, listed = facts.wording.say, [bullets([row], book.format.column, FINE) for row in apart_rows(facts)]
    book.section(say("choosing.apart"), 24.0, marked=False)
    book.topics([("", [say("choosing.apart_text"), *listed])])


def apart_rows(facts: BookletFacts) -> list[str]:
    """The same as sentences."""
    apart, sides = facts.drafted.apart, facts.drafted.bodies.sides
    assert apart
    rows = [
        _measure(facts, name)
        for name in facts.drafted.plan.measures
        if name in sides["left"] and sides["left"][name] != sides["right"][name]
    ]
    for key, names in (("choosing.opened_out", apart.opened), ("choosing.each_side", apart.parted)):
        if names:
            rows.append(facts.wording.say(key, pieces=_titles(facts, names)))
    return rows


def _measure(facts: BookletFacts, name: str) -> str:
    both = [facts.drafted.bodies.sides[side][name] / (2 if name in ACROSS else 1) for side in SIDES]
    if facts.drafted.plan.known[name].kind is Kind.ANGLE:
        said = [facts.wording.say("units.degree", number=facts.wording.number(math.degrees(one))) for one in both]
    else:
        said = [facts.wording.length(one) for one in both]
    key = "choosing.half_measures" if name in ACROSS else "choosing.side_measures"
    return facts.wording.say(key, measure=capitalised(measure_name(name, facts.wording)), left=said[0], right=said[1])


def _titles(facts: BookletFacts, names: Sequence[str]) -> str:
    return facts.wording.listed([facts.wording.named(facts.garment.piece(name).title) for name in names])
