"""A point dragged to another place: the numbers that it is placed by, written anew in the text."""

from __future__ import annotations

from typing import Any

import numpy as np

from draft.base.notes import Problems, error
from draft.page.bench import Asked, Bench, Gave
from draft.page.designing.at_hand import at_hand
from draft.page.designing.browser_offsets import to_browser
from draft.page.designing.construction import body_asked
from draft.page.designing.points_by_hand import handles, moved_to

_FARTHEST = 5_000.0
"""Mm from where it was: as far as the largest piece is long."""


def dragged(asked: Asked, bench: Bench) -> Gave:
    """The `changes` of a `text` that bring the `point` of a `piece` to `x` and `y` in the `size` shown, mm with y down.

    Each is a stretch and what is to stand there. Raises `Problems` where its place is in no plain number.
    """
    hand = at_hand(asked, bench)
    drafted = hand.drafted
    name = f"{asked.get('piece')}.{asked.get('point')}"
    step = next((step for step in drafted.plan.steps if step.name == name), None)
    if step is None or step.span.source != hand.now.source or not handles(step.span):
        fix = "change what it leans on"
        raise Problems([error(f"the place of `{name[:80]}` is in no plain number of this text", None, fix)])
    here = np.broadcast_to(drafted.outcome.trace.values[name], (len(drafted.garment.sizes), 2))
    way = np.array([_number(asked, "x"), -_number(asked, "y")]) - here[body_asked(asked, drafted)]
    text = hand.now.source.text
    changes: list[dict[str, Any]] = []
    for handle in sorted(handles(step.span), key=lambda one: one.start):
        anew = moved_to(handle, float(np.clip(way[handle.axis], -_FARTHEST, _FARTHEST)))
        if anew != handle.text:
            start, end = to_browser(text, handle.start), to_browser(text, handle.end)
            changes.append({"start": start, "end": end, "text": anew})
    return {"changes": changes}


def _number(asked: Asked, name: str) -> float:
    value = asked.get(name)
    if not isinstance(value, int | float) or not np.isfinite(value):
        raise Problems([error(f"`{name}` is no number")])
    return float(value)
