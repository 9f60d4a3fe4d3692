"""The levels at which a garment is compared with a body: each finished girth that says what it is worn over."""

from __future__ import annotations

from collections.abc import Iterator

from draft.base.arrays import Floats
from draft.garment.garment import Finished, Garment

CLOSE, SEMI_FITTED = 0.0, 0.09
"""Ease as a share of the body up to which a knit top counts as close fitting, and as semi-fitted (common practice:
none, and 8 cm at a bust of 92)."""


def levels(garment: Garment) -> Iterator[Finished]:
    """The girths that are worn over something, each body level once: hem and hip may lie at one."""
    seen = set()
    for finished in garment.finished:
        if finished.around and finished.over and finished.over[0] not in seen:
            seen.add(finished.over[0])
            yield finished


def over(finished: Finished) -> Floats:
    """What of the body a level is worn over, mm `(bodies,)`."""
    assert finished.over
    return finished.over[1]


def closeness(ease: float, body: float) -> str:
    """How a garment sits, in words: `close fitting`, `semi-fitted` or `loose`."""
    share = ease / body
    return "close fitting" if share <= CLOSE else "semi-fitted" if share <= SEMI_FITTED else "loose"
