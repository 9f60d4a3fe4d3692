"""What is said of darts and pleats: how they are sewn, and which way each is pressed, as the edge was trued for it."""

from __future__ import annotations

from draft.garment.garment import SidePart, Takeup
from draft.paper.booklet.facts import BookletFacts
from draft.paper.booklet.order import SewingStep
from draft.seams.joins_in_order import neighbour


def takeups_title(step: SewingStep, facts: BookletFacts) -> str:
    """`Darts of the front`, or pleats, or both."""
    kinds = sorted({"darts" if takeup.to is not None else "pleats" for takeup in step.takeups} | _inner(step))
    return facts.wording.say(f"sewing.title_{'_and_'.join(kinds)}", piece=facts.wording.title(step.pieces[0]))


def takeups_sewn(step: SewingStep, facts: BookletFacts) -> list[str]:
    """How the darts and pleats of a piece are sewn and pressed."""
    kinds = dict.fromkeys("sewing.darts" if takeup.to is not None else "sewing.pleats" for takeup in step.takeups)
    kinds |= dict.fromkeys("sewing.inner_darts" for _ in step.inner_darts)
    pressed = [_pressed(takeup, SidePart(step.pieces[0].name, takeup.edge), facts) for takeup in step.takeups]
    pressed += [_pressed_to("dart", dart.name, dart.towards, facts) for dart in step.inner_darts]
    stitch = [facts.said("sewing.stitch_plain")] if {"sewing.darts", "sewing.inner_darts"} & kinds.keys() else []
    return [*(facts.wording.say(key) for key in kinds), *(text for text in dict.fromkeys(pressed) if text), *stitch]


def _pressed(takeup: Takeup, part: SidePart, facts: BookletFacts) -> str:
    """A dart goes to the middle where nothing else is said and its edge is not trued for another way."""
    towards = takeup.towards
    if not towards and takeup.trued_over is not None:
        towards = neighbour(facts.garment, part, at_end=False)[1]
    return _pressed_to("dart" if takeup.to is not None else "pleat", takeup.name, towards, facts)


def _pressed_to(kind: str, name: str, towards: str, facts: BookletFacts) -> str:
    if not towards:
        return facts.wording.say("sewing.press_darts") if kind == "dart" else ""
    named = facts.wording.named
    return facts.wording.say(f"sewing.press_{kind}", name=named(name), towards=named(towards))


def _inner(step: SewingStep) -> set[str]:
    return {"darts"} if step.inner_darts else set()
