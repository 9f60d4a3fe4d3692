"""What arrays are called, and how they are repeated: the first axis is the body, wherever there are several."""

from __future__ import annotations

from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray

Floats: TypeAlias = NDArray[np.float64]
Ints: TypeAlias = NDArray[np.intp]
Bools: TypeAlias = NDArray[np.bool_]


def repeated(counts: Ints) -> tuple[Ints, Ints]:
    """Each index as often as its count `(n,)` says, and from 0 on which time it is: two arrays `(sum of counts,)`."""
    which = np.repeat(np.arange(len(counts)), counts)
    return which, np.arange(len(which)) - np.repeat(np.cumsum(counts) - counts, counts)
