"""What to ask for in the shop: lengths rounded up to what is sold."""

from __future__ import annotations

import math
from fractions import Fraction

from draft.base.units import MM_PER_INCH

EIGHTH_YARD = 36 * MM_PER_INCH / 8
"""Shops that sell by the yard cut by the eighth (common practice)."""
FIVE_CENTIMETRES = 50.0
"""Shops that sell by the metre cut by 5 or 10 cm (common practice)."""
_EXACT = 0.01
"""A length this many mm over a step is on it: below what any shop can cut."""


def rounded_up(length: float, step: float) -> float:
    """The least multiple of `step` mm that is no shorter than `length` mm."""
    return max(1, math.ceil((length - _EXACT) / step)) * step


def in_yards(length: float) -> str:
    """A length in mm rounded up to eighths of a yard: `1 3/8 yd`."""
    eighths = round(rounded_up(length, EIGHTH_YARD) / EIGHTH_YARD)
    whole, rest = divmod(eighths, 8)
    return (
        " ".join(part for part in (str(whole) if whole else "", str(Fraction(rest, 8)) if rest else "") if part) + " yd"
    )


def in_metres(length: float) -> str:
    """A length in mm rounded up to 5 cm: `1.25 m`."""
    return f"{rounded_up(length, FIVE_CENTIMETRES) / 1000:.2f} m"
