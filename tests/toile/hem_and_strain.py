"""What a toile comes to in a few figures: the stretch of bands of its cloth, and the heights of its hem."""

from __future__ import annotations

import numpy as np

from draft.base.arrays import Floats
from draft.toile.dressed import Dressed, State

LEVELS = (0.0, 40.0, 200.0, 320.0)
"""mm over the lower end of a piece."""


def figures(found: Dressed, state: State = "down") -> tuple[Floats, Floats]:
    """The mean stretch of bands of the cloth, as it was cut, front and back, none less than 0; the hem's heights."""
    sewn, across = found.sewn, found.states[state].across
    middle = sewn.rest[sewn.triangles].mean(axis=1)
    p = sewn.rest[sewn.triangles]
    first, second = p[:, 1] - p[:, 0], p[:, 2] - p[:, 0]
    area = np.abs(first[:, 0] * second[:, 1] - first[:, 1] * second[:, 0])
    told = []
    for role in ("front", "back"):
        there = (np.array(sewn.roles)[sewn.piece_of_triangle] == role) & (sewn.layers < 1.5)
        low = float(sewn.rest[sewn.triangles[there]][..., 1].min())
        for level in LEVELS:
            # Without sharp ends: which triangles lie within them is another on each mesh
            near = np.exp(-(((middle[:, 1] - low - 15.0 - level) / 18.0) ** 2) - (middle[:, 0] / 180.0) ** 4)
            told.append(max(float(np.average(across, weights=area * there * near)), 0.0))
    return np.array(told), np.array([found.hem[state][end] for end in ("front", "side", "back")])
