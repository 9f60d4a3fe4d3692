"""What a body measure is called in the booklet."""

from __future__ import annotations

from draft.paper.drawing.wording import Wording


def measure_name(name: str, wording: Wording) -> str:
    """A body measure as it is called."""
    key = f"measures.{name}"
    return wording.say(key) if wording.has(key) else wording.named(name)
