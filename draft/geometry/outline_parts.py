"""Closed outlines of one body parted: what lies along a line and what does not, and from one corner to the next."""

from __future__ import annotations

from collections.abc import Sequence

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


def turns_of(outlines: Sequence[Floats]) -> list[Floats]:
    """By how much each closed outline `(S, 4, 2)` turns, in radians, where each of its segments begins `(S,)`."""
    every, ends = np.concatenate(outlines), np.cumsum([len(path) for path in outlines])
    before = np.arange(len(every)) - 1
    before[np.concatenate([[0], ends[:-1]])] = ends - 1
    arriving, leaving = end_tangent(every)[before], start_tangent(every)
    return np.split(np.abs(np.arctan2(cross(arriving, leaving), dot(arriving, leaving))), ends[:-1])


def parted_at_corners(
    outline: Floats, corners: Floats, reach: float, turn: Floats | None = None
) -> tuple[Floats, ...] | None:
    """A closed outline `(S, 4, 2)` as paths `(N, 4, 2)`, one from each corner `(K, 2)` of the outline within it on.

    The outline is parted where it turns most sharply within `reach` mm of a corner. None if that finds no path for some
    corner, or not in their order. `turn` `(S,)` is what `turns_of` says of it, where that is known.
    """
    first = _sharpest(outline, corners, reach, turns_of([outline])[0] if turn is None else turn)
    if first is None:
        return None
    steps = np.mod(np.diff(first, append=first[:1]), len(outline))
    if len(first) > 1 and (np.any(steps == 0) or steps.sum() != len(outline)):
        return None
    twice = np.concatenate([outline, outline])
    return tuple(twice[start : start + (step or len(outline))] for start, step in zip(first, steps, strict=True))


def _sharpest(outline: Floats, corners: Floats, reach: float, turn: Floats) -> Ints | None:
    """The segments `(K,)` that begin at the sharpest turn near each corner; the nearest where all are smooth."""
    distance = norm(outline[:, 0] - corners[:, None])
    near = distance <= reach
    if not near.any(axis=1).all():
        return None
    score = np.where(turn > _SMOOTH, turn, 0.0) - distance * 1e-6
    return np.asarray(np.argmax(np.where(near, score, -np.inf), axis=1))
