"""Figures beside a size of a chart: fuller, slimmer, taller and so on than it, as far as people of a survey are.

A chart's sizes all have the one figure that its maker had in mind. Each of these differs from a size in one trait by
two standard deviations, so that about one woman of twenty lies further out that way or the other. The shares are
residual standard deviations on the 996 women with an odd number in the US Army's survey of 2012 (ANSUR II): of the
waist, given bust and hip; of the hip, given the bust; of the bust, given waist and hip; of the stature; of the upper
arm, given all three girths. The shoulder's slope is that of `of_women.py`.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

import numpy as np

from draft.base.arrays import Floats
from draft.base.record import dataclass
from draft.bodies.bodies import Bodies
from draft.bodies.measures import MEASURES

SPREADS = 2.0
"""Standard deviations from the size."""


@dataclass(frozen=True)
class Trait:
    """Measures that differ together by a share of themselves, or by an angle in rad; words for more and for less."""

    more: str
    less: str
    measures: tuple[str, ...]
    share: float = 0.0
    angle: float = 0.0

    def varied(self, values: Mapping[str, float], way: int) -> dict[str, float]:
        """The measures `values` with this trait, more of it or less (`way` 1 or -1), held to what a body can be."""
        found = dict(values)
        for name in set(self.measures) & set(values):
            changed = values[name] * (1 + way * SPREADS * self.share) + way * SPREADS * self.angle
            found[name] = float(np.clip(changed, MEASURES[name].low, MEASURES[name].high))
        return found


_LENGTHS = (
    "stature", "armpit_depth", "bust_depth", "back_waist_length", "front_waist_length", "neck_to_bust_point",
    "hip_depth", "crotch_depth", "waist_height", "inside_leg_length", "knee_height", "outer_arm_length",
    "back_neck_point_to_wrist",
)  # fmt: skip
TRAITS = (
    Trait("a fuller waist", "a smaller waist", ("waist_girth",), 0.055),
    Trait("fuller hips", "slimmer hips", ("hip_girth", "top_hip_girth", "thigh_girth"), 0.050),
    Trait("a fuller bust", "a smaller bust", ("bust_girth",), 0.046),
    Trait("longer limbs and back", "shorter limbs and back", _LENGTHS, 0.039),
    Trait("stouter arms", "thinner arms", ("upper_arm_girth", "elbow_girth", "forearm_girth"), 0.057),
    Trait("sloping shoulders", "square shoulders", ("shoulder_slope",), angle=float(np.radians(5.6))),
)


def beside(sizes: Bodies, size: int, needed: Sequence[str]) -> Bodies:
    """The sizes, and behind them one size with each trait that changes any of the measures `needed`, both ways."""
    values = {name: float(found[size]) for name, found in sizes.values.items()}
    rows = []
    for trait in TRAITS:
        if not set(trait.measures) & set(needed):
            continue
        rows += [(f"{sizes.names[size]} with {trait.more}", trait.varied(values, 1))]
        rows += [(f"{sizes.names[size]} with {trait.less}", trait.varied(values, -1))]
    names = (*sizes.names, *(name for name, _ in rows))
    return Bodies(names, {name: _joined(found, [row[name] for _, row in rows]) for name, found in sizes.values.items()})


def _joined(found: Floats, more: Sequence[float]) -> Floats:
    return np.concatenate([found, np.array(more, dtype=float)])
