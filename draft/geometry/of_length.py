"""A curve of a wanted length between fixed ends and directions: its handles are made longer or shorter."""

from __future__ import annotations

import numpy as np

from draft.base.arrays import Bools, Floats
from draft.geometry.length import length

SHORTEST, LONGEST = 0.0, 3.0  # of the handles of a fair curve; longer ones make loops
HALVINGS = 40
ENOUGH = 0.01  # mm


def of_length(path: Floats, wanted: Floats) -> tuple[Floats, Bools]:
    """Paths `(B, S, 4, 2)` with their handles scaled to the length `wanted` `(B,)`, and where that can be reached."""
    low, high = np.full(len(path), SHORTEST), np.full(len(path), LONGEST)
    for _ in range(HALVINGS):
        middle = (low + high) / 2
        short = length(_scaled(path, middle)) < wanted
        low, high = np.where(short, middle, low), np.where(short, high, middle)
    found = _scaled(path, high)
    return found, np.abs(length(found) - wanted) <= ENOUGH


def _scaled(path: Floats, share: Floats) -> Floats:
    a, b, c, d = (path[..., k, :] for k in range(4))
    s = share[:, None, None]
    return np.stack([a, a + (b - a) * s, d + (c - d) * s, d], axis=-2)
