"""How far a garment is sewn after some of its steps: what the drawing of the last one shows."""

from __future__ import annotations

from collections.abc import Sequence

from draft.paper.booklet.order import SewingStep
from draft.paper.flat.done import Done


def done_after(steps: Sequence[SewingStep]) -> Done:
    """What the steps have sewn together."""
    return Done(
        joins=frozenset(step.join.name for step in steps if step.join and step.sort in ("join", "own")),
        openings=frozenset(step.join.name for step in steps if step.join and step.sort == "zip"),
        hems=frozenset((piece.name, edge.name) for step in steps if step.sort == "hem" for piece, edge in step.edges),
        patches=frozenset(step.patch.name for step in steps if step.patch),
    )
