"""One person's measures, from a small TOML file.

    name = "Ines"

    [measures]
    bust_girth = "98 cm"
    shoulder_slope = "21 deg"

With `units = "cm"` at the top, bare numbers are taken to be in that unit; with `wearer = "man"`, what was not measured
is estimated as it is in men; with `figure = "sloping shoulders, bust D"`, as it is in a figure that is described so.
"""

from __future__ import annotations

from pathlib import Path

import numpy as np

from draft.base.naming import shortened
from draft.base.notes import MANY, Note, Problems, Source, error, nearest, stop_if_errors
from draft.base.textfile import read_source
from draft.base.toml import place, read_toml
from draft.base.units import UNITS, Kind, Quantity, read_quantity
from draft.bodies.bodies import Bodies, outside_body_limits
from draft.bodies.fit_names import unfit_name
from draft.bodies.measures import MEASURES, BodyMeasure, unknown_measure
from draft.bodies.own_measure import Known
from draft.bodies.said import read_figure
from draft.bodies.spoken import read_spoken
from draft.bodies.wearers import WEARERS, wearers_called

TAPE_UNITS = ("cm", "in", "mm")
"""What a bare number may be in: the units on a tape measure."""

KEYS = ("name", "units", "wearer", "figure", "measures")
LINE = 'bust_girth = "98 cm"'


def read_person(path: Path, known: Known = MEASURES) -> Bodies:
    """One body, its measures of those that are `known`.

    Raises Problems with every mistake in the file, or with why it cannot be read.
    """
    source = read_source(path, "file of measures")
    table = read_toml(source, LINE)
    name = table.get("name", path.stem)
    unit, wearer = table.get("units"), table.get("wearer", "")
    notes = [_unknown_key(source, key, known) for key in [key for key in table if key not in KEYS][:MANY]]
    notes += _name_notes(source, name, "name" in table) + _unit_notes(source, unit) + _wearer_notes(source, wearer)
    notes += _figure_notes(source, table.get("figure"))
    person = str(name).strip() or path.stem
    values: dict[str, float] = {}
    for key, given in _measures(source, table.get("measures"), notes).items():
        if len(notes) >= MANY:
            break
        read = read_measure(source, key, given, str(unit) if unit in TAPE_UNITS else None, person, known)
        if isinstance(read, Note):
            notes.append(read)
        else:
            values[key] = read
    stop_if_errors(notes)
    taken = {key: np.array([value]) for key, value in values.items()}
    return Bodies((person,), taken, wearer=str(wearer), figure=str(table.get("figure", "")))


def _unknown_key(source: Source, key: str, known: Known) -> Note:
    if key in known:
        hint = "move it below a line that says `[measures]`"
        return error(f"`{key}` stands outside of `[measures]`", place(source, key), hint)
    return error(f"{shortened(key)} is not known here", place(source, key), *nearest(key[:80], KEYS))


def _name_notes(source: Source, name: object, given: bool) -> list[Note]:
    hint = 'name the person at the top, such as `name = "Ines"`'
    span = place(source, "name") if given else None
    if not isinstance(name, str):
        return [error("the name is not a text in quotes", span, hint)]
    fault = unfit_name(name.strip())
    return [error(f"the person's name {fault}", span, hint)] if fault else []


def _unit_notes(source: Source, unit: object) -> list[Note]:
    if unit is None or unit in TAPE_UNITS:
        return []
    hint = 'write `units = "cm"`, or `"in"`, or `"mm"`'
    return [error("`units` is not a unit of a tape measure", place(source, "units"), hint)]


def _wearer_notes(source: Source, wearer: object) -> list[Note]:
    if wearer == "" or (isinstance(wearer, str) and wearers_called(wearer)):
        return []
    hint = f"write one of {', '.join(f'`{wearers.one}`' for wearers in WEARERS.values())}"
    return [error("`wearer` is not whose body this is", place(source, "wearer"), hint)]


def _figure_notes(source: Source, figure: object) -> list[Note]:
    if figure is None:
        return []
    if not isinstance(figure, str):
        hint = 'write what is seen of it, such as `figure = "sloping shoulders, bust D"`'
        return [error("`figure` is not a text in quotes", place(source, "figure"), hint)]
    try:
        read_figure(figure, place(source, "figure"))
    except Problems as problems:
        return list(problems.notes)
    return []


def _measures(source: Source, table: object, notes: list[Note]) -> dict[str, object]:
    if isinstance(table, dict) and table:
        return table
    hint = f"add a line `[measures]`, and below it lines such as `{LINE}`"
    notes.append(error(f"`{source.name}` holds no measures", place(source, "measures"), hint))
    return {}


def read_measure(
    source: Source, key: str, given: object, unit: str | None, person: str, known: Known = MEASURES
) -> float | Note:
    span = place(source, key)
    measure = known.get(key)
    if measure is None:
        return unknown_measure(key, span, known)
    example = f'`{key} = "{measure.example}"`'
    quantity = _quantity(given)
    if quantity is None:
        hint = _comma(measure, given) or f"write it like {example}"
        return error(f"`{key}` is not {measure.kind.value}", span, hint)
    if quantity.kind is Kind.NUMBER and unit and measure.kind is Kind.LENGTH:
        quantity = Quantity(quantity.value * UNITS[unit][1], Kind.LENGTH)
    if quantity.kind is Kind.NUMBER:
        return error(f"`{key}` is a number without a unit", span, _with_unit(measure, quantity.value))
    if quantity.kind is not measure.kind:
        fact = f"`{key}` is {measure.kind.value}, but {shortened(str(given))} is {quantity.kind.value}"
        return error(fact, span, f"write it like {example}")
    return outside_body_limits(measure, quantity.value, person, span) or quantity.value


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
