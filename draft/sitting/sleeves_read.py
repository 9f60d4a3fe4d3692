"""How a sleeve is stretched: round the upper arm, and over an elbow that is bent."""

from __future__ import annotations

import numpy as np

from draft.base.arrays import Floats
from draft.form.field import Field
from draft.sitting.as_cut import as_cut
from draft.sitting.reading import LevelRead
from draft.sitting.round_arms import round_arm
from draft.sitting.strains import areas
from draft.sitting.worn_of import strains_of
from draft.toile.dressed import Dressed, State

_ON_ARM = (70.0, 150.0)
"""mm from the joint along the arm that are its upper arm, past what lies too near to the joint."""
_TIGHT_SLEEVE = 0.03
_OVER_ELBOW, _MOST_OFF = 40.0, 0.9
"""mm of sleeve before and behind the elbow, beside its radius, and the share of it that is stretched less."""


def upper_arm(dressed: Dressed, bare: Field, gives: float, state: State) -> list[LevelRead]:
    """The sleeve where the arm is thickest, if it is tight there: how roomy it is the arm's own girth tells."""
    sewn, at = dressed.sewn, dressed.states[state]
    middles = _middles(dressed, state)
    joint, elbow = bare.arm.middles[0], bare.arm.middles[2]
    way = (elbow - joint) / np.linalg.norm(elbow - joint)
    along = (_left(middles) - joint) @ way
    there = (along > _ON_ARM[0]) & (along < _ON_ARM[1]) & (round_arm(middles, bare) > 0) & as_cut(sewn)
    weights = areas(sewn.rest, sewn.triangles) * there
    if weights.sum() <= 0:
        return []
    stretched = float((weights * np.maximum(at.across, 0.0)).sum() / weights.sum())
    height = float((weights * middles[:, 2]).sum() / weights.sum())
    found = LevelRead("upper arm", height, stretched, stretched, stretched, gives, None)
    return [found] if stretched >= _TIGHT_SLEEVE else []


def over_elbow(dressed: Dressed, field: Field, state: State) -> float | None:
    """The share by which a sleeve is stretched over a bent elbow of the form; None without a sleeve there."""
    middles = _middles(dressed, state)
    elbow, radius = field.arm.middles[2], float(field.arm.radii[2])
    there = (np.linalg.norm(_left(middles) - elbow, axis=1) < radius + _OVER_ELBOW) & as_cut(dressed.sewn)
    if not there.any():
        return None
    return float(np.quantile(strains_of(dressed.sewn, dressed.states[state]).greatest[there], _MOST_OFF))


def _middles(dressed: Dressed, state: State) -> Floats:
    sewn = dressed.sewn
    return np.asarray(dressed.states[state].positions[sewn.merged[sewn.triangles]].mean(axis=1))


def _left(points: Floats) -> Floats:
    """Points `(n, 3)` of either half as they would be on the left."""
    return np.asarray(np.abs(points) * [1, 0, 0] + points * [0, 1, 1])
