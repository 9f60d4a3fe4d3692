"""Directions that one edge takes from another."""

from __future__ import annotations

import numpy as np

from draft.geometry.ends import end_directions
from draft.words.word import Floats


def square_to(path: Floats, at_start: bool, chord: Floats) -> Floats:
    """The perpendicular `(B, 2)` of a path at one of its ends, on the side towards which `chord` `(B, 2)` runs."""
    start, end = end_directions(path)
    along = start if at_start else end
    turned = np.stack([-along[:, 1], along[:, 0]], axis=-1)
    lean = np.sum(turned * chord, axis=-1)
    return np.asarray(turned * np.where(lean < 0, -1.0, 1.0)[:, None])
