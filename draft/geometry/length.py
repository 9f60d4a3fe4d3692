"""Lengths along paths, and places at a given length: what seams are matched and notches are set by.

Gauss-Legendre quadrature of the speed on fixed splits of each segment: the same few thousand products whatever
the curve, so a body's length does not depend on its company. Ten nodes on four splits are within 1e-4 mm on the
edges of a garment, mostly far within; a cusp costs tenths of a millimetre, and more `splits` bring that down.
"""

from __future__ import annotations

from functools import cache

import numpy as np
from numpy.typing import ArrayLike

from draft.base.arrays import Bools, Floats, Ints
from draft.geometry.cubic import NO_LENGTH, derivative, norm, point, unit
from draft.geometry.known_again import known_again

SPLITS = 4
NODES, WEIGHTS = np.polynomial.legendre.leggauss(10)

CLOSE = 1e-9
"""A place is found once its distance along is right to this many mm."""

STEPS = 60
"""Halving an interval this often leaves nothing of it; Newton's steps mostly need four."""


AT_ONCE = 1 << 15
"""Places looked at together: what is known of more does not stay near the processor, and takes twice as long."""


@known_again
def segment_lengths(path: Floats, splits: int = SPLITS) -> Floats:
    """The length in mm of each segment `(B, S)` of a path `(B, S, 4, 2)`."""
    places, weights = _rule(splits)
    seg = path.reshape(-1, 4, 2)
    some = max(AT_ONCE // len(places), 1)
    found = np.empty(len(seg))
    for first in range(0, len(seg), some):
        found[first : first + some] = _weigh(_speed(seg[first : first + some], places), weights)
    return found.reshape(path.shape[:-2])


def length(path: Floats, splits: int = SPLITS) -> Floats:
    """The length in mm of a path `(B, S, 4, 2)`, for each body: `(B,)`."""
    total: Floats = segment_lengths(path, splits).sum(axis=-1)
    return total


def length_to(seg: Floats, t: Floats, splits: int = SPLITS) -> Floats:
    """The length in mm from the start of segments `(..., 4, 2)` to their parameters `t` `(...)`."""
    places, weights = _rule(splits)
    return t * _weigh(_speed(seg, t[..., None] * places), weights)


def locate(path: Floats, distance: ArrayLike, splits: int = SPLITS) -> tuple[Ints, Floats]:
    """Where a path `(B, S, 4, 2)` has come `distance` mm `(B,)`: the segment `(B,)` and its parameter `(B,)`.

    A distance before the start or past the end is taken for that end.
    """
    lengths = segment_lengths(path, splits)
    ends = np.cumsum(lengths, axis=-1)
    wanted = np.clip(np.broadcast_to(np.asarray(distance, dtype=float), ends.shape[:1]), 0, ends[:, -1])
    index = np.minimum((ends < wanted[:, None]).sum(axis=-1), path.shape[1] - 1)
    body = np.arange(len(path))
    rest = wanted - (ends[body, index] - lengths[body, index])
    return index, _parameter(path[body, index], rest, lengths[body, index], splits)


def point_at(path: Floats, distance: ArrayLike, splits: int = SPLITS) -> Floats:
    """The point `(B, 2)` at `distance` mm `(B,)` along a path `(B, S, 4, 2)`, clamped to its ends."""
    index, t = locate(path, distance, splits)
    return point(path[np.arange(len(path)), index], t)


def tangent_at(path: Floats, distance: ArrayLike, splits: int = SPLITS) -> Floats:
    """The unit direction `(B, 2)` at `distance` mm `(B,)` along a path `(B, S, 4, 2)`, clamped to its ends.

    Where the curve stands still (a handle on its point, a cusp) it is the direction a hair further inside.
    """
    index, t = locate(path, distance, splits)
    seg = path[np.arange(len(path)), index]
    here = derivative(seg, t)
    moving = norm(here) > NO_LENGTH * 1e3
    inside = derivative(seg, np.where(t < 0.5, t + 1e-4, t - 1e-4))
    return unit(np.where(moving[:, None], here, inside))


@cache
def _rule(splits: int) -> tuple[Floats, Floats]:
    """Places on 0 to 1 and their weights, which add to 1."""
    starts = np.arange(splits)[:, None] / splits
    places = (starts + (NODES + 1) / (2 * splits)).ravel()
    return places, np.tile(WEIGHTS / (2 * splits), splits)


def _speed(seg: Floats, t: Floats) -> Floats:
    """How far segments `(..., 4, 2)` get for each step of their parameters `(..., N)` there: `(..., N)`, mm."""
    x, y = (_speed_along(seg[..., axis], t) for axis in (0, 1))
    x *= x
    y *= y
    x += y
    return np.sqrt(x, out=x)


def _speed_along(values: Floats, t: Floats) -> Floats:
    """The derivative of one coordinate with control values `(..., 4)` at parameters `(..., N)`."""
    first, second, third = (3 * (values[..., k + 1] - values[..., k])[..., None] for k in range(3))
    found: Floats = t * (first - 2 * second + third)
    found += 2 * (second - first)
    found *= t
    found += first
    return found


def _weigh(values: Floats, weights: Floats) -> Floats:
    """The sums `(...)` of values `(..., N)` by their weights `(N,)`; the values are used up."""
    values *= weights
    total: Floats = values.sum(axis=-1)
    return total


def _parameter(seg: Floats, distance: Floats, whole: Floats, splits: int) -> Floats:
    """The parameter `(B,)` at which segments `(B, 4, 2)` have come `distance`: Newton's steps inside a bracket."""
    low, high = np.zeros_like(distance), np.ones_like(distance)
    t = np.clip(distance / np.where(whole > CLOSE, whole, 1.0), 0.0, 1.0)
    for _ in range(STEPS):
        miss = length_to(seg, t, splits) - distance
        done = np.abs(miss) <= CLOSE
        if done.all():
            break
        low, high = np.where(miss < 0, t, low), np.where(miss > 0, t, high)
        t = np.where(done, t, _step(t, miss, norm(derivative(seg, t)), low, high))
    return t


def _step(t: Floats, miss: Floats, speed: Floats, low: Floats, high: Floats) -> Floats:
    steady: Bools = speed > NO_LENGTH
    newton = t - miss / np.where(steady, speed, 1.0)
    inside = steady & (newton > low) & (newton < high)
    return np.where(inside, newton, (low + high) / 2)
