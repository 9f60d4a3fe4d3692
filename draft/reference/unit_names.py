"""Units in words."""

from __future__ import annotations

from draft.base.units import UNITS, Kind


def unit_in_words(name: str) -> str:
    """`1 in is 25.4 mm`."""
    kind, value = UNITS[name]
    if kind is Kind.ANGLE:
        return f"360 {name} are a whole turn"
    if kind is Kind.NUMBER:
        return f"100 {name} are the whole"
    return f"1 {name} is {value:g} mm" if name != "mm" else "1 mm is a tenth of a cm"
