"""How far a path lies along a direction, over its whole length."""

from __future__ import annotations

import numpy as np

from draft.base.arrays import Floats
from draft.geometry.flatten import sample

CHORDS = 16  # to each segment


def mean_square_along(path: Floats, way: Floats) -> Floats:
    """The mean square of the cosine `(B,)` between paths `(B, S, 4, 2)` and unit vectors `(B, 2)`.

    It is 1 where a path runs along the vector all the way, and 0 where it runs square to it.
    """
    steps = np.diff(sample(path, CHORDS), axis=1)
    lengths = np.hypot(steps[..., 0], steps[..., 1])
    along = np.einsum("bnk,bk->bn", steps, way)
    total = np.sum(lengths, axis=1)
    return np.asarray(np.sum(along**2 / np.maximum(lengths, 1e-9), axis=1) / np.maximum(total, 1e-9))
