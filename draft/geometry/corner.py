"""Corners between parallels, as a cutter makes them: carried on straight until they meet, trimmed, or cut square."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from draft.geometry.crossing import lines_meet
from draft.geometry.cubic import Floats, cross, dot, is_straight, line, norm, right_of, unit
from draft.geometry.parallel import Parallel
from draft.geometry.tangle import close_up, crossings, cut, join_up, place_point

LIMIT = 3.0
"""A spike ends this many times the wider allowance from its corner. That of a square corner reaches 1.4, and the 2.6
of a half-square one, as at the end of a bias strip, is left whole; a corner below 39 degrees would only be trimmed
off after sewing. As a spike is cut where it grows too long, and no shorter, a corner that sharpens from size to size
changes without a jump."""

STEP = 1.5
"""Unequal parallels that nearly run on meet far from their corner, where one would have lost its width: past this
many times the wider allowance the cutting line steps from one to the other square to the seam."""

REACH = 8.0
"""Parallels are carried on by this many times the widest allowance: a V of 15 degrees on the fold meets it in 4."""

SNUG = 1e-3
"""Parallels whose ends are this near (mm) run on, and the corner is no corner."""

NOTHING = np.zeros((0, 4, 2))


@dataclass(frozen=True)
class Corner:
    """How one parallel gives way to the next: the places on both, as carried on, and what is drawn between."""

    leave: float
    enter: float
    between: Floats


def corner(a: Parallel, b: Parallel, side: int, reach: float, on_fold: bool = False) -> Corner:
    """The corner where `a` ends and `b` begins; `side` is 1 with the outside on the right of travel, -1 on its left.

    `on_fold` when either lies on the fold: then the other ends on the fold's line however slantwise they meet.
    """
    last, first = len(a.path) + 1.0, 1.0
    plain = Corner(last, first, NOTHING)
    if norm(a.path[-1, 3] - b.path[0, 0]) <= SNUG:
        return plain
    widest = max(abs(a.distance), abs(b.distance))
    before, after = a.carried(reach), b.carried(reach)
    places = [
        (apart, leave, enter)
        for leave, enter in crossings(before[1:], after[:-1]) + np.array([1.0, 0.0])
        if (apart := float(norm(place_point(before, leave) - a.end)))
        <= _allowed(leave > last, enter < first, widest, on_fold)
    ]
    if places:
        _, leave, enter = min(places)
        return Corner(leave, enter, NOTHING)
    spike = side * cross(a.arrive, b.leave) >= 0 and dot(a.arrive, b.leave) < 0
    return _cut_square(a, b, widest, reach) if spike else plain


def chain(parts: list[Parallel], corners: list[Corner], reach: float, closed: bool) -> Floats:
    """The parallels in order, each from the corner before it to the corner after it, as one path `(N, 4, 2)`.

    `corners[k]` lies between parts k and k + 1, and if `closed` the last between the last part and the first.
    A part whose corners have passed each other is run backwards: its loop is for `without_loops`.
    """
    pieces: list[Floats] = []
    for k, part in enumerate(parts):
        carried = part.carried(reach)
        start = corners[k - 1].enter if closed or k else 1.0
        end = corners[k].leave if closed or k < len(parts) - 1 else len(part.path) + 1.0
        pieces += [cut(carried, start, end), corners[k].between if k < len(corners) else NOTHING]
    return merge_straights(bridged(pieces, closed))


def bridged(pieces: list[Floats], closed: bool) -> Floats:
    """Paths end to end as one, with a straight segment wherever there is a gap between them."""
    pieces = [piece for piece in pieces if len(piece)]
    whole: list[Floats] = []
    for piece in pieces + pieces[:1] * closed:
        if whole and norm(piece[0, 0] - whole[-1][-1, 3]) > SNUG:
            whole.append(line(whole[-1][-1, 3], piece[0, 0])[None])
        whole.append(piece)
    path = join_up(whole[:-1] if closed else whole)
    path = join_up([path[norm(path - path[:, :1]).max(axis=-1) > SNUG]])
    return close_up(path) if closed else path


def merge_straights(path: Floats) -> Floats:
    """A path `(N, 4, 2)` with straight segments that run on straight drawn as one."""
    merged: list[Floats] = []
    straight = is_straight(path)
    for k, seg in enumerate(path):
        if merged and straight[k] and straight[k - 1] and _runs_on(merged[-1], seg):
            merged[-1] = line(merged[-1][0], seg[3])
        else:
            merged.append(seg)
    return np.stack(merged) if merged else path


def _runs_on(before: Floats, after: Floats) -> bool:
    first, second = before[3] - before[0], after[3] - after[0]
    return bool(dot(first, second) > 0 and abs(cross(unit(first + second), first)) <= 1e-7)


def _allowed(a_carried_on: bool, b_carried_on: bool, widest: float, on_fold: bool) -> float:
    """How far from its corner a meeting may lie, by which of the two had to be carried on to reach it."""
    if a_carried_on and b_carried_on:
        return LIMIT * widest
    if on_fold or not (a_carried_on or b_carried_on):
        return np.inf
    return STEP * widest


def _cut_square(a: Parallel, b: Parallel, widest: float, reach: float) -> Corner:
    """A spike cut across, square to its own direction, `LIMIT` allowances from the corner."""
    ends = np.stack([a.path[-1, 3], b.path[0, 0]])
    tips, met = lines_meet(ends[:1], a.arrive[None], ends[1:], b.leave[None])
    outwards = unit(tips[0] - a.end) if met[0] else unit(a.arrive - b.leave)
    across = np.stack([a.end + LIMIT * widest * outwards] * 2)
    found, _ = lines_meet(across, np.stack([right_of(outwards)] * 2), ends, np.stack([a.arrive, b.leave]))
    on = dot(found - ends, np.stack([a.arrive, -b.leave]))
    shares = np.clip(on / reach, 0.0, 1.0)
    return Corner(len(a.path) + 1 + float(shares[0]), 1 - float(shares[1]), NOTHING)
