"""Rigid motions of the plane, one for each body: how paper is turned, shifted or turned over."""

from __future__ import annotations

import numpy as np

from draft.base.arrays import Floats
from draft.geometry.cubic import dot, norm, right_of, turned, unit

Motion = Floats
"""`(B, 2, 3)`: a matrix and, in the last column, a shift."""


def moved(points: Floats, motion: Motion) -> Floats:
    """Points or paths `(B, ..., 2)` moved."""
    shape = (len(motion), *(1,) * (points.ndim - 2), 2, 3)
    by = motion.reshape(shape)
    return np.asarray((by[..., :2] * points[..., None, :]).sum(axis=-1) + by[..., 2])


def turning(about: Floats, angle: Floats) -> Motion:
    """The turn about points `(B, 2)` by radians `(B,)`, from across towards up."""
    cos, sin = np.cos(angle), np.sin(angle)
    matrix = np.stack([np.stack([cos, -sin], -1), np.stack([sin, cos], -1)], axis=-2)
    return _about(matrix, about, about)


def laying(first: Floats, towards: Floats, onto: Floats, facing: Floats, mirrored: bool = False) -> Motion:
    """The motion that lays points `first` on `onto`, with what lies `towards` a point facing another: all `(B, 2)`."""
    out, back = unit(towards - first), unit(facing - onto)
    side = right_of(out) if mirrored else -right_of(out)
    goal = -right_of(back)
    matrix = back[:, :, None] * out[:, None, :] + goal[:, :, None] * side[:, None, :]
    return _about(matrix, first, onto)


def after(second: Motion, first: Motion) -> Motion:
    """One motion after another."""
    matrix = second[..., :2] @ first[..., :2]
    shift = (second[..., :2] @ first[..., 2:])[..., 0] + second[..., 2]
    return np.concatenate([matrix, shift[..., None]], axis=-1)


def parting(near: Floats, far: Floats, at_near: Floats, at_far: Floats, side: Floats) -> Motion:
    """The motion that parts paper along the lines from `near` to `far` `(B, 2)`.

    Afterwards the paper on the side of the unit vectors `side` `(B, 2)` lies `at_near` and `at_far` mm `(B,)` away at
    the two ends, evenly to either of them.
    """
    long = norm(near - far)
    safe = np.where(long > 0, long, 1.0)
    lean = np.clip((at_near - at_far) / (2 * safe), -1.0, 1.0)
    along = (near - far) / safe[:, None]
    way = side * np.sqrt(1 - lean**2)[:, None] - along * lean[:, None]
    return laying(far, near, far + at_far[:, None] * way, near + at_near[:, None] * way)


def _about(matrix: Floats, start: Floats, goal: Floats) -> Motion:
    shift = goal - (matrix @ start[..., None])[..., 0]
    return np.concatenate([matrix, shift[..., None]], axis=-1)


def turned_about(points: Floats, about: Floats, angle: Floats) -> Floats:
    """Points or paths `(B, ..., 2)` turned about a point `(B, 2)` by radians `(B,)`, from across towards up."""
    more = tuple(range(1, points.ndim - 1))
    centre = np.expand_dims(about, more)
    return turned(points - centre, np.expand_dims(angle, more)) + centre


def mirrored_over(points: Floats, on: Floats, along: Floats) -> Floats:
    """Points or paths `(B, ..., 2)` mirrored over the lines through `on` along unit vectors, both `(B, 2)`."""
    more = tuple(range(1, points.ndim - 1))
    centre, way = np.expand_dims(on, more), np.expand_dims(along, more)
    away = points - centre
    return np.asarray(centre + 2 * dot(away, way)[..., None] * way - away)
