"""How cloth withstands being bent: the curvature of a quadratic through each triangle and the corners beyond its sides.

A triangle and its three neighbours, laid flat about the sides that they share, are six points: a quadratic through them
has one curvature. Where a side has no neighbour, the least curvature that the others ask for. Cloth at rest is flat,
so the energy is quadratic in the positions, and its matrix is made once. The triangles' hinges alone, as most have it,
come to another stiffness on each pattern of triangles; a strip that hangs over an edge tells (`tests/toile`).
"""

from __future__ import annotations

import numpy as np

from draft.base.arrays import Bools, Floats, Ints
from draft.base.record import dataclass

_FLAT = 0.05  # of the largest: points that all but lie on one conic tell nothing of that part of the curvature


@dataclass(frozen=True, eq=False)
class Bending:
    """For each triangle six vertices `(t, 6)`, and the three parts of its curvature by them, `(t, 3, 6)`.

    They are weighed so that the energy is half of the sum of their squares, in N mm.
    """

    vertices: Ints
    parts: Floats

    def matrices(self) -> Floats:
        """The energy's matrix of each triangle by its six vertices, `(t, 6, 6)` N/mm, the same for every axis."""
        return np.asarray(self.parts.transpose(0, 2, 1) @ self.parts)


def bending_of(corners: Floats, triangles: Ints, count: int, stiffness: Floats) -> Bending:
    """Of triangles `(t, 3)` of merged vertices, their corners at rest `(t, 3, 2)` and stiffness `(t,)` in N mm."""
    beyond, places, there = _beyond(corners, triangles, count)
    base = np.concatenate([np.ones((*corners.shape[:2], 1)), corners], axis=2)
    shares = np.concatenate([np.ones((*places.shape[:2], 1)), places], axis=2) @ np.linalg.inv(base)
    size = _area(corners)
    told = (_squares(places) - shares @ _squares(corners)) * there[..., None]
    curved = np.linalg.pinv(told / size[:, None, None], rcond=_FLAT) / size[:, None, None]
    by = np.concatenate([-shares, np.broadcast_to(np.eye(3), shares.shape)], axis=2) * there[..., None]
    parts = curved @ by * np.sqrt(stiffness * size)[:, None, None]
    return Bending(np.concatenate([triangles, np.where(there, beyond, triangles)], axis=1), parts)


def _area(corners: Floats) -> Floats:
    first, second = corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0]
    return np.asarray(np.abs(first[:, 0] * second[:, 1] - first[:, 1] * second[:, 0]) / 2)


def _squares(points: Floats) -> Floats:
    """What curvature along x, aslant and along y adds at points `(..., 2)`; aslant counts twice in the energy."""
    x, y = points[..., 0], points[..., 1]
    return np.stack([x * x / 2, x * y / np.sqrt(2), y * y / 2], axis=-1)


def _beyond(corners: Floats, triangles: Ints, count: int) -> tuple[Ints, Floats, Bools]:
    """Beyond each side the neighbour's corner, its place `(t, 3, 2)` laid flat beside, and whether there is one."""
    sides = np.stack([triangles, np.roll(triangles, -1, axis=1)], axis=2).reshape(-1, 2)
    key = np.sort(sides, axis=1) @ np.array([count, 1])
    order = np.argsort(key, kind="stable")
    same = np.flatnonzero(key[order][1:] == key[order][:-1])
    one, other = order[same], order[same + 1]
    vertex, place = np.zeros(len(sides), dtype=np.intp), np.zeros((len(sides), 2))
    there = np.zeros(len(sides), dtype=bool)
    for own, far in ((one, other), (other, one)):
        place[own] = _laid_flat(corners, own, far, sides[own, 0] == sides[far, 1])
        vertex[own] = triangles[far // 3, (far % 3 + 2) % 3]
        there[own] = True
    return vertex.reshape(-1, 3), place.reshape(-1, 3, 2), there.reshape(-1, 3)


def _laid_flat(corners: Floats, own: Ints, far: Ints, opposite: Bools) -> Floats:
    """Where the third corner of the triangle of side `far` lies, laid beside that of side `own`: `(n, 2)`."""
    p, q = (corners[own // 3, (own % 3 + k) % 3] for k in range(2))
    a, b, c = (corners[far // 3, (far % 3 + k) % 3] for k in range(3))
    way, side = b - a, q - p
    long = (way * way).sum(axis=1)
    share = ((c - a) * way).sum(axis=1) / long
    off = np.abs((c - a)[:, 0] * way[:, 1] - (c - a)[:, 1] * way[:, 0]) / np.sqrt(long)
    share = np.where(opposite, 1.0 - share, share)
    out = np.stack([side[:, 1], -side[:, 0]], axis=1) / np.hypot(*side.T)[:, None]
    return np.asarray(p + share[:, None] * side + off[:, None] * out)
