"""What an outline encloses."""

from __future__ import annotations

import numpy as np

from draft.base.arrays import Floats
from draft.geometry.cubic import cross, derivative, point

NODES, WEIGHTS = np.polynomial.legendre.leggauss(3)


def outline_area(path: Floats) -> float:
    """The area in mm2 inside a closed path `(N, 4, 2)`, positive where it runs counterclockwise.

    Exact: half of x y' - y x' is a polynomial of degree 5, which three Gauss-Legendre nodes add up without error.
    """
    t = (NODES + 1) / 2
    near = path - (path[0, 0] if len(path) else 0.0)  # around the outline itself, so that no digits are lost
    return float((cross(point(near[:, None], t), derivative(near[:, None], t)) * WEIGHTS).sum() / 4)
