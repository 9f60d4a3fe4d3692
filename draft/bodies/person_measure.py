"""One measure as somebody wrote it: a quantity in quotes, or a bare number in a unit that is known."""

from __future__ import annotations

from draft.base.naming import shortened
from draft.base.notes import Note, Source, Span, error
from draft.base.plainly import Measures, sentence
from draft.base.toml import place
from draft.base.units import UNITS, Kind, Quantity, read_quantity
from draft.bodies.bodies import outside_body_limits
from draft.bodies.measures import MEASURES, BodyMeasure, unknown_measure
from draft.bodies.own_measure import Known
from draft.bodies.spoken import read_spoken

TAPE_UNITS = ("cm", "in", "mm")
"""What a bare number may be in: the units on a tape measure."""


def read_measure(
    source: Source,
    key: str,
    given: object,
    unit: str | None,
    person: str,
    known: Known = MEASURES,
    *,
    span: Span | None = None,
    times: float = 1.0,
) -> float | Note:
    """A measure in mm or rad, `times` what was written, or what is wrong with it; `span` is its place."""
    span = span or place(source, key)
    measure = known.get(key)
    if measure is None:
        return unknown_measure(key, span, known)
    example = f'`{key} = "{measure.example}"`'
    plainly = sentence("measure_unread", measure=Measures((key,)))
    quantity = _quantity(given)
    if quantity is None:
        hint = _comma(measure, given) or f"write it like {example}"
        return error(f"`{key}` is not {measure.kind.value}", span, hint, plainly=plainly)
    if quantity.kind is Kind.NUMBER and unit and measure.kind is Kind.LENGTH:
        quantity = Quantity(quantity.value * UNITS[unit][1], Kind.LENGTH)
    if quantity.kind is Kind.NUMBER:
        fact = f"`{key}` is a number without a unit"
        return error(fact, span, _with_unit(measure, quantity.value), plainly=plainly)
    if quantity.kind is not measure.kind:
        fact = f"`{key}` is {measure.kind.value}, but {shortened(str(given))} is {quantity.kind.value}"
        return error(fact, span, f"write it like {example}", plainly=plainly)
    value = quantity.value * times
    return outside_body_limits(measure, value, person, span) or value


def _quantity(given: object) -> Quantity | None:
    """What was written, or None for anything but a quantity (a percentage is no measure either)."""
    if isinstance(given, bool) or not isinstance(given, str | int | float):
        return None
    try:
        text = str(given)
    except ValueError:  # a number of thousands of digits
        return None
    for read in (read_quantity, read_spoken) if "%" not in text else ():
        try:
            return read(text)
        except (ValueError, OverflowError):
            continue
    return None


def _comma(measure: BodyMeasure, given: object) -> str | None:
    """A comma for a decimal point or between thousands, whichever can be the measure of a body."""
    text = str(given) if isinstance(given, str) else ""
    repaired = [text.replace(",", "."), text.replace(",", "")] if "," in text else []
    readings = [(one, quantity) for one in repaired if (quantity := _quantity(one))]
    likely = [one for one, quantity in readings if measure.low <= quantity.value <= measure.high]
    shown = likely or [one for one, _ in readings]
    return f'try `{measure.name} = "{shown[0]}"`' if shown else None


def _with_unit(measure: BodyMeasure, number: float) -> str:
    units = ("deg",) if measure.kind is Kind.ANGLE else TAPE_UNITS
    likely = [unit for unit in units if measure.low <= number * UNITS[unit][1] <= measure.high]
    example = f"{number:.6g} {likely[0]}" if likely else measure.example
    return f'write `{measure.name} = "{example}"`'
