"""What is seen of triangles in space, cell by cell of a picture: the nearest that covers each cell, and where in it.

Triangles are taken by their size, all of one size at once, so that many small ones cost no loop.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Literal

import numpy as np

from draft.base.arrays import Bools, Floats, Ints
from draft.base.record import dataclass

Side = Literal["front", "side", "back", "right"]
"""From the side is from the body's left: the front lies to the left of the picture; from its right it is the other."""

BESIDE: tuple[Side, ...] = ("side", "right")
"""The sides from which arms would hide the rest."""
_WAYS: dict[Side, Floats] = {
    "front": np.array([[1.0, 0.0], [0.0, 1.0]]),
    "side": np.array([[0.0, 1.0], [-1.0, 0.0]]),
    "back": np.array([[-1.0, 0.0], [0.0, -1.0]]),
    "right": np.array([[0.0, -1.0], [1.0, 0.0]]),
}
"""Across the picture, and away from who looks, of x and y."""
_AT_ONCE = 1_500_000
_LIGHT = np.array([-0.45, -0.72, 0.53])
"""From the upper left in front of the picture: across, away, up."""


def across(points: Floats, side: Side) -> Floats:
    """Points `(..., 3)` as they are seen, `(..., 3)`: across the picture, away from who looks, up."""
    turned = points[..., :2] @ _WAYS[side].T
    return np.concatenate([turned, points[..., 2:]], axis=-1)


@dataclass(frozen=True, eq=False)
class Frame:
    """The part of a view that is drawn, mm of the body: its left and right, lowest and highest, and a cell's size."""

    left: float
    right: float
    low: float
    high: float
    cell: float = 2.5

    @property
    def shape(self) -> tuple[int, int]:
        """Rows from above, and columns."""
        wide, tall = self.right - self.left, self.high - self.low
        return int(np.ceil(tall / self.cell)), int(np.ceil(wide / self.cell))

    def cells(self, seen: Floats) -> Floats:
        """Where points `(..., 3)` as they are seen lie, in columns and rows `(..., 2)`; cells' middles are whole."""
        x = (seen[..., 0] - self.left) / self.cell - 0.5
        return np.stack([x, (self.high - seen[..., 2]) / self.cell - 0.5], axis=-1)

    def out(self, cells: Floats) -> Floats:
        """Places in columns and rows `(n, 2)` as mm across and up `(n, 2)`."""
        return np.stack([self.left + (cells[:, 0] + 0.5) * self.cell, self.high - (cells[:, 1] + 0.5) * self.cell], 1)


@dataclass(frozen=True, eq=False)
class Body:
    """Triangles `(m, 3)` of points `(n, 3)`, each with figures `(n, k)` that are carried into the picture.

    Where `cut` `(n,)` is above nothing it is left out; it is seen as if it lay `lift` mm nearer than it does.
    """

    points: Floats
    triangles: Ints
    figures: Floats
    cut: Floats | None = None
    lift: float = 0.0


@dataclass(frozen=True, eq=False)
class Seen:
    """A picture's cells `(rows, columns)`: which body is nearest there (-1: none), how far away, how light.

    `figures` `(rows, columns, k)` are the nearest body's; k is what the most has.
    """

    which: Ints
    away: Floats
    light: Floats
    figures: Floats

    def shows(self, body: int) -> Bools:
        """Where a body is nearest, `(rows, columns)`."""
        return np.asarray(self.which == body)


def nearest_seen(bodies: Sequence[Body], side: Side, frame: Frame) -> Seen:
    """What is seen of bodies from one side."""
    rows, columns = frame.shape
    most = max(body.figures.shape[1] for body in bodies)
    which, away = np.full(rows * columns, -1), np.full(rows * columns, np.inf)
    light, figures = np.zeros(rows * columns), np.zeros((rows * columns, most))
    for number, body in enumerate(bodies):
        seen = across(body.points, side)
        shade = _lights(seen, body.triangles)
        for at, corner, share in _covered(frame.cells(seen), body.triangles, (rows, columns)):
            if body.cut is not None:
                left = (body.cut[corner] * share).sum(axis=1) <= 0
                at, corner, share = at[left], corner[left], share[left]
            depth = (seen[corner, 1] * share).sum(axis=1) - body.lift
            order = np.argsort(-depth, kind="stable")
            at, depth, corner, share = at[order], depth[order], corner[order], share[order]
            nearer = depth < away[at]
            at, depth, corner, share = at[nearer], depth[nearer], corner[nearer], share[nearer]
            which[at], away[at] = number, depth
            light[at] = (shade[corner] * share).sum(axis=1)
            figures[at, : body.figures.shape[1]] = (body.figures[corner] * share[..., None]).sum(axis=1)
    shape = (rows, columns)
    return Seen(which.reshape(shape), away.reshape(shape), light.reshape(shape), figures.reshape(*shape, most))


def _lights(seen: Floats, triangles: Ints) -> Floats:
    """How light each point is, from 0 to 1: of either side of the cloth, the one that is looked at."""
    a, b, c = (seen[triangles[:, k]] for k in range(3))
    faces = np.cross(b - a, c - a)
    normals = np.zeros_like(seen)
    for k in range(3):
        np.add.at(normals, triangles[:, k], faces)
    normals /= np.maximum(np.linalg.norm(normals, axis=1), 1e-9)[:, None]
    normals[normals[:, 1] > 0] *= -1
    return np.asarray(np.clip(normals @ (_LIGHT / np.linalg.norm(_LIGHT)), 0.0, 1.0))


def _covered(cells: Floats, triangles: Ints, shape: tuple[int, int]) -> list[tuple[Ints, Ints, Floats]]:
    """The cells that triangles cover, as numbers `(n,)`, with their corners `(n, 3)` and the share of each `(n, 3)`."""
    corners = cells[triangles]
    first = np.ceil(corners.min(axis=1)).astype(np.intp)
    span = np.floor(corners.max(axis=1)).astype(np.intp) - first + 1
    longest = span.max(axis=1)
    found = []
    for size in (1, 2, 3, 4, 6, 8, 12, 18, 27, 40, 80, 200):
        smaller = {1: 0, 2: 1, 3: 2, 4: 3, 6: 4, 8: 6, 12: 8, 18: 12, 27: 18, 40: 27, 80: 40, 200: 80}[size]
        some = np.flatnonzero((longest <= size) & (longest > smaller) & (span.min(axis=1) > 0))
        step = max(_AT_ONCE // size**2, 1)
        for k in range(0, len(some), step):
            found.append(_within(some[k : k + step], size, first, corners, triangles, shape))
    return found


def _within(
    some: Ints, size: int, first: Ints, corners: Floats, triangles: Ints, shape: tuple[int, int]
) -> tuple[Ints, Ints, Floats]:
    """Of a square of cells beside each of some triangles those that it covers."""
    offset = np.stack(np.meshgrid(np.arange(size), np.arange(size)), axis=-1).reshape(-1, 2)
    at = first[some, None] + offset
    a, b, c = (corners[some, None, k] for k in range(3))
    whole = _cross(b - a, c - a)
    share = np.stack([_cross(b - at, c - at), _cross(c - at, a - at), _cross(a - at, b - at)], axis=-1)
    share = share / np.where(np.abs(whole) > 1e-12, whole, np.inf)[..., None]
    inside = (share >= -1e-9).all(axis=-1) & (np.abs(whole) > 1e-12)
    inside &= (at >= 0).all(axis=-1) & (at[..., 0] < shape[1]) & (at[..., 1] < shape[0])
    triangle, cell = np.nonzero(inside)
    numbers = at[triangle, cell, 1] * shape[1] + at[triangle, cell, 0]
    return numbers, triangles[some[triangle]], share[triangle, cell]


def _cross(a: Floats, b: Floats) -> Floats:
    return np.asarray(a[..., 0] * b[..., 1] - a[..., 1] * b[..., 0])
