"""The line under a heading of every document: a seam, one line to cut along and one to sew along."""

from __future__ import annotations

from draft.geometry.cubic import lines_through
from draft.paper.drawing.drawing import INK, Item, Path, Stroke

SEAM_APART = 1.3
_CUT, _SEWN = 0.7, 0.35
_DASH = 2.4, 1.2


def seam_rule(width: float, y: float = 0.0, x: float = 0.0, colour: str = INK) -> tuple[Item, ...]:
    """A line that is cut along and one that is sewn along, so many mm long."""
    return (
        Path((lines_through([(x, y), (x + width, y)]),), Stroke(_CUT, colour=colour)),
        Path((lines_through([(x, y + SEAM_APART), (x + width, y + SEAM_APART)]),), Stroke(_SEWN, _DASH, colour)),
    )
