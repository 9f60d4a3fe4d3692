"""The steps with the designer's own among them, where she places them, and what she adds to those that are there."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from draft.paper.booklet.order import SewingStep
from draft.plan.advice import Advice


def with_own(steps: Sequence[SewingStep], advice: Sequence[Advice]) -> list[SewingStep]:
    """The steps in the order that the designer wants.

    What she places after a step comes right behind all that has its name, in the order that she wrote; what is placed
    by a step of her own waits until that one has its place.
    """
    found, waiting = list(steps), [one for one in advice if one.place]
    while waiting:
        ready = [one for one in waiting if not any(other.to == one.beside for other in waiting)] or waiting[:1]
        for one in [*(o for o in ready if o.place == "before"), *(o for o in reversed(ready) if o.place == "after"),
                    *(o for o in ready if o.place == "instead of")]:  # fmt: skip
            found = _placed(found, one)
        waiting = [one for one in waiting if one not in ready]
    return found


def _placed(steps: list[SewingStep], advice: Advice) -> list[SewingStep]:
    """The steps with one in its place; as they are where what it is placed by is not sewn."""
    moved = [step for step in steps if advice.to in step.names]
    if advice.own:
        moved = [SewingStep(advice.to, "own", own=advice)]
    rest = [step for step in steps if step not in moved]
    at = [k for k, step in enumerate(rest) if advice.beside in step.names and step.sort not in ("slit", "turning")]
    at = at or [k for k, step in enumerate(rest) if advice.beside in step.names]
    if not at:
        return steps
    if advice.place == "instead of":
        kept = [step for k, step in enumerate(rest) if k not in at]
        return [*kept[: at[0]], *_sewing(moved, rest[at[0]]), *kept[at[0] :]]
    place = at[0] if advice.place == "before" else at[-1] + 1
    return [*rest[:place], *moved, *rest[place:]]


def _sewing(moved: list[SewingStep], instead: SewingStep) -> list[SewingStep]:
    """What stands instead of a seam sews it in its own words: it keeps the seam's letter and its drawing."""
    return [replace(one, join=instead.join) if one.own and instead.sort == "join" else one for one in moved]


def advice_on(step: SewingStep, advice: Sequence[Advice]) -> list[Advice]:
    """What is said of a step: once, with its seam, where a zip has one of its own."""
    if step.own:
        return [step.own]
    if step.sort in ("zip", "slit", "turning"):
        return []
    return [one for one in advice if one.to in step.names]
