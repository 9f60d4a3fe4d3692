"""A person between the sizes of a chart: "bust M, waist L, hip XL" as one body, not as three glued together.

The rule. Each of the three girths has a place on the row of sizes: a size's own, halfway between two (`M/L`), or where
a length such as `98 cm` lies. Every other measure is read at a place of its own, which is the mean of the places of
the girths that govern it: shoulders, neck and arms follow the bust, the hip's depth the hip, the back's length bust and
waist alike. Between two sizes a row is read along a monotone cubic (F. N. Fritsch, R. E. Carlson, "Monotone piecewise
cubic interpolation", SIAM Journal on Numerical Analysis 17, 1980): smooth, and never past its neighbours.
"""

from __future__ import annotations

import re

import numpy as np

from draft.base.arrays import Floats
from draft.base.notes import Note, error, stop_if_errors
from draft.base.units import UNITS, Kind, Quantity, in_words, read_quantity
from draft.bodies.bodies import Bodies
from draft.bodies.measures import MEASURES

GIRTHS = {"bust": "bust_girth", "waist": "waist_girth", "hip": "hip_girth"}
EXAMPLE = '`--like "bust M, waist L, hip XL"`'

GOVERNED: dict[str, tuple[str, ...]] = {
    "stature": ("bust", "waist", "hip"),
    "back_waist_length": ("bust", "waist"),
    "under_bust_girth": ("bust", "waist"),
    "waist_girth": ("waist",),
    "hip_depth": ("hip",),
    "top_hip_girth": ("waist", "hip"),
    "hip_girth": ("hip",),
}
"""Which girths govern a measure; the bust where nothing is said."""

Places = dict[str, float]


def read_like(text: str, chart: Bodies) -> Bodies:
    """One body between the sizes of a chart. Raises `Problems` with every mistake in the text."""
    notes: list[Note] = []
    places: Places = {}
    for part in _parts(text, chart):
        word, _, size = part.partition(" ")
        girth = word.lower().removesuffix("_girth")
        if girth not in GIRTHS:
            notes.append(_no_girth(word, chart))
        elif GIRTHS[girth] not in chart.values:
            notes.append(error(f"the chart has no row `{GIRTHS[girth]}`"))
        elif girth in places:
            notes.append(error(f"`{girth}` is given twice"))
        elif isinstance(place := _place(size.strip(), GIRTHS[girth], chart), Note):
            notes.append(place)
        else:
            places[girth] = place
    if not places and not notes:
        notes.append(error("no size is given", None, f"try {EXAMPLE}"))
    stop_if_errors(notes)
    return blended(chart, places, _name(text))


def _parts(text: str, chart: Bodies) -> list[str]:
    """`bust M` and so on; of a size alone, as in `M`, `size M` or `M/L`, all three girths."""
    alone = text.strip().casefold().removeprefix("size").strip()
    if alone and all(one.strip() in {name.casefold() for name in chart.names} for one in alone.split("/")):
        return [f"{girth} {alone}" for girth, name in GIRTHS.items() if name in chart.values]
    return [part.strip() for part in text.split(",") if part.strip()]


def _no_girth(word: str, chart: Bodies) -> Note:
    if word.casefold() == "size" or re.fullmatch(r"(uk|us|eu)?\d+", word.casefold()):
        fact = "shops mean different girths by one size, so the number of a dress says little here"
        measure = "measure round the bust, and give `--measure bust=` with what the tape says"
        return error(fact, None, measure, f"or choose from {', '.join(chart.names)}")
    return error(f"`{word[:40]}` is not one of bust, waist and hip", None, f"try {EXAMPLE}")


def blended(chart: Bodies, places: Places, name: str) -> Bodies:
    """The body whose bust, waist and hip lie at these places along the chart's sizes (0 is the first).

    A girth that is not given lies at the mean of the others.
    """
    mean = sum(places.values()) / len(places)
    at = {girth: places.get(girth, mean) for girth in GIRTHS}
    values = {}
    for measure, row in chart.values.items():
        governing = GOVERNED.get(measure, ("bust",))
        place = sum(at[girth] for girth in governing) / len(governing)
        values[measure] = np.array([read_row(row, place)])
    return Bodies((name,), values)


def read_row(row: Floats, place: float) -> float:
    """A chart's row `(sizes,)` at a place, 0 at its first size: along a monotone cubic, no further than its ends."""
    if len(row) == 1:
        return float(row[0])
    steps = np.diff(row)
    slopes = _slopes(steps)
    k = min(max(int(np.floor(place)), 0), len(steps) - 1)
    t = min(max(place - k, 0.0), 1.0)
    a, b, m, n = row[k], row[k + 1], slopes[k], slopes[k + 1]
    h = 1 - t
    return float(a * (1 + 2 * t) * h * h + b * t * t * (3 - 2 * t) + m * t * h * h - n * t * t * h)


def _slopes(steps: Floats) -> Floats:
    """Slopes at the sizes: harmonic means of the steps beside them, none where a row turns."""
    inner = steps[:-1] * steps[1:]
    total = steps[:-1] + steps[1:]
    middle = np.where(inner > 0, 2 * inner / np.where(inner > 0, total, 1.0), 0.0)
    return np.concatenate([steps[:1], middle, steps[-1:]])


def _place(size: str, measure: str, chart: Bodies) -> float | Note:
    names = [name.casefold() for name in chart.names]
    if size.casefold() in names:
        return float(names.index(size.casefold()))
    first, slash, second = (part.strip() for part in size.casefold().partition("/"))
    if slash and first in names and second in names and abs(names.index(first) - names.index(second)) == 1:
        return (names.index(first) + names.index(second)) / 2
    try:
        quantity = read_quantity(size)
    except (ValueError, OverflowError):
        choice = f"choose from {', '.join(chart.names)}, or give a length"
        return error(f"there is no size `{size[:40]}`", None, choice)
    if quantity.kind is not Kind.LENGTH:
        return error(f"`{size}` is {quantity.kind.value}", None, _with_unit(quantity, measure))
    return _place_of(quantity.value, measure, chart)


def _with_unit(quantity: Quantity, measure: str) -> str:
    """The number in the unit in which it can be a girth."""
    girth = MEASURES[measure]
    able = [unit for unit in ("cm", "in") if girth.low <= quantity.value * UNITS[unit][1] <= girth.high]
    example = f"{quantity.value:g} {able[0]}" if able and quantity.kind is Kind.NUMBER else girth.example
    return f'try `--like "{measure.removesuffix("_girth")} {example}"`'


def _place_of(value: float, measure: str, chart: Bodies) -> float | Note:
    """Where a length lies on a row: halved down, for the cubic rises all the way."""
    row = chart.values[measure]
    if not row[0] <= value <= row[-1]:
        low, high = (in_words(float(end), Kind.LENGTH) for end in (row[0], row[-1]))
        fact = f"`{measure}` of {in_words(value, Kind.LENGTH)} lies outside the chart, {low} to {high}"
        return error(fact, None, "give all measures in a file, with `--body FILE`")
    low_end, high_end = 0.0, float(len(row) - 1)
    for _ in range(60):
        middle = (low_end + high_end) / 2
        low_end, high_end = (middle, high_end) if read_row(row, middle) <= value else (low_end, middle)
    return (low_end + high_end) / 2


def _name(text: str) -> str:
    """What the pattern is called: the text without what a file name cannot hold."""
    return re.sub(r'[/\\:*?"<>|\s]+', " ", text).strip()[:60]
