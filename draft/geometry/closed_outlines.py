"""Cutting lines of many outlines at once, wherever their corners are plain.

Most corners are: parallels carried on straight, or straight ones trimmed, until they meet; the end of a fold; a hem's
corner mirrored. All of these are had in closed form for all outlines together. What is not plain is said so, and left
to `draft.geometry.corner`, which looks at one outline at a time.
"""

from __future__ import annotations

import numpy as np

from draft.base.arrays import Bools, Floats, Ints
from draft.base.record import dataclass
from draft.geometry.corner import LIMIT, REACH, SNUG, SPECK, STEP
from draft.geometry.cubic import (
    NO_LENGTH,
    cross,
    dot,
    end_tangent,
    is_straight,
    line,
    norm,
    right_of,
    start_tangent,
    unit,
)
from draft.geometry.fitted import fitted
from draft.geometry.parallel import between_cusps

PARALLEL = 1e-9
"""Directions that differ by less than this (rad) meet nowhere near."""

COLLINEAR = 1e-7
"""Straight lines that run on within this many mm are drawn as one."""

ENTRY, ALONG, EXIT = 0, 1, 2
"""In what order the lines lie that stand for one segment: carried on before it, beside it, carried on after it."""


@dataclass(frozen=True)
class ClosedOutlines:
    """Closed outlines, their segments `(N, 4, 2)` end to end, none without length.

    For each segment `(N,)`: how far to the right its cutting line lies, the number of its outline, in rising order, and
    of its edge; whether it lies on the fold, whether its corners are mirrored, and whether the file asks for the corner
    behind it. `out` is for each outline: 1 where it runs counterclockwise and -1 where it runs clockwise.
    """

    segments: Floats
    distance: Floats
    outline: Ints
    edge: Ints
    on_fold: Bools
    mirrors: Bools
    asked: Bools
    out: Floats

    @property
    def following(self) -> Ints:
        """The number of the segment behind each: `(N,)`."""
        found = np.arange(1, len(self.outline) + 1)
        last = np.append(self.outline[1:] != self.outline[:-1], True)
        found[last] = np.concatenate([[0], found[last][:-1]])
        return found


@dataclass(frozen=True)
class Joints:
    """What there is between each segment and the next, all `(N,)` or `(N, 2)`.

    `tip` is where their parallels meet; `on` and `back` are how far the one is carried on and the other back to it,
    less than nothing where they are trimmed. `leave` and `arrive` are the directions of the segments themselves.
    """

    following: Ints
    straight: Bools
    leave: Floats
    arrive: Floats
    end: Floats
    begin: Floats
    smooth: Bools
    turn: Floats
    tip: Floats
    on: Floats
    back: Floats


@dataclass(frozen=True)
class Cubics:
    """Cubics `(M, 4, 2)` in order, each with the segment that it stands for and its rank among those of the segment."""

    path: Floats
    owner: Ints
    rank: Ints

    def sorted(self) -> Cubics:
        """The same in the order in which they follow each other."""
        order = np.lexsort((self.rank, self.owner))
        return Cubics(self.path[order], self.owner[order], self.rank[order])


def joints(outlines: ClosedOutlines) -> Joints:
    """What there is between the segments of outlines."""
    seg, following = outlines.segments, outlines.following
    straight = is_straight(seg)
    leave, arrive = _directions(seg, straight)
    end = seg[:, 3] + outlines.distance[:, None] * right_of(arrive)
    begin = (seg[:, 0] + outlines.distance[:, None] * right_of(leave))[following]
    gap, ahead = begin - end, leave[following]
    turn = cross(arrive, ahead)
    meeting = np.abs(turn) > PARALLEL
    divisor = np.where(meeting, turn, 1.0)
    smooth = norm(gap) <= SNUG
    on, back = (np.where(smooth, 0.0, cross(*pair) / divisor) for pair in ((gap, ahead), (arrive, gap)))
    tip = end + on[:, None] * arrive
    return Joints(following, straight, leave, arrive, end, begin, smooth, np.where(meeting, turn, 0.0), tip, on, back)


def _directions(seg: Floats, straight: Bools) -> tuple[Floats, Floats]:
    """The unit directions at both ends of segments, those of straight ones along their chords."""
    chord = seg[:, 3] - seg[:, 0]
    leave, arrive = (np.where(straight[:, None], chord, v) for v in (seg[:, 1] - seg[:, 0], seg[:, 3] - seg[:, 2]))
    sizes = norm(leave), norm(arrive)
    if min(size.min() for size in sizes) > NO_LENGTH:
        return leave / sizes[0][:, None], arrive / sizes[1][:, None]
    along = unit(chord)
    leave, arrive = (np.where(straight[:, None], along, v) for v in (start_tangent(seg), end_tangent(seg)))
    return leave, arrive


def is_plain(outlines: ClosedOutlines, joint: Joints) -> Bools:
    """Which corners `(N,)` the tips of the joints are right for, as `draft.geometry.corner` would have them."""
    following = joint.following
    widest = np.maximum(np.abs(outlines.distance), np.abs(outlines.distance[following]))
    far = norm(joint.tip - outlines.segments[:, 3])
    carried, carried_back = joint.on >= -SPECK, joint.back >= -SPECK
    on_fold = outlines.on_fold | outlines.on_fold[following]
    hollow = (outlines.out[outlines.outline] * joint.turn < 0) & ~on_fold
    one = np.where(on_fold, REACH, STEP)
    allowed = np.where(carried & carried_back, LIMIT, np.where(carried | carried_back, one, 0.0))
    outside = ~hollow & (far <= allowed * widest)
    lengths = norm(outlines.segments[:, 3] - outlines.segments[:, 0])
    # Beside a hollow an edge of another width, or one shorter than that, may leave part of its neighbour's uncovered.
    like = (outlines.distance == outlines.distance[following]) & (np.minimum(lengths, lengths[following]) >= widest)
    inside = hollow & like & (joint.on <= SPECK) & (joint.back <= SPECK)
    least = np.where(joint.straight, -lengths, -SPECK)
    there = (joint.on >= least) & (joint.back >= least[following])
    plain: Bools = joint.smooth | ((joint.turn != 0) & there & (outside | inside))
    return plain & ~outlines.asked


def parallels(outlines: ClosedOutlines, joint: Joints, tolerance: float) -> Cubics:
    """The parallels of all segments from tip to tip, in order: curved ones fitted, straight ones drawn straight."""
    curved = np.nonzero(~joint.straight)[0]
    fits = _fits(outlines, curved, tolerance)
    ends = np.append(fits.owner[1:] != fits.owner[:-1], True)[: len(fits.owner)]
    snug = joint.on[fits.owner] <= SPECK
    fits.path[:, 3] = np.where((ends & snug)[:, None], joint.tip[fits.owner], fits.path[:, 3])
    entry, begin, back = (_behind(values, joint.following) for values in (joint.tip, joint.begin, joint.back))
    straight = np.nonzero(joint.straight)[0]
    before, after = curved[back[curved] > SPECK], curved[joint.on[curved] > SPECK]
    starts = np.concatenate([entry[straight], entry[before], joint.end[after]])
    stops = np.concatenate([joint.tip[straight], begin[before], joint.tip[after]])
    ranks = np.repeat([ALONG, ENTRY, EXIT], [len(straight), len(before), len(after)])
    return Cubics(
        np.concatenate([fits.path, line(starts, stops)]),
        np.concatenate([fits.owner, straight, before, after]),
        np.concatenate([fits.rank, ranks]),
    ).sorted()


def _behind(values: Floats, following: Ints) -> Floats:
    """What belongs to joints, for the segment behind each."""
    found = np.empty_like(values)
    found[following] = values
    return found


def _fits(outlines: ClosedOutlines, curved: Ints, tolerance: float) -> Cubics:
    """The parallels of curved segments; those at no distance are their own."""
    there = outlines.distance[curved] != 0
    away, still = curved[there], curved[~there]
    distance = outlines.distance[away]
    index, path, _ = fitted(
        outlines.segments[away], *between_cusps(outlines.segments[away], distance), distance, tolerance
    )
    owner = np.concatenate([away[index], still])
    path = np.concatenate([path, outlines.segments[still]])
    order = np.argsort(owner, kind="stable")
    return Cubics(path[order], owner[order], np.full(len(owner), ALONG))


def as_closed_paths(cubics: Cubics, outline: Ints) -> tuple[Floats, Ints]:
    """Lines as closed paths, one for each outline: their segments, and the outline `(M,)` of each.

    Straight lines that run on are one; every segment begins exactly where the one before it ends.
    """
    path, of = cubics.path, outline[cubics.owner]
    there = norm(path - path[:, :1]).max(axis=1) > SPECK
    path, of = path[there], of[there]
    path, of = _merged(path, of)
    first = np.append(True, of[1:] != of[:-1])
    before = np.arange(-1, len(of) - 1)
    before[first] = np.append(np.nonzero(first)[0][1:], len(of)) - 1
    path[:, 0] = path[before, 3]
    return path, of


def _merged(path: Floats, of: Ints) -> tuple[Floats, Ints]:
    """Paths with straight segments that run on straight drawn as one, within each outline `of` `(M,)`."""
    straight = is_straight(path)
    on = straight[1:] & straight[:-1] & (of[1:] == of[:-1])
    pairs = np.nonzero(on)[0]
    first, second = (path[at, 3] - path[at, 0] for at in (pairs, pairs + 1))
    along = dot(first, second) > 0
    on[pairs] = along & (np.abs(cross(unit(first + second), first)) <= COLLINEAR)
    if not on.any():
        return path, of
    begins = np.nonzero(np.append(True, ~on))[0]
    stops = np.append(begins[1:], len(path)) - 1
    found = path[begins]
    longer = stops > begins
    found[longer] = line(path[begins[longer], 0], path[stops[longer], 3])
    return found, of[begins]


def outlines_with(outline: Ints, wrong: Bools, count: int) -> Bools:
    """Which of `count` outlines have a segment that is `wrong` `(N,)`, each of the outline `outline` `(N,)`."""
    wrong_outlines: Bools = np.bincount(outline[wrong], minlength=count) > 0
    return wrong_outlines
