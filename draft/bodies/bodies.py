"""The bodies that a pattern is drafted for: sizes of a chart, one person, or a whole study, as arrays."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import field, replace

import numpy as np

from draft.base.arrays import Floats, Ints
from draft.base.naming import shortened
from draft.base.notes import Note, Problems, Span, error
from draft.base.plainly import Figure, Measures, Parts, Typed, sentence
from draft.base.record import dataclass
from draft.base.units import MM_PER_INCH, UNITS, Kind, in_words
from draft.bodies.measures import MEASURES, BodyMeasure, unknown_measure

WIDEST_WAIST = 1.35
"""Times the larger of bust and hip: of surveyed women with waists over 150 cm none comes near (from memory)."""


@dataclass(frozen=True)
class Bodies:
    """Bodies by name and their measures: for each measure an array `(bodies,)` in mm or rad.

    `notes` is what a reader of theirs found worth a second look; `wearer` is what they say of themselves: `woman`,
    `man`, `child`, or nothing. Raises ValueError if an array has another length than
    `names`.
    """

    names: tuple[str, ...]
    values: dict[str, Floats]
    notes: tuple[Note, ...] = ()
    wearer: str = ""
    figure: str = ""
    """What is said of one body's figure in words, as in `sloping shoulders, bust D`."""
    standing_in: frozenset[str] = frozenset()
    """Measures that are a size's, and were not taken of this body."""
    sides: Mapping[str, Mapping[str, float]] = field(default_factory=dict, hash=False)
    """Of one body measured on both sides: for `left` and `right`, what it would measure were both as that one."""

    def __post_init__(self) -> None:
        for name, values in self.values.items():
            if values.shape != (len(self.names),):
                raise ValueError(f"`{name}` has shape {values.shape} for {len(self.names)} bodies")

    def __len__(self) -> int:
        return len(self.names)

    def select(self, names: Iterable[str]) -> Bodies:
        """Only the bodies asked for, each once. Raises Problems if one is not there, or none is asked for."""
        wanted = tuple(dict.fromkeys(names))
        choice = f"choose from {', '.join(self.names)}"
        absent = [name for name in wanted if name not in self.names]
        if absent or not wanted:
            if not absent:
                raise Problems([error("no size was asked for", None, choice, plainly=sentence("no_size"))])
            raise Problems(self._absent(name, choice) for name in absent)
        return self.at([self.names.index(name) for name in wanted])

    def at(self, rows: Sequence[int] | Ints) -> Bodies:
        """Only the bodies of these numbers `(n,)`, in their order."""
        names = tuple(self.names[row] for row in rows)
        return replace(self, names=names, values={name: values[rows] for name, values in self.values.items()})

    def _absent(self, name: str, choice: str) -> Note:
        plainly = sentence("size_unknown", size=Typed(shortened(name).strip("`")), known=Typed(", ".join(self.names)))
        return error(f"there is no size {shortened(name)}", None, *self._meant(name), choice, plainly=plainly)

    def _meant(self, name: str) -> tuple[str, ...]:
        """The size that is written so but for its capitals."""
        alike = [size for size in self.names if size.casefold() == name.strip().casefold()]
        return (f"did you mean `{alike[0]}`?",) if alike else ()


def body_notes(bodies: Bodies, needed: Iterable[str], known: Mapping[str, BodyMeasure] = MEASURES) -> list[Note]:
    """What keeps these bodies from being drafted: needed measures missing, figures that cannot be true."""
    wanted = tuple(dict.fromkeys(needed))
    notes = [note for name in wanted if (note := _missing(bodies, name, known))]
    notes += [note for name in bodies.values if (note := _implausible(bodies, name, known))]
    return notes or _out_of_proportion(bodies, known)


def outside_body_limits(measure: BodyMeasure, value: float, whose: str, span: Span | None = None) -> Note | None:
    """A note when `value` (mm or rad) cannot be the measure of a body, with the likely slip as its hint."""
    if measure.low <= value <= measure.high:
        return None
    low, high = in_words(measure.low, measure.kind), in_words(measure.high, measure.kind)
    fact = f"`{measure.name}` is {in_words(value, measure.kind)} for {whose}, outside {low} to {high}"
    ends: Parts = {"low": Figure(measure.low, measure.kind), "high": Figure(measure.high, measure.kind)}
    plainly = sentence("measure_outside", measure=Measures((measure.name,)), **ends)
    return error(fact, span, *_likely_slip(measure, value), plainly=plainly)


def _likely_slip(measure: BodyMeasure, value: float) -> tuple[str, ...]:
    if measure.kind is not Kind.LENGTH:
        return (f"measure again: {measure.how}",)
    written_in_cm, written_in_inches = value / 10, value / MM_PER_INCH
    readings = (
        (written_in_cm, "in"),
        (written_in_inches, "cm"),
        (value, "cm"),  # written in mm
        (written_in_cm, "mm"),
        (-written_in_cm, "cm"),
    )
    for number, unit in readings:
        if measure.low <= number * UNITS[unit][1] <= measure.high:
            return (f"did you mean {number:.4g} {unit}?",)
    return (f"measure again: {measure.how}",)


def _missing(bodies: Bodies, name: str, known: Mapping[str, BodyMeasure]) -> Note | None:
    if name not in known:
        return unknown_measure(name, known=known)
    values = bodies.values.get(name)
    without = [who for k, who in enumerate(bodies.names) if values is None or not np.isfinite(values[k])]
    if not without:
        return None
    column = f"a chart of sizes needs a column `{name}` for it"
    estimate = "or write `about` behind it under `body`, and what it is estimated from"
    how = f"measure it: {known[name].how}"
    plainly = sentence("measures_missing", measures=Measures((name,)))
    return error(f"`{name}` is missing for {_listed(without)}", None, how, column, estimate, plainly=plainly)


def _implausible(bodies: Bodies, name: str, known: Mapping[str, BodyMeasure]) -> Note | None:
    measure = known.get(name)
    if measure is None:
        return None
    values = bodies.values[name]
    wrong = np.flatnonzero(np.isfinite(values) & ((values < measure.low) | (values > measure.high)))
    if not wrong.size:
        return None
    others = f" (and {wrong.size - 1} more)" if wrong.size > 1 else ""
    return outside_body_limits(measure, float(values[wrong[0]]), bodies.names[wrong[0]] + others)


def _out_of_proportion(bodies: Bodies, known: Mapping[str, BodyMeasure]) -> list[Note]:
    """A waist that could be somebody's, and cannot be that of a body with this bust and hip."""
    waist, *others = (bodies.values.get(name) for name in ("waist_girth", "bust_girth", "hip_girth"))
    beside = [values for values in others if values is not None]
    if waist is None or not beside:
        return []
    large = np.fmax.reduce(beside)
    wrong = np.flatnonzero(waist > WIDEST_WAIST * large)
    if not wrong.size:
        return []
    said, most = in_words(float(waist[wrong[0]]), Kind.LENGTH), in_words(float(large[wrong[0]]), Kind.LENGTH)
    fact = f"`waist_girth` is {said} for {bodies.names[wrong[0]]}, whose bust or hip is {most}"
    plainly = sentence("waist_too_large", "how_taken", measure=Measures(("waist_girth",)))
    return [error(fact, None, f"measure again: {known['waist_girth'].how}", plainly=plainly)]


def _listed(names: list[str]) -> str:
    shown = ", ".join(names[:7])  # a whole chart of sizes is named, a study of thousands is not
    return f"{shown} and {len(names) - 7} more" if len(names) > 7 else shown
