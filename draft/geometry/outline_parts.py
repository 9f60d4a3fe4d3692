"""Closed outlines of one body parted: what lies along a line and what does not, and from one corner to the next."""

from __future__ import annotations

import numpy as np

from draft.base.arrays import Bools, Floats, Ints
from draft.geometry.cubic import cross, dot, end_tangent, norm, start_tangent, unit

ON_LINE = 0.01
"""A segment within this many mm of a line lies on it."""

_SMOOTH = np.radians(3)
"""A turn of less is a joint of a smooth line, not a corner."""


def on_line(path: Floats, start: Floats, end: Floats) -> Bools:
    """Which segments of a path `(S, 4, 2)` lie along the straight line through two points `(2,)`, past its ends too.

    The mask is `(S,)`.
    """
    across = cross(unit(end - start), path - start)
    return np.asarray(np.max(np.abs(across), axis=-1) < ON_LINE)


def kept_runs(outline: Floats, keep: Bools) -> tuple[Floats, ...]:
    """The segments of a closed outline `(S, 4, 2)` that are kept `(S,)`, as unbroken paths `(N, 4, 2)`.

    All of it when everything is kept.
    """
    if keep.all() or not keep.any():
        return (outline,) if keep.all() else ()
    first = int(np.flatnonzero(keep & ~np.roll(keep, 1))[0])
    turned, kept = np.roll(outline, -first, axis=0), np.roll(keep, -first)
    starts = np.flatnonzero(kept & ~np.concatenate([[False], kept[:-1]]))
    ends = np.flatnonzero(kept & ~np.concatenate([kept[1:], [False]]))
    return tuple(turned[a : b + 1] for a, b in zip(starts, ends, strict=True))


def parted_at_corners(outline: Floats, corners: Floats, reach: float) -> tuple[Floats, ...] | None:
    """A closed outline `(S, 4, 2)` as paths `(N, 4, 2)`, one from each corner `(K, 2)` of the outline within it on.

    The outline is parted where it turns most sharply within `reach` mm of a corner. None if that finds no path for some
    corner, or not in their order.
    """
    first = _sharpest(outline, corners, reach)
    if first is None:
        return None
    steps = np.mod(np.diff(first, append=first[:1]), len(outline))
    if len(first) > 1 and (np.any(steps == 0) or steps.sum() != len(outline)):
        return None
    twice = np.concatenate([outline, outline])
    return tuple(twice[start : start + (step or len(outline))] for start, step in zip(first, steps, strict=True))


def _sharpest(outline: Floats, corners: Floats, reach: float) -> Ints | None:
    """The segments `(K,)` that begin at the sharpest turn near each corner; the nearest where all are smooth."""
    distance = norm(outline[:, 0] - corners[:, None])
    arriving, leaving = np.roll(end_tangent(outline), 1, axis=0), start_tangent(outline)
    turn = np.abs(np.arctan2(cross(arriving, leaving), dot(arriving, leaving)))
    near = distance <= reach
    if not near.any(axis=1).all():
        return None
    score = np.where(turn > _SMOOTH, turn, 0.0) - distance * 1e-6
    return np.asarray(np.argmax(np.where(near, score, -np.inf), axis=1))
