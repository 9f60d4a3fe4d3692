"""What a garment on a form is drawn in: two scales that are told apart in grey by strokes and by dots as well.

Warm, with strokes across, is stretched; blue, with dots, stands off; both grow darker and denser with more of it.
Slanting lines lie over what is not to be trusted. Tests hold both to how they are seen without one kind of cones.
"""

from __future__ import annotations

from draft.base.record import dataclass
from draft.paper.drawing.drawing import Stroke

FORM = ("#a9a9a9", "#b6b6b6", "#c3c3c3", "#cfcfcf")
"""One grey, from what lies in shade to what is lit."""
LIT = (0.30, 0.52, 0.74)
"""How light each next tone of it begins."""
SHADED = ((0.62, 0.95), (0.38, 0.89))
"""Cloth that is less light than the first is so many times as light as in full light."""
CLOTH = "#f8f6f1"
SKIN_LINE = Stroke(0.2, colour="#7d7d7d")
OUTLINE = Stroke(0.35, colour="#1d2b3a")
SEAM = Stroke(0.18, colour="#46525e")
EDGE = Stroke(0.3, colour="#1d2b3a")
DRAG = Stroke(0.3, colour="#3d0f06", cap="round")
DOUBT = Stroke(0.16, colour="#2f2f3a")
LEVEL = Stroke(0.18, (0.9, 0.9), "#3c3c3c")


@dataclass(frozen=True)
class Band:
    """A step of a scale: from which figure on, its colour, and how heavy its strokes or how large its dots are, mm."""

    least: float
    colour: str
    mark: float


STRETCHED = (
    Band(0.01, "#fbe6ad", 0.0),
    Band(0.03, "#f6cf82", 0.10),
    Band(0.06, "#efa95c", 0.18),
    Band(0.12, "#d9713d", 0.28),
    Band(0.20, "#a63a2c", 0.42),
)
"""Shares by which the cloth is stretched."""
ACROSS = "#431105"
STANDS_OFF = (
    Band(15.0, "#dfe9f3", 0.10),
    Band(30.0, "#c6d9ea", 0.17),
    Band(50.0, "#a9c6e0", 0.26),
    Band(80.0, "#8cb3d5", 0.36),
)
"""mm by which it stands off the form."""
DOTS = "#2f5f8f"


def darker(colour: str, times: float) -> str:
    """A colour in shade."""
    parts = (round(int(colour[k : k + 2], 16) * times) for k in (1, 3, 5))
    return "#" + "".join(f"{part:02x}" for part in parts)
