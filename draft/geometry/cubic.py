"""Cubic segments: the one kind of line that the engine draws, straight lines included.

A segment is `(..., 4, 2)` float64 in mm: first point, first handle, second handle, last point. A path is
`(B, S, 4, 2)`: S segments end to end for each of B bodies. A segment without length gives finite results too.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache
from typing import TypeAlias

import numpy as np
from numpy.typing import ArrayLike

from draft.base.arrays import Bools, Floats

NO_LENGTH = 1e-9
"""Handles nearer than this many mm to a point give no direction: far above the rounding of any drawing."""


def line(a: ArrayLike, b: ArrayLike) -> Floats:
    """A straight segment `(..., 4, 2)` from `a` to `b` `(..., 2)` at constant speed: handles at thirds."""
    start, end = np.asarray(a, dtype=float), np.asarray(b, dtype=float)
    step = (end - start) / 3
    found = np.empty((*step.shape[:-1], 4, 2))
    found[..., 0, :], found[..., 3, :] = start, end
    np.add(start, step, out=found[..., 1, :])
    np.subtract(end, step, out=found[..., 2, :])
    return found


def lines_through(points: ArrayLike, closed: bool = False) -> Floats:
    """Straight segments `(N - 1, 4, 2)` through points `(N, 2)`; back to the first, `(N, 4, 2)`, if `closed`."""
    through = np.asarray(points, dtype=float)
    if closed:
        through = np.concatenate([through, through[:1]])
    return line(through[:-1], through[1:])


def point(seg: Floats, t: ArrayLike) -> Floats:
    """The point `(..., 2)` at parameter `t`, 0 to 1, broadcast against the axes before the last two."""
    return blend(_controls(seg), np.asarray(t, dtype=float)[..., None])


def derivative(seg: Floats, t: ArrayLike) -> Floats:
    """The velocity `(..., 2)` at `t`, mm per unit of the parameter."""
    a, b, c, d = _controls(seg)
    u = np.asarray(t, dtype=float)[..., None]
    v = 1 - u
    velocity: Floats = 3 * (v * v * (b - a) + 2 * v * u * (c - b) + u * u * (d - c))
    return velocity


def second_derivative(seg: Floats, t: ArrayLike) -> Floats:
    """The acceleration `(..., 2)` at `t`, mm per unit of the parameter squared."""
    a, b, c, d = _controls(seg)
    u = np.asarray(t, dtype=float)[..., None]
    change: Floats = 6 * ((1 - u) * (c - 2 * b + a) + u * (d - 2 * c + b))
    return change


def split(seg: Floats, t: ArrayLike) -> tuple[Floats, Floats]:
    """The two parts of a segment before and after `t`, each `(..., 4, 2)` (de Casteljau)."""
    a, b, c, d = _controls(seg)
    u = np.asarray(t, dtype=float)[..., None]
    ab, bc, cd = a + u * (b - a), b + u * (c - b), c + u * (d - c)
    abc, bcd = ab + u * (bc - ab), bc + u * (cd - bc)
    middle = abc + u * (bcd - abc)
    return _segment(a, ab, abc, middle), _segment(middle, bcd, cd, d)


def reverse(path: Floats) -> Floats:
    """The same path `(..., S, 4, 2)` run from its last point to its first."""
    return np.ascontiguousarray(path[..., ::-1, ::-1, :])


def start_tangent(seg: Floats) -> Floats:
    """The unit direction `(..., 2)` in which a segment leaves its first point; zero if it has no length."""
    a, b, c, d = _controls(seg)
    return _first_direction(b - a, c - a, d - a)


def end_tangent(seg: Floats) -> Floats:
    """The unit direction `(..., 2)` in which a segment meets its last point; zero if it has no length."""
    a, b, c, d = _controls(seg)
    return _first_direction(d - c, d - b, d - a)


def unit(vector: Floats) -> Floats:
    """Vectors `(..., 2)` scaled to length 1; those shorter than `NO_LENGTH` become zero."""
    size = norm(vector)[..., None]
    long = size > NO_LENGTH
    if long.all():
        return np.asarray(vector / size)
    return np.where(long, vector / np.where(long, size, 1.0), 0.0)


def norm(vector: Floats) -> Floats:
    """The length `(...)` of vectors `(..., 2)`."""
    size: Floats = np.hypot(vector[..., 0], vector[..., 1])
    return size


def cross(a: Floats, b: Floats) -> Floats:
    """The signed area `(...)` spanned by vectors `(..., 2)`: positive where `b` lies to the left of `a`."""
    area: Floats = a[..., 0] * b[..., 1] - a[..., 1] * b[..., 0]
    return area


def dot(a: Floats, b: Floats) -> Floats:
    """The inner product `(...)` of vectors `(..., 2)`."""
    product: Floats = a[..., 0] * b[..., 0] + a[..., 1] * b[..., 1]
    return product


def turned(vector: Floats, angle: Floats) -> Floats:
    """Vectors `(..., 2)` turned to the left by angles `(...)` in radians."""
    c, s = np.cos(angle), np.sin(angle)
    return np.stack([c * vector[..., 0] - s * vector[..., 1], s * vector[..., 0] + c * vector[..., 1]], axis=-1)


def right_of(direction: Floats) -> Floats:
    """Vectors `(..., 2)` turned a quarter to the right: outwards on a counterclockwise outline."""
    found = np.empty(direction.shape)
    found[..., 0] = direction[..., 1]
    np.negative(direction[..., 0], out=found[..., 1])
    return found


def curvature(seg: Floats, t: ArrayLike) -> Floats:
    """The signed curvature `(...)` at `t` in 1/mm, positive turning left; 0 where the speed is 0."""
    first, second = derivative(seg, t), second_derivative(seg, t)
    speed = norm(first)
    moving = speed > NO_LENGTH
    return np.where(moving, cross(first, second) / np.where(moving, speed, 1.0) ** 3, 0.0)


def is_straight(seg: Floats, tolerance: float = 1e-6) -> Bools:
    """Whether segments `(..., 4, 2)` stay within `tolerance` mm of the line through their ends; true without length."""
    a, b, c, d = _controls(seg)
    chord, first, second = d - a, b - a, c - a
    size = norm(chord)
    aside = np.maximum(np.abs(cross(chord, first)), np.abs(cross(chord, second)))
    straight: Bools = aside <= tolerance * size
    short = size <= NO_LENGTH
    if short.any():
        straight = np.where(short, np.maximum(norm(first), norm(second)) <= tolerance, straight)
    return straight


def bounds(path: Floats) -> Floats:
    """The exact box of a path `(..., S, 4, 2)`: lowest and highest corner `(..., 2, 2)`."""
    turns = _turning_points(path)
    low = np.minimum(turns.min(axis=-2), np.minimum(path[..., 0, :], path[..., 3, :]))
    high = np.maximum(turns.max(axis=-2), np.maximum(path[..., 0, :], path[..., 3, :]))
    return np.stack([low.min(axis=-2), high.max(axis=-2)], axis=-2)


def blend(controls: Sequence[Floats], t: Floats) -> Floats:
    """Cubic polynomials with the four `controls`, each `(...)`, at parameters `t` `(...)`: `(...)`, all broadcast."""
    return weighed(controls, weights(t))


Weights: TypeAlias = tuple[Floats, Floats, Floats, Floats]
"""What each of the four controls counts for at some parameters."""


def weights(t: Floats) -> Weights:
    """What the controls count for at parameters `t` `(...)`, each `(...)`."""
    v = 1 - t
    return v * v * v, 3 * v * v * t, 3 * v * t * t, t * t * t


def weighed(controls: Sequence[Floats], by: Weights) -> Floats:
    """`blend` of four `controls`, each `(...)`, at parameters whose weights `(...)` are known: `(...)`, broadcast."""
    a, b, c, d = controls
    value: Floats = by[0] * a + by[1] * b + by[2] * c + by[3] * d
    return value


@lru_cache(maxsize=16)
def _even(parts: int) -> Weights:
    return weights(np.linspace(0.0, 1.0, parts + 1)[:-1])


def evenly(path: Floats, parts: int) -> Floats:
    """Points `(S, parts, 2)` on segments `(S, 4, 2)` at even parameters from 0 on, without the last points."""
    along = weighed(
        [path[:, k, :, None] for k in range(4)], _even(parts)
    )  # parameters last: numpy is quickest along them
    return np.ascontiguousarray(along.transpose(0, 2, 1))


def turning_places(values: Floats) -> Floats:
    """Where cubic polynomials, with control values `(..., 4)`, turn back between 0 and 1: `(..., 2)`.

    In rising order; a place outside 0 to 1, or none at all, is clipped to an end.
    """
    a, b, c, d = (values[..., k] for k in range(4))
    roots = _roots(d - 3 * c + 3 * b - a, 2 * (c - 2 * b + a), b - a)
    return np.sort(np.clip(np.where(np.isfinite(roots), roots, 0.0), 0.0, 1.0), axis=-1)


def ends(path: Floats) -> tuple[Floats, Floats]:
    """The first and the last point `(..., 2)` of a path `(..., S, 4, 2)`."""
    return path[..., 0, 0, :], path[..., -1, 3, :]


def _controls(seg: Floats) -> tuple[Floats, Floats, Floats, Floats]:
    return seg[..., 0, :], seg[..., 1, :], seg[..., 2, :], seg[..., 3, :]


def _segment(a: Floats, b: Floats, c: Floats, d: Floats) -> Floats:
    return np.stack(np.broadcast_arrays(a, b, c, d), axis=-2)


def _first_direction(*candidates: Floats) -> Floats:
    """The direction of the first of some vectors `(..., 2)` that has one; zero where none has."""
    if (norm(candidates[0]) > NO_LENGTH).all():
        return unit(candidates[0])
    found = np.zeros_like(candidates[0])
    for vector in reversed(candidates):
        found = np.where(norm(vector)[..., None] > NO_LENGTH, unit(vector), found)
    return found


def _turning_points(path: Floats) -> Floats:
    """Both coordinates at either place where they turn back within a segment `(..., S, 2, 2)`."""
    inside = turning_places(np.moveaxis(path, -2, -1))
    return np.stack([blend(_controls(path), inside[..., k]) for k in (0, 1)], axis=-2)


def _roots(a: Floats, b: Floats, c: Floats) -> Floats:
    """Both roots of a x^2 + b x + c on a new last axis, without cancellation; not finite where missing."""
    with np.errstate(divide="ignore", invalid="ignore", over="ignore"):
        q = -0.5 * (b + np.copysign(np.sqrt(b * b - 4 * a * c), b))
        return np.stack([q / a, c / q], axis=-1)
