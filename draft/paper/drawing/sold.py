"""Lengths of cloth as a shop says them: nobody asks for cloth 147.3 cm wide."""

from __future__ import annotations

from draft.base.units import sold_centimetres, sold_inches
from draft.paper.drawing.wording import Wording


def as_sold(mm: float, wording: Wording) -> str:
    """`58 in or 148 cm`, or one of the two: a length in mm rounded up to what is asked for in a shop."""
    inches = f"{sold_inches(mm).removesuffix(' in')} {wording.say('units.inch')}"
    centimetres = f"{wording.number(sold_centimetres(mm))} {wording.say('units.centimetre')}"
    either = wording.say("units.either", inches=inches, centimetres=centimetres)
    return {"in": inches, "cm": centimetres, "both": either}[wording.units]
