"""Which parts of a garment lie round an arm."""

from __future__ import annotations

import numpy as np

from draft.base.arrays import Bools, Floats
from draft.form.pose import Arm

_FROM_JOINT, _AROUND = 45.0, 75.0
"""mm along the arm from its joint from where on it is an arm, and how far round it a sleeve may hang."""


def round_arm(points: Floats, arm: Arm) -> Bools:
    """Whether points `(n, 3)` of either half lie round an arm as it is held, `(n,)`."""
    left = np.abs(points) * [1, 0, 0] + points * [0, 1, 1]
    found = np.zeros(len(points), dtype=bool)
    for k in range(len(arm.middles) - 1):
        start, way = arm.middles[k], arm.middles[k + 1] - arm.middles[k]
        long = float(np.linalg.norm(way))
        along = (left - start) @ (way / long)
        away = np.linalg.norm(left - start - np.clip(along, 0, long)[:, None] * way / long, axis=1)
        first = _FROM_JOINT if k == 0 else -_AROUND
        last = np.inf if k == len(arm.middles) - 2 else long
        found |= (along > first) & (along < last) & (away < arm.radii[k] + _AROUND)
    return found
