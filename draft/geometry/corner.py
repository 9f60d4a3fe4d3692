"""Corners between parallels, as a cutter makes them: carried on straight until they meet, trimmed, or cut square."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from draft.base.arrays import Floats
from draft.base.record import dataclass
from draft.geometry.crossing import lines_meet
from draft.geometry.cubic import cross, dot, is_straight, line, norm, reverse, right_of, unit
from draft.geometry.length import length, locate
from draft.geometry.parallel import Parallel
from draft.geometry.tangle import close_up, crossings, join_up, part_from, place_point

LIMIT = 3.0
"""A spike ends this many times the wider allowance from its corner. That of a square corner reaches 1.4, and the 2.6
of a half-square one, as at the end of a bias strip, is left whole; a corner below 39 degrees would only be trimmed
off after sewing. As a spike is cut where it grows too long, and no shorter, a corner that sharpens from size to size
changes without a jump."""

STEP = 1.5
"""Unequal parallels that nearly run on meet far from their corner, where one would have lost its width: past this
many times the wider allowance the cutting line steps from one to the other, square to the wider one's edge."""

WINDING = 1.1
"""A meeting trims off a part at most this many times as long as its chord: the arc of a quarter turn is."""

REACH = 8.0
"""Parallels are carried on by this many times the widest allowance: a V of 15 degrees on the fold meets it in 4."""

SNUG = 0.02
"""Parallels whose ends are this near (mm), twice their tolerance, run on, and the corner is no corner."""

SHALLOW = 0.05
"""Hollow corners that turn by less than this (rad) are trimmed back along their tangents: by a third of a millimetre
at most, where a bend as tight as the allowance itself strays by 4 micrometres."""

DOUBLED_BACK = 0.995
"""An outline that turns by more than what has this (negative) cosine, 174 degrees, all but doubles back."""

SPECK = 1e-3
"""A segment no longer than this (mm) is left out."""

NOTHING = np.zeros((0, 4, 2))


@dataclass(frozen=True)
class ParallelCorner:
    """How one parallel gives way to the next: the places on both, as carried on, and what is drawn between."""

    leave: float
    enter: float
    between: Floats


def corner(a: Parallel, b: Parallel, side: int, reach: float, on_fold: bool = False) -> ParallelCorner:
    """The corner where `a` ends and `b` begins; `side` is 1 with the outside on the right of travel, -1 on its left.

    `on_fold` when either lies on the fold: then the other ends on the fold's line however slantwise they meet.
    In a hollow corner both run on through the corner itself: what they cover twice is cut out later.
    """
    natural = ParallelCorner(len(a.path) + 1.0, 1.0, NOTHING)
    if norm(a.path[-1, 3] - b.path[0, 0]) <= SNUG:
        return natural
    if side * _turn(a, b) < 0 and not on_fold:
        through = np.stack([a.path[-1, 3], a.end, b.path[0, 0]])
        return _trimmed_back(a, b) or replace(natural, between=line(through[:-1], through[1:]))
    met = _meeting(a, b, reach, on_fold)
    if met is None and dot(a.arrive, b.leave) < 0:
        met = _cut_square(a, b, reach)
    met = met or _step(a, b, reach) or natural
    ends = [place_point(a.carried(reach), met.leave), place_point(b.carried(reach), met.enter)]
    return _without_tails(met, a, b, reach, ends) if a.trail or b.lead else met


def _turn(a: Parallel, b: Parallel) -> float:
    """Positive where the outline turns left at the corner, negative where it turns right.

    Where it all but doubles back, as at the tip of a leaf, a hair in the directions there would decide: the chords of
    the last and the next few millimetres know better.
    """
    if dot(a.arrive, b.leave) > -DOUBLED_BACK:
        return float(cross(a.arrive, b.leave))
    widest = max(abs(a.distance), abs(b.distance))
    back = a.source_at(length(a.path[None])[0] - widest)
    return float(cross(a.end - back, b.source_at(widest) - b.start))


def with_corners(parallels: list[Parallel], corners: list[ParallelCorner], reach: float) -> Floats:
    """The parallels in order, each from the corner before it to the corner after it, as one closed path `(N, 4, 2)`.

    `corners[k]` lies between parallels k and k + 1, and the last between the last and the first. One whose corners
    have passed each other is run backwards: its loop is to be cut out.
    """
    paths: list[Floats] = []
    for k, one in enumerate(parallels):
        paths += [part_from(one.carried(reach), corners[k - 1].enter, corners[k].leave), corners[k].between]
    return merge_straights(bridged(paths))


def bridged(paths: list[Floats]) -> Floats:
    """Paths `(n, 4, 2)` end to end as one closed path, with a straight segment wherever there is a gap between them."""
    paths = [path for path in paths if len(path)]
    whole: list[Floats] = []
    for path in paths + paths[:1]:
        if whole and norm(path[0, 0] - whole[-1][-1, 3]) > SNUG:
            whole.append(line(whole[-1][-1, 3], path[0, 0])[None])
        whole.append(path)
    path = join_up(whole[:-1])
    return close_up(join_up([path[norm(path - path[:, :1]).max(axis=-1) > SPECK]]))


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


def _trimmed_back(a: Parallel, b: Parallel) -> ParallelCorner | None:
    """A hollow so shallow that the crossing of two like parallels lies where that of their tangents does."""
    turn = abs(float(cross(a.arrive, b.leave)))
    back = abs(a.distance) * turn / 2
    lengths = length(a.path[None])[0], length(b.path[None])[0]
    if turn > SHALLOW or dot(a.arrive, b.leave) < 0 or abs(a.distance) != abs(b.distance) or back > min(lengths) / 2:
        return None
    (i, s), (j, t) = locate(a.path[None], lengths[0] - back), locate(b.path[None], back)
    return ParallelCorner(1.0 + float(i[0] + s[0]), 1.0 + float(j[0] + t[0]), NOTHING)


def _without_tails(met: ParallelCorner, a: Parallel, b: Parallel, reach: float, via: list[Floats]) -> ParallelCorner:
    """A corner that leaves out where the parallels run backwards beside it, and is drawn straight `via` some points.

    There the bend is tighter than its allowance, and what the parallel winds about is off the cloth.
    """
    leave, enter = min(met.leave, len(a.path) + 1.0 - a.trail), max(met.enter, 1.0 + b.lead)
    points = np.stack([place_point(a.carried(reach), leave), *via, place_point(b.carried(reach), enter)])
    return ParallelCorner(leave, enter, line(points[:-1], points[1:]))


def _meeting(a: Parallel, b: Parallel, reach: float, on_fold: bool) -> ParallelCorner | None:
    """Where the two, carried on, meet nearest to their corner, if they do near enough."""
    last, first = len(a.path) + 1.0, 1.0
    before, after = a.carried(reach)[1:], b.carried(reach)[:-1]
    found = []
    for leave, enter in crossings(before, after) + np.array([1.0, 0.0]):
        apart = float(norm(place_point(before, leave - 1.0) - a.end))
        near = apart <= _allowed(leave > last, enter < first, on_fold) * max(abs(a.distance), abs(b.distance))
        trimmed = part_from(before, leave - 1.0, max(leave, last) - 1.0), part_from(after, first, max(first, enter))
        if near and is_forward(trimmed[0], a.arrive) and is_forward(trimmed[1], b.leave):
            found.append((apart, leave, enter))
    return ParallelCorner(float(min(found)[1]), float(min(found)[2]), NOTHING) if found else None


def is_forward(trimmed: Floats, direction: Floats) -> bool:
    """Whether what a meeting would trim off, a path `(N, 4, 2)`, runs on in a direction `(2,)`.

    No parallel does so in a bend that is too tight for it.
    """
    if not len(trimmed):
        return True
    chord = trimmed[-1, 3] - trimmed[0, 0]
    return bool(dot(chord, direction) >= 0 and length(trimmed[None])[0] <= WINDING * norm(chord) + SNUG)


def _allowed(a_carried_on: bool, b_carried_on: bool, on_fold: bool) -> float:
    """How many allowances from its corner a meeting may lie, by which of the two had to be carried on to reach it."""
    if a_carried_on and b_carried_on:
        return LIMIT
    if a_carried_on or b_carried_on:
        return REACH if on_fold else STEP
    return 0.0


def _step(a: Parallel, b: Parallel, reach: float) -> ParallelCorner | None:
    """The wider parallel ended square at its corner, the narrower one carried on to that end or trimmed by it."""
    b_wider = abs(b.distance) > abs(a.distance)
    end = line(a.end, b.path[0, 0] if b_wider else a.path[-1, 3])[None]
    places = crossings(a.carried(reach)[1:] if b_wider else b.carried(reach)[:-1], end)[:, 0]
    if not len(places):
        return None
    leave, enter = (1.0 + float(places[-1]), 1.0) if b_wider else (len(a.path) + 1.0, float(places[0]))
    return ParallelCorner(leave, enter, NOTHING)


def blunted(a: Parallel, b: Parallel, reach: float) -> ParallelCorner:
    """A corner cut across square to its own direction, no further out than the wider allowance."""
    return _cut_square(a, b, reach, 1.0)


def stepped(a: Parallel, b: Parallel, reach: float) -> ParallelCorner | None:
    """The wider allowance ended square at its corner, the narrower one taken round the corner to where that ends.

    None where both are of one width, which leaves no step.
    """
    if abs(a.distance) == abs(b.distance):
        return None
    if abs(b.distance) < abs(a.distance):
        other = stepped(b.backwards(), a.backwards(), reach)
        if other is None:
            return None
        return ParallelCorner(len(a.path) + 2 - other.enter, len(b.path) + 2 - other.leave, reverse(other.between))
    turn = a.end + (b.path[0, 0] - a.end) * abs(a.distance / b.distance)
    met, ok = lines_meet(a.path[-1:, 3], a.arrive[None], turn[None], b.leave[None])
    on = float(dot(met[0] - a.path[-1, 3], a.arrive))
    if not ok[0] or not 0 <= on <= reach:
        return _step(a, b, reach)
    between = np.stack([line(met[0], turn), line(turn, b.path[0, 0])])
    return ParallelCorner(len(a.path) + 1.0 + on / reach, 1.0, between)


def is_hollow(a: Parallel, b: Parallel, side: int) -> bool:
    """Whether the outline turns inwards where `a` gives way to `b`."""
    return bool(side * cross(a.arrive, b.leave) < 0)


def _cut_square(a: Parallel, b: Parallel, reach: float, limit: float = LIMIT) -> ParallelCorner:
    """A spike cut across, square to its own direction, `limit` allowances from the corner."""
    widest = max(abs(a.distance), abs(b.distance))
    ends = np.stack([a.path[-1, 3], b.path[0, 0]])
    tips, met = lines_meet(ends[:1], a.arrive[None], ends[1:], b.leave[None])
    outwards = unit(a.arrive - b.leave)
    if met[0] and dot(outwards, tips[0] - a.end) > 0:
        outwards = unit(tips[0] - a.end)
    across = np.stack([a.end + limit * widest * outwards] * 2)
    found, _ = lines_meet(across, np.stack([right_of(outwards)] * 2), ends, np.stack([a.arrive, b.leave]))
    on = dot(found - ends, np.stack([a.arrive, -b.leave]))
    shares = np.clip(on / reach, 0.0, 1.0)
    return ParallelCorner(len(a.path) + 1 + float(shares[0]), 1 - float(shares[1]), NOTHING)
