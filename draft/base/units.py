"""Quantities with their dimensions: reading `1 1/4 in`, and printing lengths as a maker reads them.

Inside the engine a length is in millimetres, an angle in radians, and a percentage is a plain number.
"""

from __future__ import annotations

import math
import re
from enum import Enum
from fractions import Fraction
from functools import lru_cache

from draft.base.record import dataclass


class Kind(Enum):
    """What sort of thing a value is; the text is how messages name it."""

    NUMBER = "a number"
    LENGTH = "a length"
    ANGLE = "an angle"
    DIRECTION = "a direction"
    POINT = "a point"
    ROW = "a row of points"
    STEP = "a step"
    LINE = "a line"
    EDGE = "an edge"
    CHOICE = "a choice"


class QuantityError(ValueError):
    """A text that is not a quantity; its message says why."""


MM_PER_INCH = 25.4  # exact by definition (international yard and pound agreement, 1959)

UNITS: dict[str, tuple[Kind, float]] = {
    "mm": (Kind.LENGTH, 1.0),
    "cm": (Kind.LENGTH, 10.0),
    "m": (Kind.LENGTH, 1000.0),
    "in": (Kind.LENGTH, MM_PER_INCH),
    "ft": (Kind.LENGTH, 12 * MM_PER_INCH),
    "yd": (Kind.LENGTH, 36 * MM_PER_INCH),
    "deg": (Kind.ANGLE, math.pi / 180),
    "%": (Kind.NUMBER, 0.01),
}

_HAIR = 0.01
"""A length within so many mm of a mark of the ruler is on it."""
_SURE = 8
"""Places of a figure in which no two libraries differ: sixteen digits are worked with, and some lost by working."""

LONGEST = 40  # characters: more digits than any tape measure shows, and few enough to stay a finite number

_AMOUNT = r"(?:\d+\s+)?\d+/\d+|\d+(?:\.\d+)?|\.\d+"
_QUANTITY = re.compile(rf"\s*(?P<sign>[-+]?)\s*(?P<amount>{_AMOUNT})\s*(?P<unit>[a-z]+|%|\"|)\s*$", re.ASCII)


@dataclass(frozen=True)
class Quantity:
    """A value in the engine's own units (mm, rad, plain number) and its kind."""

    value: float
    kind: Kind


def read_amount(text: str) -> float:
    """`12`, `3.5`, `7/8` or `1 1/4` as a number. Raises QuantityError where it divides by nothing or is too long."""
    if len(text) > LONGEST:
        raise QuantityError(f"`{text[:LONGEST]}...` has too many digits")
    *whole, part = text.split()
    try:
        return float(Fraction(part)) + sum(float(number) for number in whole)
    except ZeroDivisionError:
        raise QuantityError(f"`{text}` divides by nothing") from None


@lru_cache(maxsize=1000)
def read_quantity(text: str) -> Quantity:
    """`1 1/4 in`, `22 cm`, `28 deg`, `85 %` or a bare number. Raises QuantityError with the reason."""
    found = _QUANTITY.match(text)
    if not found:
        raise QuantityError(f"`{text}` is not a quantity")
    unit = "in" if found["unit"] == '"' else found["unit"]
    if unit and unit not in UNITS:
        raise QuantityError(f"`{unit}` is not a unit")
    kind, factor = UNITS[unit] if unit else (Kind.NUMBER, 1.0)
    sign = -1.0 if found["sign"] == "-" else 1.0
    return Quantity(sign * read_amount(found["amount"]) * factor, kind)


def in_centimetres(mm: float, places: int = 1) -> str:
    """A length as `24.5 cm`."""
    return f"{_plain(mm / 10, places)} cm"


def in_inches(mm: float, denominator: int = 8) -> str:
    """A length to the nearest trade fraction, as `9 5/8 in`."""
    eighths = round(settled(abs(mm) / MM_PER_INCH * denominator))
    whole, rest = divmod(eighths, denominator)
    part = str(Fraction(rest, denominator)) if rest else ""
    words = " ".join(w for w in (str(whole) if whole or not rest else "", part) if w)
    return f"{'-' if mm < 0 and eighths else ''}{words} in"


def sold_inches(mm: float) -> str:
    """A length of cloth as a shop says it: whole inches rounded up, or quarters where it is just that."""
    exact = round(mm / MM_PER_INCH * 4)
    figure = exact / 4 if abs(exact * MM_PER_INCH / 4 - mm) < _HAIR else math.ceil(mm / MM_PER_INCH)
    return in_inches(figure * MM_PER_INCH, 4)


def sold_centimetres(mm: float) -> float:
    """A length of cloth in centimetres as a shop says it: whole ones rounded up, or halves where it is just that."""
    exact = round(mm / 5)
    return exact / 2 if abs(exact * 5 - mm) < _HAIR else float(math.ceil(mm / 10))


def in_words(value: float, kind: Kind) -> str:
    """A value as messages print it: centimetres, degrees or a plain number."""
    if kind is Kind.LENGTH:
        return in_centimetres(value)
    if kind in (Kind.ANGLE, Kind.DIRECTION):
        return f"{_plain(math.degrees(value), 1)} deg"
    return _plain(value, 3)


def in_place(across: float, up: float) -> str:
    """A place on the cloth by its distances from the origin: `3 cm across, 4 cm down`."""
    x, y = round(settled(across / 10), 1), round(settled(up / 10), 1)
    return (
        f"{_plain(abs(x), 1)} cm {'inward' if x < 0 else 'across'}, {_plain(abs(y), 1)} cm {'down' if y < 0 else 'up'}"
    )


def rounded(value: float, places: int) -> str:
    """A figure to so many places, all of them written, and never `-0.0`."""
    return f"{round(settled(value), places) + 0.0:.{places}f}"


def settled(value: float) -> float:
    """A figure without the last digits, in which libraries differ: one half way between two is rounded alike by all."""
    return round(float(value), _SURE)


def _plain(value: float, places: int) -> str:
    text = f"{settled(value):.{places}f}"
    text = text.rstrip("0").rstrip(".") if "." in text else text
    return "0" if text in ("-0", "") else text
