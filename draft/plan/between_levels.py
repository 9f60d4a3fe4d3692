"""Reading a value between levels: a girth halfway between elbow and wrist, say."""

from __future__ import annotations

import numpy as np

from draft.base.arrays import Floats
from draft.words.word import Given


def read_between(at: Floats, levels: Floats, values: Floats) -> Given:
    """The values `(B,)` at levels `at` `(B,)`, along straight lines between rows of `levels` and `values` `(B, R)`.

    Beyond the first and last level the value stays as it is there. The mask is False where the levels do not rise.
    """
    steps = np.diff(levels, axis=-1)
    fits = np.all(steps > 0, axis=-1)
    share = np.clip((at[:, None] - levels[:, :-1]) / np.where(steps > 0, steps, 1.0), 0.0, 1.0)
    return values[:, 0] + np.sum(share * np.diff(values, axis=-1), axis=-1), fits
