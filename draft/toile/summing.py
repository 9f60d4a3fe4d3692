"""What falls to each of many places, added up."""

from __future__ import annotations

import numpy as np

from draft.base.arrays import Floats, Ints


def summed(at: Ints, values: Floats, count: int) -> Floats:
    """The sum `(count,)` of values `(n,)` that fall to places `(n,)`."""
    return np.bincount(at, values, count).astype(float, copy=False)
