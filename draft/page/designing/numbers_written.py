"""Numbers as they stand in a text: read with their unit and step, and written anew in the same way."""

from __future__ import annotations

import re
from fractions import Fraction

from draft.base.record import dataclass
from draft.base.units import MM_PER_INCH, UNITS, read_amount

AMOUNT = r"(?:\d+[ \t]+)?\d+/\d+|\d+(?:\.\d+)?"
NUMBER = rf"(?P<minus>-[ \t]*)?(?P<amount>{AMOUNT})(?P<gap>[ \t]*)(?P<unit>mm|cm|m|in|ft|yd|deg|%)?(?![A-Za-z0-9_])"
_NUMBER = re.compile(NUMBER)
_STEPS = {"mm": "1", "cm": "0.1", "m": "0.001", "in": "1/8", "ft": "0.01", "yd": "0.01", "deg": "0.5", "%": "1"}
"""How finely each unit is set by hand; as finely as it was written, where that is finer."""


@dataclass(frozen=True)
class Written:
    """A number of a text: its value in its own unit, whether it is a fraction, and what it is a multiple of."""

    value: Fraction
    unit: str
    gap: str
    step: Fraction
    is_fraction: bool

    @property
    def engine(self) -> float:
        """Millimetres for a length, radians for an angle, a plain number else."""
        return float(self.value) * (UNITS[self.unit][1] if self.unit else 1.0)

    def at(self, engine: float) -> str:
        """The text of the multiple of its step that is nearest to a value in the engine's unit."""
        factor = UNITS[self.unit][1] if self.unit else 1.0
        return self.text(Fraction(round(Fraction(engine / factor) / self.step)) * self.step)

    def text(self, value: Fraction) -> str:
        """How a value is written: `1 1/4 in` where it was a fraction, else with decimals, none that say nothing."""
        sign, size = ("-" if value < 0 else ""), abs(value)
        return f"{sign}{_fraction(size) if self.is_fraction else _decimals(size)}{self.gap}{self.unit}"


def read_written(text: str) -> Written | None:
    """The number that a text is; None where it is none."""
    found = _NUMBER.fullmatch(text.strip())
    if found is None or "/0" in found["amount"]:
        return None
    unit, is_fraction = found["unit"] or "", "/" in found["amount"]
    size = Fraction(read_amount(found["amount"])).limit_denominator(10_000)
    usual = Fraction(_STEPS.get(unit, "1"))
    own = Fraction(1, int(found["amount"].rpartition("/")[2])) if is_fraction else _last_place(found["amount"])
    step = min(usual, own) if unit else own
    if unit == "in" and not is_fraction and "." in found["amount"]:
        step = min(own, Fraction(1, 10))
    return Written(-size if found["minus"] else size, unit, found["gap"], step, is_fraction or step == Fraction(1, 8))


def _last_place(amount: str) -> Fraction:
    return Fraction(1, 10 ** len(amount.partition(".")[2]))


def _fraction(size: Fraction) -> str:
    whole, rest = divmod(size, 1)
    return " ".join(filter(None, (str(whole) if whole or not rest else "", str(rest) if rest else "")))


def _decimals(size: Fraction) -> str:
    text = f"{float(size):.4f}".rstrip("0").rstrip(".")
    return text or "0"


assert UNITS["in"][1] == MM_PER_INCH
