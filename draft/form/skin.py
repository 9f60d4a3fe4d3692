"""A form's surface as triangles: a point in each cell of its field that the surface passes, moved onto it.

Cells beside an edge of the grid that the surface crosses are joined by two triangles (surface nets).
"""

from __future__ import annotations

import numpy as np

from draft.base.arrays import Bools, Floats, Ints
from draft.base.record import dataclass
from draft.form.field import Field

_STEPS = 3


@dataclass(frozen=True, eq=False)
class Surface:
    """The left half of a form: points `(n, 3)` in mm, z from the nape, triangles `(m, 3)`, and outward normals."""

    points: Floats
    triangles: Ints
    normals: Floats


def surface_of(field: Field) -> Surface:
    """The surface where a field is nothing, up to where its grid ends."""
    grid = np.concatenate([field.grid[1:2], field.grid])  # its middle runs through cells of both halves
    inside = grid < 0
    which, number = _cells(inside)
    points = field.origin + field.step * (which + _middles(grid, which) - [1.0, 0.0, 0.0])
    points[:, 0] = np.where(which[:, 0] == 0, 0.0, points[:, 0])
    points, normals = _onto(field, points)
    triangles = np.concatenate([_quads(inside, number, axis) for axis in range(3)])
    points[which[:, 0] == 0, 0] = 0.0
    return Surface(points, triangles, normals)


def _cells(inside: Bools) -> tuple[Ints, Ints]:
    """Cells `(n, 3)` that the surface passes, and the number of each cell, -1 where it does not."""
    sums = np.zeros(tuple(n - 1 for n in inside.shape), dtype=np.int8)
    for i in (0, 1):
        for j in (0, 1):
            for k in (0, 1):
                sums += inside[i : i + sums.shape[0], j : j + sums.shape[1], k : k + sums.shape[2]]
    passed = (sums > 0) & (sums < 8)
    number = np.full(sums.shape, -1)
    number[passed] = np.arange(int(passed.sum()))
    return np.argwhere(passed), number


def _middles(grid: Floats, which: Ints) -> Floats:
    """Where in its cell the surface lies, the mean of where it crosses the cell's edges, `(n, 3)` from 0 to 1."""
    total, count = np.zeros((len(which), 3)), np.zeros(len(which))
    for axis in range(3):
        others = [k for k in range(3) if k != axis]
        for corner in range(4):
            start = np.zeros(3, dtype=np.intp)
            start[others] = [corner & 1, corner >> 1]
            a = grid[tuple((which + start).T)]
            start[axis] = 1
            b = grid[tuple((which + start).T)]
            cross = (a < 0) != (b < 0)
            at = np.zeros((len(which), 3))
            at[:, others] = start[others]
            at[:, axis] = a / np.where(cross, a - b, 1.0)
            total += np.where(cross[:, None], at, 0.0)
            count += cross
    return np.asarray(total / count[:, None])


def _onto(field: Field, points: Floats) -> tuple[Floats, Floats]:
    """Points moved onto the surface along its slope, and the normals there."""
    for _ in range(_STEPS):
        values, slopes = field.at(points)
        steep = np.maximum((slopes**2).sum(axis=1), 0.2)
        points = points - (np.clip(values, -field.step, field.step) / steep)[:, None] * slopes
    _, slopes = field.at(points)
    return points, slopes / np.maximum(np.linalg.norm(slopes, axis=1), 1e-9)[:, None]


def _quads(inside: Bools, number: Ints, axis: int) -> Ints:
    """Two triangles round each crossed edge of the grid along an axis, seen from outside against the clock."""
    low, high = (
        np.take(inside, range(inside.shape[axis] - 1), axis),
        np.take(inside, range(1, inside.shape[axis]), axis),
    )
    a, b = ((axis + 1) % 3, (axis + 2) % 3)
    edges = np.argwhere(low != high)
    edges = edges[(edges[:, a] > 0) & (edges[:, b] > 0)]
    edges = edges[(edges[:, a] < number.shape[a]) & (edges[:, b] < number.shape[b])]
    outward = inside[tuple(edges.T)]
    step_a, step_b = np.eye(3, dtype=np.intp)[[a, b]]
    around = [edges - step_a - step_b, edges - step_b, edges, edges - step_a]
    at = np.stack([number[tuple(cell.T)] for cell in around], axis=1)
    at = np.where(outward[:, None], at, at[:, ::-1])
    return np.concatenate([at[:, [0, 1, 2]], at[:, [0, 2, 3]]])
