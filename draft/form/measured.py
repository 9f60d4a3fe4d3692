"""All measures that a form is built of: what was taken, what is estimated from it, and what to be careful of."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import field, replace

import numpy as np

from draft.base.arrays import Bools, Floats
from draft.base.naming import plain
from draft.base.record import dataclass
from draft.bodies.bodies import Bodies
from draft.bodies.estimates import completed
from draft.bodies.formula import GIVEN
from draft.bodies.wearers import WOMEN, Wearers, wearers_called
from draft.form.proportions import (
    CHEST_TO_WAIST,
    POINTS,
    PROPORTIONS,
    RIBS_OF_BUST,
    RIBS_OF_HIGH_BUST,
    RIBS_OF_WAIST,
    TOP_HIP,
    Proportions,
)

_ESTIMATED = (
    *("neck_girth", "neck_base_girth", "shoulder_length", "shoulder_slope", "armpit_depth", "bust_depth"),
    *("back_waist_length", "hip_depth", "upper_arm_girth", "elbow_girth", "wrist_girth", "outer_arm_length"),
    *("inside_leg_length", "knee_height", "thigh_girth", "knee_girth", "calf_girth", "ankle_girth"),
)
"""What the formulas of `draft.bodies` know, in an order in which none leans on a later one."""

_SHAPING = ("bust_girth", "under_bust_girth", "waist_girth", "hip_girth", "back_waist_length", "shoulder_slope")
"""What a form's shape leans on most: said by name where it is estimated."""


@dataclass(frozen=True)
class Measured:
    """Measures `(bodies,)` in mm or rad, all that a form needs; which were `taken` of whom, and whose manner it is."""

    values: dict[str, Floats]
    taken: dict[str, Bools]
    of: Proportions
    cautions: tuple[tuple[str, ...], ...]
    """For each body what to be careful of, in words."""
    off: Mapping[str, Floats] = field(default_factory=dict)
    """mm by which a figure of shape, by name, differs from what is usual for the measures, `(bodies,)`."""

    def __len__(self) -> int:
        return len(self.cautions)

    def __getitem__(self, name: str) -> Floats:
        return self.values[name]

    def told(self, name: str) -> Floats:
        """What the survey says of a figure of shape by the name of its formula, mm `(bodies,)`, and what is off it."""
        return self.of.in_mm(getattr(self.of, name), self.values) + self.off.get(name, 0.0)

    def was_taken(self, name: str) -> Bools:
        """Of which bodies a measure was taken, `(bodies,)`."""
        return self.taken.get(name, np.zeros(len(self), dtype=bool))


def measured(bodies: Bodies, wearers: Wearers = WOMEN) -> Measured | None:
    """The measures of bodies made whole; None for children, of whom too little is known, and where no girth is."""
    whose = wearers_called(bodies.wearer) or wearers
    of = PROPORTIONS.get(whose.name)
    if of is None or not any(name in bodies.values for name in GIVEN[:3]):
        return None
    taken = {name: np.isfinite(values) for name, values in bodies.values.items()}
    whole = replace(bodies, values={**bodies.values, **_four(bodies, of)})
    whole, _ = completed(whole, _ESTIMATED, wearers=whose)
    values = dict(whole.values)
    values |= _girths_between(values, of)
    shaping = [name for name in _SHAPING if of.mounded or name != "under_bust_girth"]
    cautions = tuple(tuple(_cautions(values, taken, whose, shaping, body)) for body in range(len(bodies)))
    return Measured(values, taken, of, cautions)


def _four(bodies: Bodies, of: Proportions) -> dict[str, Floats]:
    """Bust, waist, hip and stature; what of them was not taken is what those with the others have in the middle."""
    known = np.stack([bodies.values.get(name, np.full(len(bodies), np.nan)) for name in GIVEN], axis=1) / 10.0
    means, spread = np.array(of.means), np.array(of.covariances)
    for pattern in np.unique(np.isfinite(known), axis=0):
        rows = (np.isfinite(known) == pattern).all(axis=1)
        if not pattern.any():
            known[rows] = means
        elif not pattern.all():
            slopes = np.linalg.solve(spread[np.ix_(pattern, pattern)], spread[np.ix_(pattern, ~pattern)])
            off = known[np.ix_(rows, pattern)] - means[pattern]
            known[np.ix_(rows, ~pattern)] = means[~pattern] + off @ slopes
    return {name: known[:, k] * 10.0 for k, name in enumerate(GIVEN)}


def _girths_between(values: dict[str, Floats], of: Proportions) -> dict[str, Floats]:
    """The girths that no survey has: between bust, waist and hip."""
    bust, waist, hip = (values[name] for name in GIVEN[:3])
    high = values.get("high_bust_girth", np.full_like(bust, np.nan))
    ribs = np.where(np.isfinite(high), RIBS_OF_HIGH_BUST * high, RIBS_OF_BUST * bust + RIBS_OF_WAIST * waist)
    ribs = ribs if of.mounded else bust + CHEST_TO_WAIST * (waist - bust)
    return {
        "under_bust_girth": _or(values.get("under_bust_girth"), np.minimum(ribs, 0.99 * bust)),
        "top_hip_girth": _or(values.get("top_hip_girth"), waist + TOP_HIP * (hip - waist)),
        "bust_point_distance": _or(values.get("bust_point_distance"), 2 * POINTS * bust),
        "high_bust_girth": high,
    }


def _or(taken: Floats | None, otherwise: Floats) -> Floats:
    return otherwise if taken is None else np.where(np.isfinite(taken), taken, otherwise)


def _cautions(
    values: dict[str, Floats], taken: dict[str, Bools], whose: Wearers, shaping: list[str], body: int
) -> list[str]:
    lacking = [name for name in shaping if not (name in taken and taken[name][body])]
    found = []
    if lacking:
        found.append(f"estimated on the form: {', '.join(map(plain, lacking))}")
    outside = [name for name, (low, high) in whose.learned.items() if not low <= values[name][body] <= high]
    if outside:
        names = ", ".join(map(plain, outside))
        found.append(f"few people of this {names} were measured: depths and breadths are carried on from others'")
    return found
