"""The directions in which a whole path sets out and arrives, past any segment without length."""

from __future__ import annotations

import numpy as np

from draft.base.arrays import Floats
from draft.geometry.cubic import end_tangent, start_tangent
from draft.geometry.known_again import known_again


@known_again
def end_directions(path: Floats) -> tuple[Floats, Floats]:
    """Unit vectors `(B, 2)` at the start and at the end of paths `(B, S, 4, 2)`; zero for a path without length."""
    return _first(start_tangent(path)), _first(end_tangent(path)[:, ::-1])


def _first(tangents: Floats) -> Floats:
    """The first vector of each row `(B, S, 2)` that is not zero."""
    present = np.any(tangents != 0.0, axis=-1)
    return np.asarray(tangents[np.arange(len(tangents)), np.argmax(present, axis=1)])
