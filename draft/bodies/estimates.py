"""What was not measured, estimated from bust, waist, hip and stature; never silently, always with its spread.

Most rows are regressions on the 1,986 women of the US Army's anthropometric survey of 2012 (ANSUR II), or on half of
them, some are its medians, three are our own regressions on the 260 women of G. Heinz, L. Peterson, R. Johnson,
C. Kerk, "Exploring Relationships in Body Dimensions", Journal of Statistics Education 11(2), 2003. The survey's waist
lies at the navel and its upper arm was flexed; the rows below are turned to the natural waist and the relaxed arm, and
say so.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

import numpy as np

from draft.base.arrays import Floats
from draft.base.notes import Note, error
from draft.base.units import Kind, in_words
from draft.bodies.bodies import Bodies
from draft.bodies.measures import MEASURES, BodyMeasure
from draft.bodies.own_measure import Known, OwnMeasure

NAVEL = 7.5
"""cm from the natural waist's girth to the navel's: the survey's medians against ASTM D5585 at equal bust."""

NAVEL_BELOW = 2.0
"""cm from the natural waist down to the navel (from memory: 1 to 4)."""

RELAXED = 0.95
"""The relaxed upper arm as a share of the flexed (from memory)."""

SPREADS = 2.0
"""Standard deviations shown beside an estimate: nineteen of twenty women lie within two."""

GIVEN = ("bust_girth", "waist_girth", "hip_girth", "stature")
"""What the formulas lean on, in the order of their factors."""

_HALF = "regression on 996 women (ANSUR II, 2012)"
_SURVEY = "regression on 1,986 women (ANSUR II, 2012)"
_MEDIAN = "median of 1,986 women (ANSUR II, 2012)"
_STUDY = "regression on 260 women (Heinz et al. 2003)"
_PERCENTILES = 2 * 2.326  # from the first to the 99th percentile there are so many standard deviations


@dataclass(frozen=True)
class Formula:
    """`start` plus `factors` times bust, waist, hip and stature, in cm (or degrees); `sd` is what women miss it by."""

    start: float
    factors: tuple[float, float, float, float]
    sd: float
    source: str

    @property
    def leans_on(self) -> tuple[str, ...]:
        """The measures that it leans on."""
        return tuple(name for name, factor in zip(GIVEN, self.factors, strict=True) if factor)

    def scaled(self, share: float, sd: float, source: str) -> Formula:
        """A measure that is a share of another."""
        return Formula(self.start * share, _times(self.factors, share), sd, source)

    def plus(self, cm: float) -> Formula:
        """The same, so much longer."""
        return Formula(self.start + cm, self.factors, self.sd, self.source)


def _times(factors: tuple[float, float, float, float], share: float) -> tuple[float, float, float, float]:
    bust, waist, hip, stature = (factor * share for factor in factors)
    return bust, waist, hip, stature


def _survey(start: float, bust: float, navel: float, hip: float, stature: float, sd: float) -> Formula:
    """A regression whose waist is at the navel."""
    return Formula(start + navel * NAVEL, (bust, navel, hip, stature), sd, _SURVEY)


def _median(value: float, first: float, last: float) -> Formula:
    return Formula(value, (0, 0, 0, 0), (last - first) / _PERCENTILES, _MEDIAN)


def _half(start: float, bust: float, navel: float, hip: float, stature: float, sd: float) -> Formula:
    """A regression on half of the survey, whose waist is at the navel; figures of little weight are left out."""
    return Formula(start + navel * NAVEL, (bust, navel, hip, stature), sd, _HALF)


_TO_NAVEL = _survey(7.36, -0.055, 0.224, -0.089, 0.185, 1.80)
_WRIST = _survey(3.13, 0.039, 0, 0, 0.053, 0.58)
_FOREARM = Formula(2.85, (0.129, 0, 0.095, 0), 0.99, _STUDY)

FORMULAS: dict[str, Formula] = {
    "head_girth": _median(56.0, 52.1, 61.1),
    "neck_base_girth": _survey(11.00, 0.140, 0, 0, 0.079, 1.40),
    "shoulder_length": _survey(3.10, 0.003, 0, 0, 0.062, 0.94),
    # The drop from neck to shoulder point spreads by 1.3 cm (3.0 to 9.1 in the survey) over a shoulder of 13.5 cm
    "shoulder_slope": Formula(
        20.0, (0, 0, 0, 0), 5.6, "what blocks are drafted with; it follows from no other measure"
    ),
    "shoulder_girth": Formula(4.47, (0.763, 0, 0.100, 0.102), 3.55, _STUDY),
    "armpit_depth": _TO_NAVEL.scaled(15.6 / 42.4, (18.9 - 12.3) / _PERCENTILES, f"share of the back, {_MEDIAN}"),
    "bust_depth": _TO_NAVEL.scaled(22.4 / 42.4, (28.4 - 17.0) / _PERCENTILES, f"share of the back, {_MEDIAN}"),
    "neck_girth": _half(12.27, 0.105, 0.057, 0, 0.036, 1.26),
    "back_neck_point_to_wrist": _half(-0.09, 0.088, 0, 0, 0.445, 2.15),
    # Taken at the level of the armpits; the chest in front is drafted narrower, by about 2.5 cm
    "across_back_width": _half(8.91, 0.227, 0, 0, 0.042, 2.30),
    "across_front_width": Formula(
        6.4, (0.227, 0, 0, 0.042), 2.8, "the back's width less 2.5 cm, as blocks are drafted (from memory)"
    ),
    # Not in the survey: from the nape's height to the bust point's, forward by half the chest's depth, aside by 3.5 cm;
    # then on down to the natural waist. That the side neck is as high as the nape is from memory, and widens the spread
    "neck_to_bust_point": Formula(-1.57, (0.144, 0, 0, 0.085), 2.2, f"heights and depths, {_HALF}"),
    "front_waist_length": Formula(3.29, (0.156, 0, 0, 0.154), 2.0, f"heights and depths, {_HALF}"),
    "bust_point_distance": Formula(
        0.0, (0.2, 0, 0, 0), 1.8, "a fifth of the bust, as blocks are drafted (from memory)"
    ),
    # From the natural waist, so much above the navel: in front and behind, or once where it is a height
    "crotch_length": _half(5.60 + 2 * NAVEL_BELOW, 0, 0, 0.300, 0.159, 3.15),
    "crotch_depth": _half(1.64 + NAVEL_BELOW, 0, 0, -0.012, 0.119, 1.97),
    "waist_height": _half(-19.19 + NAVEL_BELOW, 0, 0, 0, 0.719, 2.03),
    "trunk_girth": _half(15.96, 0.271, 0, 0.402, 0.450, 3.56),
    "inside_leg_length": _half(-18.18, 0, 0, -0.064, 0.632, 2.32),
    "knee_height": _half(-12.51, 0, 0, 0, 0.352, 1.39),
    "thigh_girth": _half(-3.55, 0, 0, 0.704, -0.041, 1.93),
    "knee_girth": Formula(-2.30, (0, 0, 0.262, 0.076), 1.61, _STUDY),
    "calf_girth": _half(4.35, 0, 0, 0.265, 0.036, 1.93),
    "ankle_girth": _half(4.62, 0, 0, 0.089, 0.048, 1.24),
    "heel_girth": _half(3.08, 0, 0, 0.068, 0.129, 1.04),
    "back_waist_length": _TO_NAVEL.plus(-NAVEL_BELOW),
    "hip_depth": Formula(0.0, (0, 0, 0, 1 / 8), 1.5, "an eighth of the stature, as figures are drawn (from memory)"),
    "upper_arm_girth": _survey(0.16, 0.100, 0.046, 0.196, -0.019, 1.72).scaled(RELAXED, 1.72, f"{_SURVEY}, relaxed"),
    "elbow_girth": _FOREARM.scaled(1.0, 1.2, f"as the forearm, {_STUDY}"),
    "forearm_girth": _FOREARM,
    "wrist_girth": _WRIST,
    "hand_girth": _WRIST.scaled(18.7 / 15.4, (20.7 - 16.7) / _PERCENTILES, f"share of the wrist, {_MEDIAN}"),
    "outer_arm_length": _survey(-5.49, 0.013, 0, 0, 0.360, 1.79),
}


@dataclass(frozen=True)
class Estimate:
    """A measure that was estimated: values `(bodies,)` and their spread of two standard deviations, in mm or rad.

    Bodies for which it was measured are False in `where`. Nobody knows the spread of what a pattern says of its own.
    """

    name: str
    values: Floats
    spread: float | None
    source: str
    where: np.ndarray
    kind: Kind

    def in_words(self, body: int = 0) -> str:
        """`37.4 cm, give or take 2.8 cm`."""
        said = in_words(float(self.values[body]), self.kind)
        return said if self.spread is None else f"{said}, give or take {in_words(self.spread, self.kind)}"


def completed(bodies: Bodies, needed: Iterable[str], known: Known = MEASURES) -> tuple[Bodies, tuple[Estimate, ...]]:
    """The bodies with what is needed and was not measured, and the estimates that were put in.

    What cannot be estimated from what is there stays missing, to be told by `check`. A pattern's own measures may lean
    on one another, and on what was estimated.
    """
    wanted = list(dict.fromkeys(needed))
    whole, estimates = _put_in(bodies, [name for name in wanted if name in MEASURES], known)
    own, more = completed_own(whole, wanted, known)
    return own, estimates + more


def completed_own(bodies: Bodies, needed: Iterable[str], known: Known) -> tuple[Bodies, tuple[Estimate, ...]]:
    """The same of a pattern's own measures alone, which no chart need have: one that leans on another after that."""
    left = [name for name in needed if isinstance(known.get(name), OwnMeasure)]
    estimates: tuple[Estimate, ...] = ()
    while left:
        ready = [name for name in left if not set(left) & set(_leans_on(name, known))] or left
        bodies, more = _put_in(bodies, ready, known)
        left, estimates = [name for name in left if name not in ready], estimates + more
    return bodies, estimates


def _put_in(bodies: Bodies, names: Iterable[str], known: Known) -> tuple[Bodies, tuple[Estimate, ...]]:
    values = dict(bodies.values)
    estimates = []
    for name in names:
        found = estimate(bodies, name, known)
        if found is not None:
            estimates.append(found)
            values[name] = np.where(found.where, found.values, values.get(name, np.nan))
    return replace(bodies, values=values), tuple(estimates)


def estimate(bodies: Bodies, name: str, known: Known = MEASURES) -> Estimate | None:
    """The estimate of one measure for the bodies that lack it, or None where none lacks it or nothing is known."""
    measure, measured = known.get(name), bodies.values.get(name)
    where = np.ones(len(bodies), dtype=bool) if measured is None else ~np.isfinite(measured)
    if measure is None or not where.any() or any(other not in bodies.values for other in _leans_on(name, known)):
        return None
    found, spread, source = _estimated(bodies, measure)
    where = where & np.isfinite(found)
    if not where.any():
        return None
    return Estimate(name, np.clip(found, measure.low, measure.high), spread, source, where, measure.kind)


def _estimated(bodies: Bodies, measure: BodyMeasure) -> tuple[Floats, float | None, str]:
    """Values `(bodies,)`, not a number where nothing is known, with their spread and what they follow from."""
    if isinstance(measure, OwnMeasure):
        nothing = np.full(len(bodies), np.nan)
        return measure.estimate(bodies) if measure.estimate else nothing, None, f"the pattern's own: {measure.words}"
    formula = FORMULAS.get(measure.name)
    if formula is None:
        return np.full(len(bodies), np.nan), None, ""
    unit = np.radians(1.0) if measure.kind is Kind.ANGLE else 10.0
    found = np.full(len(bodies), formula.start * unit)
    for given, factor in zip(GIVEN, formula.factors, strict=True):
        if factor:
            found = found + factor * bodies.values[given]
    return found, SPREADS * formula.sd * unit, formula.source


def _leans_on(name: str, known: Known) -> tuple[str, ...]:
    measure = known.get(name)
    if isinstance(measure, OwnMeasure):
        return measure.leans_on
    return FORMULAS[name].leans_on if name in FORMULAS else ()


def unestimated(bodies: Bodies, needed: Iterable[str], known: Known = MEASURES) -> list[Note]:
    """What to give, where measures are missing that could be estimated from it: one note, or none."""
    lacking = [name for name in dict.fromkeys(needed) if name not in bodies.values]
    others = [name for name in lacking if _leans_on(name, known) or name in FORMULAS]
    leant_on = [other for name in others for other in _leans_on(name, known)]
    asked = [name for name in (*GIVEN, *leant_on) if name in lacking or name in leant_on]
    asked = [name for name in dict.fromkeys(asked) if name not in others]
    absent = [name for name in asked if name not in bodies.values]
    if not others or not absent:
        return []
    more = f"{len(others)} others" if len(others) > 1 else f"`{others[0]}`"
    fact = f"{_listed(absent)} {'is' if len(absent) == 1 else 'are'} missing; {more} could be estimated"
    return [error(fact, None, *(f"measure `{name}`: {known[name].how}" for name in absent))]


def _listed(names: Sequence[str]) -> str:
    quoted = [f"`{name}`" for name in names]
    return " and ".join([", ".join(quoted[:-1]), quoted[-1]]) if len(quoted) > 1 else quoted[0]
