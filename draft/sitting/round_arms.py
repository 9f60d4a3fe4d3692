"""How far along an arm, and how near to it, parts of a garment lie."""

from __future__ import annotations

import numpy as np

from draft.base.arrays import Floats
from draft.form.pose import Arm

_FROM_JOINT, _AROUND = 45.0, 75.0
"""mm along the arm from its joint from where on it is an arm, and how far round it a sleeve may hang."""


def round_arm(points: Floats, arm: Arm) -> Floats:
    """By how many mm points `(n, 3)` of either half lie within what is round an arm, `(n,)`; below nothing: outside."""
    left = np.abs(points) * [1, 0, 0] + points * [0, 1, 1]
    found = np.full(len(points), -np.inf)
    for k in range(len(arm.middles) - 1):
        start, way = arm.middles[k], arm.middles[k + 1] - arm.middles[k]
        long = float(np.linalg.norm(way))
        along = (left - start) @ (way / long)
        away = np.linalg.norm(left - start - np.clip(along, 0, long)[:, None] * way / long, axis=1)
        past = along - (_FROM_JOINT if k == 0 else -_AROUND)
        found = np.maximum(found, np.minimum(past, arm.radii[k] + _AROUND - away))
    return found
