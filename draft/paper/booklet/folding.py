"""What is said of darts and pleats: how they are sewn, and which way each is pressed, as the edge was trued for it."""

from __future__ import annotations

from draft.garment.garment import InnerDart, Takeup
from draft.paper.booklet.edges_marked import marked
from draft.paper.booklet.facts import BookletFacts
from draft.paper.booklet.order import SewingStep
from draft.paper.booklet.pressed_towards import edges_towards


def takeups_title(step: SewingStep, facts: BookletFacts) -> str:
    """`Darts of the front`, or pleats, or both."""
    named = facts.wording.named
    kinds = sorted({"darts" if takeup.to is not None else "pleats" for takeup in step.takeups} | _inner(step))
    return facts.wording.say(f"sewing.title_{'_and_'.join(kinds)}", piece=named(step.pieces[0].title))


def takeups_sewn(step: SewingStep, facts: BookletFacts) -> list[str]:
    """How the darts and pleats of a piece are sewn and pressed."""
    kinds = dict.fromkeys("sewing.darts" if takeup.to is not None else "sewing.pleats" for takeup in step.takeups)
    kinds |= dict.fromkeys("sewing.inner_darts" for _ in step.inner_darts)
    bows = [*(one.bow_first for one in step.takeups), *(one.bow_first for one in step.inner_darts)]
    if any(bow is not None for bow in bows):
        kinds |= {"sewing.bowed_darts": None}
    pressed = _pressed(step, facts)
    stitch = [facts.said("sewing.stitch_plain")] if {"sewing.darts", "sewing.inner_darts"} & kinds.keys() else []
    return [*(facts.wording.say(key) for key in kinds), *pressed, *stitch]


def _pressed(step: SewingStep, facts: BookletFacts) -> list[str]:
    """Which way each dart is pressed: in one sentence where all of a piece go the same way, as a piece names none.

    Which way a pleat lies its arrow says on the paper.
    """
    piece = step.pieces[0]
    darts: list[Takeup | InnerDart] = [*(one for one in step.takeups if one.to is not None), *step.inner_darts]
    said = {dart.name: marked(edges_towards(dart, piece, facts.garment), facts) for dart in darts}
    if len(set(said.values())) > 1:
        return [_pressed_to(name, way, facts) for name, way in said.items()]
    key = "sewing.press_dart_one" if len(said) == 1 and piece.copies() == 1 else "sewing.press_darts_to"
    return [
        facts.wording.say(key, towards=way) if way else facts.wording.say("sewing.press_darts")
        for way in set(said.values())
    ]


def _pressed_to(name: str, way: str, facts: BookletFacts) -> str:
    if not way:
        return facts.wording.say("sewing.press_darts")
    return facts.wording.say("sewing.press_dart", name=facts.wording.named(name), towards=way)


def _inner(step: SewingStep) -> set[str]:
    return {"darts"} if step.inner_darts else set()
