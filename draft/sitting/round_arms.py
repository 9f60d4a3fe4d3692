"""Which parts of a garment lie round an arm: what is nearer to it than to the trunk."""

from __future__ import annotations

import numpy as np

from draft.base.arrays import Floats
from draft.form.field import Field

_FROM_JOINT = 35.0
"""mm along the arm from its joint from where on it is an arm."""


def round_arm(points: Floats, trunk: Field) -> Floats:
    """By how many mm points `(n, 3)` of either half lie within what is round an arm, `(n,)`; below nothing: outside.

    `trunk` is the form without its arms, which knows how they are held.
    """
    arm = trunk.arm
    left = np.abs(points) * [1, 0, 0] + points * [0, 1, 1]
    nearest, past = np.full(len(points), np.inf), np.full(len(points), np.inf)
    for k in range(len(arm.middles) - 1):
        start, way = arm.middles[k], arm.middles[k + 1] - arm.middles[k]
        long = float(np.linalg.norm(way))
        along = (left - start) @ (way / long)
        away = np.linalg.norm(left - start - np.clip(along, 0, long)[:, None] * way / long, axis=1) - arm.radii[k]
        if k == 0:
            past = along - _FROM_JOINT
        nearest = np.minimum(nearest, away)
    return np.asarray(np.minimum(past, trunk.at(left)[0] - nearest))
