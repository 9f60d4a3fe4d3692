"""The imprint of a drafted pattern: what the booklet says at its places, for the documents beside it."""

from __future__ import annotations

from draft.paper.booklet.facts import BookletFacts
from draft.paper.booklet.material_section import cloth_asked
from draft.paper.booklet.sizes_section import chosen
from draft.paper.drawing.imprint import Imprint


def imprint_of(facts: BookletFacts) -> Imprint:
    """Maker, version, licence, cloth, choices and sizes, in the language of the facts."""
    plan, said = facts.drafted.plan, facts.wording
    return Imprint(
        maker=facts.garment.maker,
        version=facts.version,
        licence=said.named(plan.booklet.licence),
        link=plan.booklet.link,
        cloth=cloth_asked(facts),
        choices=tuple(chosen(facts)),
        sizes=said.sizes(facts.sizes),
        face=facts.face,
    )
