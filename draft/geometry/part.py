"""A part of a path, between two distances along it or two points on it."""

from __future__ import annotations

import numpy as np

from draft.base.arrays import Bools, Floats, Ints
from draft.geometry.cubic import point, reverse, split
from draft.geometry.known_again import known_again
from draft.geometry.length import locate
from draft.geometry.nearest import ON_EDGE, nearest_spot


@known_again
def part_along(path: Floats, first: Floats, last: Floats) -> Floats:
    """The part of paths `(B, S, 4, 2)` from `first` to `last` mm `(B,)` along them, run backwards where they fall.

    It has as many segments as the path; those outside the part have no length, and lie at its nearer end.
    """
    low, high = np.minimum(first, last), np.maximum(first, last)
    return _run(_between(path, locate(path, low), locate(path, high)), first > last)


def part_between(path: Floats, first: Floats, last: Floats) -> tuple[Floats, Bools]:
    """The part of paths `(B, S, 4, 2)` between two points `(B, 2)`, and whether both lie on the path `(B,)`."""
    (segment, t, miss), (other, u, far) = nearest_spot(path, first), nearest_spot(path, last)
    backwards = segment + t > other + u
    low = np.where(backwards, other, segment), np.where(backwards, u, t)
    high = np.where(backwards, segment, other), np.where(backwards, t, u)
    return _run(_between(path, low, high), backwards), (miss <= ON_EDGE) & (far <= ON_EDGE)


def _run(path: Floats, backwards: Bools) -> Floats:
    return np.where(backwards[:, None, None, None], reverse(path), path)


def _between(path: Floats, low: tuple[Ints, Floats], high: tuple[Ints, Floats]) -> Floats:
    """The part between two places, each a segment and a parameter on it `(B,)`."""
    body, order = np.arange(len(path)), np.arange(path.shape[1])
    (first, begin), (last, end) = low, high
    begins = np.where(order == first[:, None], begin[:, None], 0.0)
    ends = np.where(order == last[:, None], end[:, None], 1.0)
    _, tail = split(path, begins)
    rest = 1.0 - begins
    share = np.where(rest > 1e-12, (ends - begins) / np.where(rest > 1e-12, rest, 1.0), 0.0)
    kept, _ = split(tail, np.clip(share, 0.0, 1.0))
    start, finish = point(path[body, first], begin), point(path[body, last], end)
    kept = np.where((order < first[:, None])[..., None, None], start[:, None, None], kept)
    return np.where((order > last[:, None])[..., None, None], finish[:, None, None], kept)
