"""What outlines enclose: exactly, for half of x y' - y x' adds up to a sum of products of a cubic's controls."""

from __future__ import annotations

import numpy as np

from draft.base.arrays import Floats
from draft.geometry.cubic import cross, derivative, point
from draft.geometry.known_again import known_again

NODES, WEIGHTS = np.polynomial.legendre.leggauss(3)


def outline_area(path: Floats) -> float:
    """The area in mm2 inside a closed path `(S, 4, 2)`, positive where it runs counterclockwise.

    By three Gauss-Legendre nodes, which add up the polynomial of degree 5 without error. Where an outline has collapsed
    to a line, its direction is what rounding leaves of that sum.
    """
    return float(_by_nodes(path[None])[0]) if len(path) else 0.0


def ways_round(paths: Floats) -> Floats:
    """1 for each of closed paths `(B, S, 4, 2)` that runs counterclockwise, -1 for the others `(B,)`."""
    return np.where(_by_nodes(paths) > 0, 1.0, -1.0)


def _by_nodes(paths: Floats) -> Floats:
    near = (paths - paths[:, :1, :1])[:, :, None]  # around the outline itself, so that no digits are lost
    t = (NODES + 1) / 2
    found: Floats = (cross(point(near, t), derivative(near, t)) * WEIGHTS).reshape(len(paths), -1).sum(axis=1) / 4
    return found


@known_again
def outline_areas(path: Floats) -> Floats:
    """The areas in mm2 `(B,)` inside closed paths `(B, S, 4, 2)`, positive where they run counterclockwise."""
    near = path - path[:, :1, :1]  # around the outline itself, so that no digits are lost
    return np.asarray(segment_areas(near).sum(axis=-1))


def segment_areas(seg: Floats) -> Floats:
    """The signed area in mm2 `(...)` between each segment `(..., 4, 2)` and the lines from the origin to its ends."""
    a, b, c, d = (seg[..., k, :] for k in range(4))
    twenty = cross(6 * a, b) + 3 * cross(a, c) + cross(a, d) + 3 * cross(b, c) + 3 * cross(b, d) + 6 * cross(c, d)
    return np.asarray(twenty / 20)
