"""How a mesh's triangles are strained as they lie: the greatest and least stretch of each, and which way that goes."""

from __future__ import annotations

import numpy as np

from draft.base.arrays import Floats, Ints
from draft.base.record import dataclass


@dataclass(frozen=True, eq=False)
class Strains:
    """Of each triangle the greatest and the least stretch as a share `(t,)`, and the way of the greatest `(t, 3)`."""

    greatest: Floats
    least: Floats
    way: Floats


def strains(rest: Floats, positions: Floats, triangles: Ints, corners: Ints) -> Strains:
    """The strains of triangles `(t, 3)` at rest in `rest` `(n, 2)`, whose `corners` `(t, 3)` now lie in `(v, 3)`."""
    flat, now = rest[triangles], positions[corners]
    edges = np.stack([flat[:, 1] - flat[:, 0], flat[:, 2] - flat[:, 0]], axis=2)
    moved = np.stack([now[:, 1] - now[:, 0], now[:, 2] - now[:, 0]], axis=2)
    turned = moved @ np.linalg.inv(edges)
    squares = np.swapaxes(turned, 1, 2) @ turned
    sizes, ways = np.linalg.eigh(squares)
    long = np.sqrt(np.maximum(sizes, 0.0))
    way = (turned @ ways[:, :, 1:])[:, :, 0]
    return Strains(long[:, 1] - 1.0, long[:, 0] - 1.0, way / np.maximum(long[:, 1:], 1e-9))


def areas(rest: Floats, triangles: Ints) -> Floats:
    """The areas of triangles `(t, 3)` at rest, mm² `(t,)`."""
    a, b, c = (rest[triangles[:, k]] for k in range(3))
    return np.asarray(np.abs((b - a)[:, 0] * (c - a)[:, 1] - (b - a)[:, 1] * (c - a)[:, 0]) / 2)


def at_points(values: Floats, weights: Floats, corners: Ints, count: int) -> Floats:
    """What triangles have `(t,)` at their corners `(count,)`, each weighed."""
    total, sums = np.zeros(count), np.zeros(count)
    for k in range(3):
        np.add.at(total, corners[:, k], weights)
        np.add.at(sums, corners[:, k], weights * values)
    return np.asarray(sums / np.maximum(total, 1e-12))
