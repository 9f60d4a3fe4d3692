"""What was not measured, estimated from what was; never silently, always with its spread.

The formulas are those of the people whom a pattern is drafted for. Beyond the bodies that they were learned on they are
only carried on, and the spread grows by as much as their slope may be wrong.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace

import numpy as np

from draft.base.arrays import Floats
from draft.base.naming import and_list
from draft.base.notes import Note, error
from draft.base.plainly import Measures, sentence
from draft.base.record import dataclass
from draft.base.units import Kind, in_words
from draft.bodies.bodies import Bodies
from draft.bodies.formula import GIVEN, Formula
from draft.bodies.measures import MEASURES, BodyMeasure
from draft.bodies.own_measure import Known, OwnMeasure
from draft.bodies.wearers import WOMEN, Wearers, wearers_called

SPREADS = 2.0
"""Standard deviations shown beside an estimate: nineteen of twenty lie within two."""

SLOPE_DOUBT = 0.5
"""By which share a formula's slope may be wrong where nobody was measured."""


@dataclass(frozen=True)
class Estimate:
    """A measure that was estimated: values and their spread of two standard deviations, `(bodies,)` in mm or rad.

    Bodies for which it was measured are False in `where`. Nobody knows the spread of what a pattern says of its own.
    `beyond` are the measures of bodies that nobody like them was measured with when the formula was found.
    """

    name: str
    values: Floats
    spread: Floats | None
    source: str
    where: np.ndarray
    kind: Kind
    beyond: tuple[str, ...] = ()
    said: str = ""
    """What was said of the figure and moved it, if anything was."""
    told: bool = True
    """Whether it is news to anybody: that a size has the block's own shape is not."""

    def in_words(self, body: int = 0) -> str:
        """`37.4 cm, give or take 2.8 cm`."""
        said = in_words(float(self.values[body]), self.kind)
        return said if self.spread is None else f"{said}, give or take {in_words(float(self.spread[body]), self.kind)}"


def completed(
    bodies: Bodies, needed: Iterable[str], known: Known = MEASURES, wearers: Wearers = WOMEN
) -> tuple[Bodies, tuple[Estimate, ...]]:
    """The bodies with what is needed and was not measured, and the estimates that were put in.

    It is done as it is in `wearers`, or in those whom the bodies themselves say that they are. What cannot be estimated
    from what is there stays missing, to be told by `check`. A pattern's own measures may lean on one another, and on
    what was estimated.
    """
    wanted = list(dict.fromkeys(needed))
    whole, estimates = _put_in(bodies, [name for name in wanted if name in MEASURES], known, wearers)
    own, more = completed_own(whole, wanted, known)
    return own, estimates + more


def completed_own(bodies: Bodies, needed: Iterable[str], known: Known) -> tuple[Bodies, tuple[Estimate, ...]]:
    """The same of a pattern's own measures alone, which no chart need have: one that leans on another after that."""
    leans_on = {name: own.leans_on for name in needed if isinstance(own := known.get(name), OwnMeasure)}
    left = list(leans_on)
    estimates: tuple[Estimate, ...] = ()
    while left:
        ready = [name for name in left if not set(left) & set(leans_on[name])] or left
        bodies, more = _put_in(bodies, ready, known)
        left, estimates = [name for name in left if name not in ready], estimates + more
    return bodies, estimates


def _put_in(
    bodies: Bodies, names: Iterable[str], known: Known, wearers: Wearers = WOMEN
) -> tuple[Bodies, tuple[Estimate, ...]]:
    values = dict(bodies.values)
    estimates = []
    for name in names:
        found = estimate(bodies, name, known, wearers)
        if found is not None:
            estimates.append(found)
            values[name] = np.where(found.where, found.values, values.get(name, np.nan))
    return replace(bodies, values=values), tuple(estimates)


def estimate(bodies: Bodies, name: str, known: Known = MEASURES, wearers: Wearers = WOMEN) -> Estimate | None:
    """The estimate of one measure for the bodies that lack it, or None where none lacks it or nothing is known."""
    measure, measured, of = known.get(name), bodies.values.get(name), _whose(bodies, wearers)
    where = np.ones(len(bodies), dtype=bool) if measured is None else ~np.isfinite(measured)
    if measure is None or not where.any() or any(other not in bodies.values for other in _leans_on(name, known, of)):
        return None
    found = _estimated(bodies, measure, of, where)
    return found if found and found.where.any() else None


def _whose(bodies: Bodies, wearers: Wearers) -> Wearers:
    return wearers_called(bodies.wearer) or wearers


def _estimated(bodies: Bodies, measure: BodyMeasure, of: Wearers, where: np.ndarray) -> Estimate | None:
    if isinstance(measure, OwnMeasure):
        values = measure.estimate(bodies) if measure.estimate else np.full(len(bodies), np.nan)
        source = f"the pattern's own: {measure.words}"
        return _within(measure, Estimate(measure.name, values, None, source, where, measure.kind))
    formula = of.formulas.get(measure.name)
    if formula is None:
        return None
    unit = measure.unit
    values = np.full(len(bodies), formula.start * unit)
    square = np.full(len(bodies), (SPREADS * formula.sd * unit) ** 2)
    beyond: tuple[str, ...] = ()
    for name, factor in zip(GIVEN, formula.factors, strict=True):
        if factor:
            outside = _beyond(of, name, bodies.values[name])
            given = bodies.values[name]
            values = values + factor * (np.clip(given, *of.learned[name]) if formula.held_beyond else given)
            square = square + (SLOPE_DOUBT * SPREADS * factor * outside) ** 2
            beyond += (name,) if (outside[where] > 0).any() else ()
    found = Estimate(measure.name, values, np.sqrt(square), formula.source, where, measure.kind, beyond)
    return _within(measure, found)


def _within(measure: BodyMeasure, found: Estimate) -> Estimate:
    """Kept within what can be the measure of a body, where anything is known."""
    where = found.where & np.isfinite(found.values)
    return replace(found, values=np.clip(found.values, measure.low, measure.high), where=where)


def _beyond(of: Wearers, name: str, values: Floats) -> Floats:
    """How far values `(bodies,)` lie outside of those that the formulas were learned on, mm."""
    low, high = of.learned[name]
    return np.maximum(np.maximum(low - values, values - high), 0.0)


def _leans_on(name: str, known: Known, of: Wearers) -> tuple[str, ...]:
    measure = known.get(name)
    if isinstance(measure, OwnMeasure):
        return measure.leans_on
    formula: Formula | None = of.formulas.get(name)
    return formula.leans_on if formula else ()


def unestimated(bodies: Bodies, needed: Iterable[str], known: Known = MEASURES, wearers: Wearers = WOMEN) -> list[Note]:
    """What to give, where measures are missing that could be estimated from it: one note, or none."""
    of = _whose(bodies, wearers)
    lacking = [name for name in dict.fromkeys(needed) if name not in bodies.values]
    others = [name for name in lacking if _leans_on(name, known, of) or name in of.formulas]
    leant_on = [other for name in others for other in _leans_on(name, known, of)]
    asked = [name for name in (*GIVEN, *leant_on) if name in lacking or name in leant_on]
    asked = [name for name in dict.fromkeys(asked) if name not in others]
    absent = [name for name in asked if name not in bodies.values]
    if not others or not absent:
        return []
    more = f"{len(others)} others" if len(others) > 1 else f"`{others[0]}`"
    fact = f"{_listed(absent)} {'is' if len(absent) == 1 else 'are'} missing; {more} could be estimated"
    plainly = sentence("measures_missing", measures=Measures(tuple(absent)))
    return [error(fact, None, *(f"measure `{name}`: {known[name].how}" for name in absent), plainly=plainly)]


def _listed(names: Sequence[str]) -> str:
    return and_list([f"`{name}`" for name in names])
