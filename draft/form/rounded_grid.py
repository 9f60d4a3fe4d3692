"""A distance on a grid as quadratic splines: smooth from cell to cell, where a trilinear one is a body of facets.

Cloth that slides over facets catches at every edge between two of them, as by friction that nobody asked for.
"""

from __future__ import annotations

import numpy as np

from draft.base.arrays import Floats

_NEXT = 1 / 8
"""What a quadratic spline takes of a node's neighbour on either side, at the node."""


def knots_of(grid: Floats) -> Floats:
    """The splines' knots `(nx + 1, ny, nz)` of values `(nx, ny, nz)` on one half of a grid, its first plane the mirror.

    One plane more lies beyond the mirror. Values that bend evenly are met to a 64th of how that changes.
    """
    found = np.concatenate([grid[1:2], grid])
    found[1:-1] -= _NEXT * (np.concatenate([grid[1:2], grid[:-2]]) - 2 * grid[:-1] + grid[1:])
    found[0] = found[2]
    for axis in (1, 2):
        turned = np.moveaxis(found, axis, 0)
        turned[1:-1] -= _NEXT * (turned[:-2] - 2 * turned[1:-1] + turned[2:])
    return found


def on_splines(knots: Floats, place: Floats) -> tuple[Floats, Floats]:
    """Values `(n,)` and slopes `(n, 3)` for each cell at places `(n, 3)` in cells; carried on straight outside."""
    _, ny, nz = knots.shape
    last = np.array(knots.shape) - [2.501, 1.501, 1.501]
    inside = np.clip(place, [0.0, 0.5, 0.5], last)
    nearest = np.floor(inside + 0.5).astype(np.intp)
    t = inside - nearest
    shares = np.stack([(0.5 - t) ** 2 / 2, 0.75 - t * t, (0.5 + t) ** 2 / 2], axis=2)
    rise = np.stack([t - 0.5, -2 * t, t + 0.5], axis=2)
    first = (nearest[:, 0] * ny + nearest[:, 1] - 1) * nz + nearest[:, 2] - 1
    steps = np.arange(3)
    block = ((steps[:, None, None] * ny + steps[:, None]) * nz + steps).ravel()
    there = knots.ravel()[first[:, None] + block].reshape(-1, 3, 3, 3)
    up, up_rise = _drawn(there, shares[:, 2]), _drawn(there, rise[:, 2])
    back, slope_y, slope_z = (_drawn(a, b) for a, b in ((up, shares[:, 1]), (up, rise[:, 1]), (up_rise, shares[:, 1])))
    slopes = np.stack(
        [(back * rise[:, 0]).sum(axis=1), *((s * shares[:, 0]).sum(axis=1) for s in (slope_y, slope_z))], axis=1
    )
    values = (back * shares[:, 0]).sum(axis=1) + ((place - inside) * slopes).sum(axis=1)
    return values, slopes


def _drawn(values: Floats, shares: Floats) -> Floats:
    """Values `(n, ..., 3)` drawn together by shares `(n, 3)`."""
    one, two, three = (shares[:, k].reshape(-1, *[1] * (values.ndim - 2)) for k in range(3))
    return np.asarray(values[..., 0] * one + values[..., 1] * two + values[..., 2] * three)
