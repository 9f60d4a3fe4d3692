"""A part of a path, between two distances along it."""

from __future__ import annotations

import numpy as np

from draft.geometry.cubic import Floats, reverse, split
from draft.geometry.length import locate


def part(path: Floats, first: Floats, last: Floats) -> Floats:
    """The stretch of paths `(B, S, 4, 2)` from `first` to `last` mm `(B,)` along them, run backwards where they fall.

    It has as many segments as the path; those outside the stretch have no length.
    """
    low, high = np.minimum(first, last), np.maximum(first, last)
    begins, ends = _within(path, low), _within(path, high)
    kept = _between(path, begins, ends)
    backwards = (first > last)[:, None, None, None]
    return np.where(backwards, reverse(kept), kept)


def _within(path: Floats, distance: Floats) -> Floats:
    """The parameter on each segment `(B, S)` up to which `distance` has come: 1 before its place, 0 behind it."""
    index, t = locate(path, distance)
    order = np.arange(path.shape[1])[None, :]
    return np.where(order < index[:, None], 1.0, np.where(order == index[:, None], t[:, None], 0.0))


def _between(path: Floats, begins: Floats, ends: Floats) -> Floats:
    _, tail = split(path, begins)
    rest = 1.0 - begins
    share = np.where(rest > 1e-12, (ends - begins) / np.where(rest > 1e-12, rest, 1.0), 0.0)
    head, _ = split(tail, np.clip(share, 0.0, 1.0))
    return head
