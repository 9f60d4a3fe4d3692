"""Measures as people write them down: `5 ft 6 in`, `39¾"`, `1 m 68 cm`, `101 centimetres`."""

from __future__ import annotations

import re
import unicodedata

from draft.base.units import Kind, Quantity, QuantityError, read_quantity

_UNITS = {
    **dict.fromkeys(("inch", "inches", "ins", '"', "''", "”", "″"), "in"),
    **dict.fromkeys(("foot", "feet", "'", "’", "′"), "ft"),
    **dict.fromkeys(("centimetre", "centimetres", "centimeter", "centimeters", "cms"), "cm"),
    **dict.fromkeys(("millimetre", "millimetres", "millimeter", "millimeters"), "mm"),
    **dict.fromkeys(("metre", "metres", "meter", "meters"), "m"),
    **dict.fromkeys(("degree", "degrees", "°"), "deg"),
}
_PART = re.compile(r"\s*(\d[\d\s./]*?)\s*(''|[^\W\d]+|[\"'”″’′°])(?=\s*\d|\s*$)")
_LONGEST = 80
"""Letters: two amounts with their units have far fewer."""
_SMALLER = (("ft", "in"), ("m", "cm"), ("m", "mm"), ("cm", "mm"))


def read_spoken(text: str) -> Quantity:
    """An amount, or two of which the second is of the smaller unit. Raises QuantityError for anything else."""
    if len(text) > _LONGEST:
        raise QuantityError(f"`{text[:_LONGEST]}...` is not a quantity")
    plain = "".join(_fraction(letter) for letter in text).strip()
    parts = _PART.findall(plain)
    if not parts or _PART.sub("", plain).strip() or len(parts) > 2:
        raise QuantityError(f"`{text}` is not a quantity")
    units = [_UNITS.get(unit.lower(), unit.lower()) for _, unit in parts]
    if len(parts) == 2 and tuple(units) not in _SMALLER:
        raise QuantityError(f"`{text}` is not a quantity")
    found = [read_quantity(f"{amount.strip()} {unit}") for (amount, _), unit in zip(parts, units, strict=True)]
    if {one.kind for one in found} - {Kind.LENGTH, Kind.ANGLE}:
        raise QuantityError(f"`{text}` is not a quantity")
    return Quantity(sum(one.value for one in found), found[0].kind)


def _fraction(letter: str) -> str:
    """` 3/4` for a letter such as `¾`."""
    spread = unicodedata.normalize("NFKC", letter)
    return f" {spread.replace(chr(0x2044), '/')}" if chr(0x2044) in spread else letter
