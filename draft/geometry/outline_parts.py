"""Closed outlines of one body parted: what lies along a line and what does not, and from one corner to the next."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from draft.base.arrays import Bools, Floats, Ints
from draft.base.record import dataclass
from draft.geometry.cubic import cross, dot, end_tangent, norm, point, split, start_tangent, unit
from draft.geometry.nearest import nearest_spot

ON_LINE = 0.01
"""A segment within this many mm of a line lies on it."""

SMOOTH = np.radians(3)
"""A turn of less is a joint of a smooth line, not a corner."""

_NONE = -1
_NEARER = 2.0
"""A turn as far off as may be is worth so many radians less than one at the corner itself."""

_BESIDE, _FAR = -0.5, 4.0
"""And so much the nearest place is worth where the outline does not turn; so many times as far away, at most."""


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
    outline: Floats, corners: Floats, reach: float, turn: Floats | None = None, smooth: Bools | None = None
) -> tuple[Floats, ...] | None:
    """A closed outline `(S, 4, 2)` as paths `(N, 4, 2)`, one from each corner `(K, 2)` of the outline within it on.

    The outline is parted where it turns most sharply within `reach` mm of a corner; where two corners would have one
    turn, or turns out of order, at those that are sharp and near and in order. At one that is `smooth` `(K,)`, or has
    no turn left then, it is parted at the nearest place: a slit that its allowance closes over may be far away. None if
    they are not in order, or farther. `turn` `(S,)` is what `turns_of` says of it, where that is known.
    """
    turn = turns_of([outline])[0] if turn is None else turn
    smooth = np.zeros(len(corners), dtype=bool) if smooth is None else smooth
    jointed = _jointed(outline, turn, corners, smooth)
    first = _together(smooth, _sharpest(jointed, corners[~smooth], reach), jointed.joints)
    steps = _steps(first, len(jointed.outline))
    if steps is None:
        jointed = _jointed(outline, turn, corners, np.ones(len(corners), dtype=bool))
        found = _in_order(jointed, corners, smooth, reach)
        steps = None if found is None else _steps(found, len(jointed.outline))
        if found is None or steps is None:
            return None
        first = found
    twice = np.concatenate([jointed.outline, jointed.outline])
    count = len(jointed.outline)
    return tuple(twice[start : start + (step or count)] for start, step in zip(first, steps, strict=True))


@dataclass(frozen=True)
class _Jointed:
    """An outline `(S, 4, 2)` with joints where it is to be parted though it runs on, its turns, and which these are."""

    outline: Floats
    turn: Floats
    joints: Ints


def _steps(first: Ints, count: int) -> Ints | None:
    """How many of so many segments lie from each of these to the next `(K,)`, round once; None if not in order."""
    steps = np.mod(np.diff(first, append=first[:1]), count)
    lost = (first == _NONE).any() or (len(first) > 1 and (np.any(steps == 0) or steps.sum() != count))
    return None if lost else steps


def _jointed(outline: Floats, turn: Floats, corners: Floats, smooth: Bools) -> _Jointed:
    """The outline with a joint at the place nearest to each corner that is smooth."""
    places = []
    for corner in corners[smooth]:
        (index,), (t,), _ = nearest_spot(outline[None], corner[None])
        place = point(outline[index], t)
        if min(norm(outline[index, [0, 3]] - place)) >= ON_LINE:
            parts = np.stack(split(outline[index], t))
            outline = np.concatenate([outline[:index], parts, outline[index + 1 :]])
            turn, place = np.insert(turn, index + 1, 0.0), parts[1, 0]
        places.append(place)
    joints = [int(np.argmin(norm(outline[:, 0] - place))) for place in places]
    return _Jointed(outline, turn, np.array(joints, dtype=int))


def _together(smooth: Bools, corners: Ints, joints: Ints) -> Ints:
    """The segments that begin at each corner, the smooth ones among the others again, `(K,)`."""
    found = np.zeros(len(smooth), dtype=int)
    found[~smooth], found[smooth] = corners, joints
    return found


def _sharpest(jointed: _Jointed, corners: Floats, reach: float) -> Ints:
    """The segments `(K,)` that begin at the sharpest turn near each corner; the nearest where all are smooth."""
    distance = norm(jointed.outline[:, 0] - corners[:, None])
    score = np.where(jointed.turn > SMOOTH, jointed.turn, 0.0) - distance * 1e-6
    found = np.argmax(np.where(distance <= reach, score, -np.inf), axis=1)
    return np.where((distance <= reach).any(axis=1), found, _NONE)


def _in_order(jointed: _Jointed, corners: Floats, smooth: Bools, reach: float) -> Ints | None:
    """The segments `(K,)` that begin at turns near the corners, one after another round the outline, best in all."""
    turn, distance = jointed.turn, norm(jointed.outline[:, 0] - corners[:, None])
    near = (distance <= reach) & (turn > SMOOTH) & ~smooth[:, None]
    worth = np.where(near, turn - _NEARER * distance / reach, -np.inf)
    rows, off = np.arange(len(corners)), norm(jointed.outline[jointed.joints, 0] - corners)
    beside = np.where(smooth, 0.0, np.where(off <= _FAR * reach, _BESIDE, -np.inf))
    worth[rows, jointed.joints] = np.maximum(worth[rows, jointed.joints], beside)
    best, found = -np.inf, None
    for start in np.flatnonzero(worth[0] > -np.inf):
        total, chosen = _rising(np.roll(worth, -start, axis=1))
        if total > best:
            best, found = total, np.mod(chosen + start, len(turn))
    return found


def _rising(worth: Floats) -> tuple[float, Ints]:
    """What the best columns are worth `(K, S)`, the first of which is 0, and each of them further on: these `(K,)`."""
    so_far = np.where(np.arange(worth.shape[1]) == 0, worth[0], -np.inf)
    came = []
    for row in worth[1:]:
        before = np.concatenate([[-np.inf], np.maximum.accumulate(so_far)[:-1]])
        came.append(so_far)
        so_far = row + before
    column = int(np.argmax(so_far))
    total, chosen = float(so_far[column]), [column]
    for earlier in reversed(came):
        column = int(np.argmax(earlier[:column])) if column else 0
        chosen.append(column)
    return total, np.array(chosen[::-1])
