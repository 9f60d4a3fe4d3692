"""Mirrored corners of hems, for many outlines at once: where the seam reaches the hem's line.

They are the corners of `draft.seams.hem_corner`, had in closed form; what is not as plain as that is left to it.
"""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from draft.base.arrays import Bools, Floats, Ints, repeated
from draft.base.record import dataclass
from draft.geometry.closed_outlines import ENTRY, EXIT, ClosedOutlines, Cubics, Joints
from draft.geometry.corner import SNUG, SPECK
from draft.geometry.cubic import blend, dot, line, norm, right_of, split
from draft.seams.hem_corner import NEAR

MOST = 8
"""A hem's width takes in no more than so many cubics of the seam beside it."""

STEPS = 10
"""Newton's steps to where the seam lies a hem's width from the hem."""

FOUND = 1e-9
"""mm: the place is found."""

BEFORE, BEHIND = ENTRY - 2 * MOST, EXIT + 1


@dataclass(frozen=True)
class HemCorners:
    """Corners where a seam runs `into` a hem, or out of one: the joint, its seam's and its hem's segment `(J,)`.

    `corner` is the seam's and `outwards` the unit vector square to the hem, `(J, 2)`.
    """

    joint: Ints
    into: Bools
    seam: Ints
    hem: Ints
    corner: Floats
    outwards: Floats
    width: Floats

    def depth(self, points: Floats) -> Floats:
        """How far points `(J, ..., 2)` lie inside the hem's line."""
        shape = (-1,) + (1,) * (points.ndim - 2) + (2,)
        return dot(self.outwards.reshape(shape), self.corner.reshape(shape) - points)

    def mirrored(self, points: Floats) -> Floats:
        """Points `(J, ..., 2)` folded over the hem's line."""
        shape = (-1,) + (1,) * (points.ndim - 2) + (2,)
        return np.asarray(points + 2 * self.depth(points)[..., None] * self.outwards.reshape(shape))


def hem_corners(outlines: ClosedOutlines, joint: Joints) -> HemCorners:
    """The corners of hems that are mirrored: those that are not hollow, of hems beside what is no hem and no fold."""
    following = joint.following
    one, other = outlines.mirrors, outlines.mirrors[following]
    at = np.nonzero((one != other) & ~(outlines.on_fold | outlines.on_fold[following]))[0]
    at = at[(joint.turn[at] * outlines.out[outlines.outline[at]] > 0) & ~outlines.asked[at]]
    into = other[at]
    seam, hem = np.where(into, at, following[at]), np.where(into, following[at], at)
    along = np.where(into[:, None], joint.leave[hem], joint.arrive[hem])
    outwards = np.sign(outlines.distance[hem])[:, None] * right_of(along)
    return HemCorners(at, into, seam, hem, outlines.segments[at, 3], outwards, np.abs(outlines.distance[hem]))


def carried_to_hems(outlines: ClosedOutlines, joint: Joints, found: HemCorners) -> tuple[Joints, Bools]:
    """The joints with each hem's seam carried on to the hem's line, or trimmed, and where `(J,)` that is plain."""
    into = found.into[:, None]
    at, out = found.joint, np.where(into, joint.arrive[found.seam], -joint.leave[found.seam])
    from_ = np.where(into, joint.end[at], joint.begin[at])
    slant = dot(found.outwards, out)
    on = found.depth(from_) / np.where(slant > 0, slant, 1.0)
    tip = from_ + on[:, None] * out
    widest = np.maximum(found.width, np.abs(outlines.distance[found.seam]))
    plain = (slant > 0) & (norm(tip - found.corner) <= NEAR * widest)
    seams = outlines.segments[found.seam]
    plain &= on >= np.where(joint.straight[found.seam], -norm(seams[:, 3] - seams[:, 0]), -SPECK)
    tips, ons, backs = joint.tip.copy(), joint.on.copy(), joint.back.copy()
    tips[at], ons[at], backs[at] = tip, np.where(found.into, on, 0.0), np.where(found.into, 0.0, on)
    smooth = joint.smooth.copy()
    smooth[at] = False
    return replace(joint, tip=tips, on=ons, back=backs, smooth=smooth), plain


def with_hems(outlines: ClosedOutlines, joint: Joints, cubics: Cubics, found: HemCorners) -> tuple[Cubics, Bools]:
    """Lines with what is folded over each hem's line, and where `(J,)` that is plain."""
    if not len(found.joint):
        return cubics, np.zeros(0, dtype=bool)
    first = np.searchsorted(cubics.owner, found.seam, "left")
    first = np.where(found.into, np.searchsorted(cubics.owner, found.seam, "right") - 1, first)
    step = np.where(found.into, -1, 1)
    last, plain = _as_deep(outlines, joint, cubics, found, first, step)
    beyond, ends, reached = _folded(cubics, found, first, last, step)
    cubics, trimmed = _ended(joint, cubics, found, ends)
    widest = np.maximum(found.width, np.abs(outlines.distance[found.seam]))
    near = norm(ends - found.corner) <= NEAR * widest
    return _all([cubics, beyond]).sorted(), plain & reached & near & ~trimmed


def _ended(joint: Joints, cubics: Cubics, found: HemCorners, ends: Floats) -> tuple[Cubics, Bools]:
    """Lines with the hems' own carried on or trimmed to their `ends` `(J, 2)`, and which curved ones were trimmed."""
    at, into, curved = found.joint, found.into, ~joint.straight[found.hem]
    its = np.where(into[:, None], joint.begin[at], joint.end[at])
    out = np.where(into[:, None], -joint.leave[found.hem], joint.arrive[found.hem])
    carried = dot(ends - its, out)
    longer = curved & (carried > SPECK)
    path = cubics.path.copy()
    starts = np.searchsorted(cubics.owner, found.hem, "left")
    stops = np.searchsorted(cubics.owner, found.hem, "right") - 1
    new = np.where(longer[:, None], its, ends)
    path[starts[into], 0], path[stops[~into], 3] = new[into], new[~into]
    straight = starts[~curved]
    path[straight] = line(path[straight, 0], path[straight, 3])
    trimmed = curved & (carried < -SPECK)
    if not longer.any():
        return replace(cubics, path=path), trimmed
    way = into[longer, None]
    more = line(np.where(way, ends[longer], its[longer]), np.where(way, its[longer], ends[longer]))
    added = Cubics(more, found.hem[longer], np.where(into[longer], ENTRY, EXIT))
    return _all([replace(cubics, path=path), added]), trimmed


def _all(cubics: list[Cubics]) -> Cubics:
    columns = zip(*((some.path, some.owner, some.rank) for some in cubics), strict=True)
    return Cubics(*(np.concatenate(column) for column in columns))


def _as_deep(
    outlines: ClosedOutlines, joint: Joints, cubics: Cubics, found: HemCorners, first: Ints, step: Ints
) -> tuple[Ints, Bools]:
    """The line of each seam that is a hem's width inside the hem, and whether the seam runs smoothly so far."""
    at, plain = first.copy(), np.ones(len(first), dtype=bool)
    for _ in range(MOST):
        inner = np.where(found.into[:, None], cubics.path[at, 0], cubics.path[at, 3])
        short = plain & (found.depth(inner) < found.width)
        if not short.any():
            return at, plain
        ahead = np.clip(at + step, 0, len(cubics.owner) - 1)
        here, there = cubics.owner[at], cubics.owner[ahead]
        between = np.where(found.into, there, here)
        runs_on = (here == there) | (
            joint.smooth[between] & (np.where(found.into, here, there) == joint.following[between])
        )
        runs_on &= outlines.edge[here] == outlines.edge[there]
        plain &= ~short | runs_on
        at = np.where(short & runs_on, ahead, at)
    return at, plain & ~short


def _folded(cubics: Cubics, found: HemCorners, first: Ints, last: Ints, step: Ints) -> tuple[Cubics, Floats, Bools]:
    """What is folded over each hem's line, where it ends `(J, 2)`, and whether it keeps on the hem's outside `(J,)`."""
    into = found.into[:, None, None]
    deepest = cubics.path[last]
    inwards = np.where(into, deepest[:, ::-1], deepest)
    t, reached = _reach(found.depth(inwards), found.width)
    part = found.mirrored(split(inwards, t)[0])
    ends = part[:, 3]
    count = np.abs(last - first) + 1
    which, order = repeated(count)
    at = first[which] + step[which] * order
    each = replace(found, corner=found.corner[which], outwards=found.outwards[which])
    path = each.mirrored(cubics.path[at][:, ::-1])
    outside = each.depth(cubics.path[at]).min(axis=1) >= -SNUG
    cut = order == count[which] - 1
    path[cut] = np.where(into, part, part[:, ::-1])
    outside[cut] = True
    rank = np.where(found.into[which], BEHIND + order, BEFORE - order)
    reached &= np.bincount(which[~outside], minlength=len(count)) == 0
    return Cubics(path, found.seam[which], rank), ends, reached


def _reach(depth: Floats, width: Floats) -> tuple[Floats, Bools]:
    """Where cubics with control values `(J, 4)` come to `width` `(J,)`: the parameter, and whether they do."""
    a, b, c, d = depth.T
    rise = d - a
    t = np.clip((width - a) / np.where(rise > 0, rise, 1.0), 0.0, 1.0)
    for _ in range(STEPS):
        miss = blend((a, b, c, d), t) - width
        if (np.abs(miss) <= FOUND).all():
            break
        v = 1 - t
        slope = 3 * (v * v * (b - a) + 2 * v * t * (c - b) + t * t * (d - c))
        t = np.where(np.abs(miss) <= FOUND, t, np.clip(t - miss / np.where(slope > 0, slope, 1.0), 0.0, 1.0))
    return t, np.abs(blend((a, b, c, d), t) - width) <= FOUND
