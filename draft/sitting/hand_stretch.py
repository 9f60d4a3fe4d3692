"""By how much the cloth of a garment stretches by hand, across and down, as its pattern or its fabric says."""

from __future__ import annotations

from draft.garment.garment import Garment

_DOWN = 0.5
"""Of the stretch across that a knit has down, where nobody says (common practice: jerseys give half as much)."""
_FIRM = 0.02
"""What a cloth gives that does not stretch: woven threads straighten by so much (from memory)."""


def hand_stretch(garment: Garment) -> tuple[float, float]:
    """The shares by which its main cloth stretches across and down; nothing for cloth that does not."""
    known = garment.cloths[0].known if garment.cloths else garment.cloth
    across = known.get("stretch_across", 0.0)
    return across, known.get("stretch_down", 0.0) or _DOWN * across


def of_cloth(stretch: tuple[float, float]) -> tuple[float, float]:
    """The same as cloth that is settled has it: a little in any."""
    return max(stretch[0], _FIRM), max(stretch[1], _FIRM)
