"""One person's measures, from a small TOML file.

    name = "Ines"

    [measures]
    bust_girth = "98 cm"
    shoulder_slope = "21 deg"

With `units = "cm"` at the top, bare numbers are taken to be in that unit; with `wearer = "man"`, what was not measured
is estimated as it is in men; with `figure = "sloping shoulders, bust D"`, as it is in a figure that is described so.
Below `[measures.left]` or `[measures.right]` stands what differs on that side.
"""

from __future__ import annotations

from pathlib import Path

import numpy as np

from draft.base.naming import shortened
from draft.base.notes import MANY, Note, Problems, Source, error, nearest, stop_if_errors
from draft.base.textfile import read_source
from draft.base.toml import place, read_toml
from draft.bodies.bodies import Bodies
from draft.bodies.fit_names import unfit_name
from draft.bodies.left_right import SIDES, read_sides
from draft.bodies.measures import MEASURES
from draft.bodies.own_measure import Known
from draft.bodies.person_measure import TAPE_UNITS, read_measure
from draft.bodies.said import read_figure
from draft.bodies.wearers import WEARERS, wearers_called

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
    written, bare = _measures(source, table.get("measures"), notes), str(unit) if unit in TAPE_UNITS else None
    for key, given in [(key, given) for key, given in written.items() if key not in SIDES]:
        if len(notes) >= MANY:
            break
        read = read_measure(source, key, given, bare, person, known)
        if isinstance(read, Note):
            notes.append(read)
        else:
            values[key] = read
    apart = {key: given for key, given in written.items() if key in SIDES}
    sides, faults = read_sides(source, apart, values, bare, person, known)
    stop_if_errors(notes + faults[:MANY])
    taken = {key: np.array([value]) for key, value in values.items()}
    return Bodies((person,), taken, wearer=str(wearer), figure=str(table.get("figure", "")), sides=sides)


def _unknown_key(source: Source, key: str, known: Known) -> Note:
    if key in SIDES:
        return error(f"`{key}` stands outside of `[measures]`", place(source, key), f"write `[measures.{key}]`")
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
