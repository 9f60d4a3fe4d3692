"""Where curves cross each other or themselves, and curves without their loops: one body at a time.

A place on a path of one body `(N, 4, 2)` is one number: 3.25 is a quarter of the way, in the parameter, along the
fourth segment.
"""

from __future__ import annotations

import numpy as np

from draft.base.arrays import Bools, Floats, Ints, repeated
from draft.geometry.cubic import NO_LENGTH, cross, derivative, norm, point, split
from draft.geometry.cubic import reverse as reversed_path
from draft.geometry.length import length_to, segment_lengths

HALVINGS = 10
"""Segments are searched for crossings in parts halved at most this often; a thousandth of a cusp is straight."""

FLAT = 1e-3
"""Parts that stray from their chords by less than this (mm) are halved no further. Between two crossings of two such
parts lies less than a cut shows."""

SLACK = 0.02
"""Chords count as crossing this share beyond their ends: the curves may cross where two of their chords join."""

REFINEMENTS = 8
"""Newton's method doubles the places right in each step; chords give two or three to start with."""

_FEW_PAIRS = 40_000
"""Up to so many pairs of segments a table of all boxes is quicker than a tree of them."""

_ALIKE = 0.01
"""Places on both paths this near to one another, in parameters, may be one place found twice."""

MEETING = 1e-6
"""Two curves cross where their points are within this many mm of each other."""

JOINT = 1e-3
"""Neighbours meet at their joint; nearer to it than this (mm) it is no crossing."""


def crossings(a: Floats, b: Floats) -> Floats:
    """The places `(K, 2)` on paths `a` `(N, 4, 2)` and `b` `(M, 4, 2)` where they cross, in order along `a`."""
    return _search(a, b, *_near(a, b))


def self_crossings(path: Floats, closed: bool = False) -> Floats:
    """The places `(K, 2)`, the earlier first, where a path `(N, 4, 2)` crosses itself, in order of the earlier."""
    i, j = _near(path, path)
    found = _search(path, path, i[i < j], j[i < j])
    return found[~_at_joint(path, found, closed)]


def part_from(path: Floats, start: float, end: float) -> Floats:
    """The part `(K, 4, 2)` of a path `(N, 4, 2)` from one place to another; run backwards if the end comes first."""
    if start >= end:
        return reversed_path(part_from(path, end, start)) if start > end else path[:0]
    first, last = (min(max(int(np.floor(place)), 0), len(path) - 1) for place in (start, np.nextafter(end, 0)))
    part = path[first : last + 1].copy()
    part[-1] = split(part[-1], end - last)[0]
    share = (start - first) / (end - last) if first == last else start - first
    part[0] = split(part[0], share)[1]
    return part


def place_point(path: Floats, place: float) -> Floats:
    """The point `(2,)` at a place of a path `(N, 4, 2)`."""
    index = min(max(int(np.floor(place)), 0), len(path) - 1)
    return point(path[index], place - index)


def without_loops(path: Floats, longest: float) -> Floats:
    """A path `(N, 4, 2)` without the loops between the places where it crosses itself, walked from its start.

    Loops of more than `longest` mm stay.
    """
    places = self_crossings(path)
    loops = _distance_along(path, places) @ np.array([-1.0, 1.0])
    kept, place = [], 0.0
    for start, end in places[loops <= longest]:
        if start >= place:
            kept.append(part_from(path, place, start))
            place = float(end)
    kept.append(part_from(path, place, float(len(path))))
    return join_up(kept)


def close_up(path: Floats) -> Floats:
    """A closed path `(N, 4, 2)` moved by its rounding to end exactly where it begins."""
    closed = path.copy()
    closed[-1:, 3] = path[:1, 0]
    return closed


def join_up(paths: list[Floats]) -> Floats:
    """Paths end to end as one path `(N, 4, 2)`, each segment moved to begin exactly where the one before it ends."""
    path = np.concatenate([np.zeros((0, 4, 2)), *paths])
    path[1:, 0] = path[:-1, 3]
    return path


def _near(a: Floats, b: Floats) -> tuple[Ints, Ints]:
    """The pairs of segments of two paths whose boxes overlap, in order. Of many segments no table of all is made."""
    if len(a) * len(b) <= _FEW_PAIRS:
        i, j = np.nonzero(_overlap(a[:, None], b[None]))
        return i, j
    import shapely

    mine, other = (np.concatenate([path.min(axis=1), path.max(axis=1)], axis=1) for path in (a, b))
    tree = shapely.STRtree(shapely.box(*(other + MEETING * np.array([-2, -2, 2, 2])).T))
    i, j = tree.query(shapely.box(*mine.T))
    order = np.lexsort((j, i))
    i, j = i[order], j[order]
    sure = _overlap(a[i], b[j])
    return i[sure], j[sure]


def _search(a: Floats, b: Floats, i: Ints, j: Ints) -> Floats:
    """Crossings `(K, 2)` among the segment pairs `a[i]`, `b[j]`: chords first, then Newton's method on both."""
    pair, s, t = _chords_cross(a[i], b[j])
    i, j = i[pair], j[pair]
    s, t, met = _refine(a[i], b[j], s, t)
    places = np.stack([i + s, j + t], axis=-1)[met]
    return _distinct(a, b, places[np.lexsort((places[:, 1], places[:, 0]))])


def _chords_cross(a: Floats, b: Floats) -> tuple[Ints, Floats, Floats]:
    """Which pairs of segments `(P, 4, 2)` have chords that cross, and about where on each.

    Both of a pair are halved together, and only halves whose boxes overlap are kept, until both are all but straight.
    """
    pair, s, t = np.arange(len(a)), np.zeros(len(a)), np.zeros(len(a))
    found: list[tuple[Ints, Floats, Floats]] = []
    for level in range(HALVINGS + 1):
        share = 0.5**level
        flat = np.maximum(_bend(a), _bend(b)) <= FLAT if level < HALVINGS else np.ones(len(a), dtype=bool)
        u, v, met = _lines_cross(a[:, 0], a[:, 3] - a[:, 0], b[:, 0], b[:, 3] - b[:, 0])
        met &= flat
        found.append((pair[met], (s + share * u)[met], (t + share * v)[met]))
        if flat.all():
            break
        pair, a, b, s, t = _halved(pair[~flat], a[~flat], b[~flat], s[~flat], t[~flat], share / 2)
    pairs, ss, ts = (np.concatenate(column) for column in zip(*found, strict=True))
    return pairs, ss, ts


def _bend(seg: Floats) -> Floats:
    """A bound on how far segments `(P, 4, 2)` stray from even speed along their chords, in mm."""
    bend: Floats = norm(seg[:, 2:] - 2 * seg[:, 1:-1] + seg[:, :-2]).max(axis=-1)
    return bend


def _halved(
    pair: Ints, a: Floats, b: Floats, s: Floats, t: Floats, step: float
) -> tuple[Ints, Floats, Floats, Floats, Floats]:
    """The four pairs of halves of each pair, with the parameters where they start, as far as their boxes overlap."""
    halves_a, halves_b = split(a, 0.5), split(b, 0.5)
    a = np.concatenate([halves_a[0], halves_a[0], halves_a[1], halves_a[1]])
    b = np.concatenate([halves_b[0], halves_b[1], halves_b[0], halves_b[1]])
    s, t = np.concatenate([s, s, s + step, s + step]), np.concatenate([t, t + step, t, t + step])
    keep = _overlap(a, b)
    return np.tile(pair, 4)[keep], a[keep], b[keep], s[keep], t[keep]


def _overlap(a: Floats, b: Floats) -> Bools:
    gap = np.maximum(a.min(axis=-2) - b.max(axis=-2), b.min(axis=-2) - a.max(axis=-2))
    overlap: Bools = gap.max(axis=-1) <= MEETING
    return overlap


def _lines_cross(p: Floats, d: Floats, q: Floats, e: Floats) -> tuple[Floats, Floats, Bools]:
    """Where chords `p` to `p + d` and `q` to `q + e` cross, as shares of each, and whether they do."""
    turn = cross(d, e)
    ok = np.abs(turn) > 1e-12 * norm(d) * norm(e)
    turn = np.where(ok, turn, 1.0)
    u, v = cross(q - p, e) / turn, cross(q - p, d) / turn
    met = ok & (np.abs(u - 0.5) <= 0.5 + SLACK) & (np.abs(v - 0.5) <= 0.5 + SLACK)
    return u, v, met


def _refine(a: Floats, b: Floats, s: Floats, t: Floats) -> tuple[Floats, Floats, Bools]:
    for _ in range(REFINEMENTS):
        gap, d, e = point(b, t) - point(a, s), derivative(a, s), derivative(b, t)
        turn = cross(d, e)
        ok = np.abs(turn) > NO_LENGTH
        turn = np.where(ok, turn, 1.0)
        s = np.clip(s + np.where(ok, cross(gap, e) / turn, 0.0), 0, 1)
        t = np.clip(t + np.where(ok, cross(gap, d) / turn, 0.0), 0, 1)
    return s, t, norm(point(b, t) - point(a, s)) <= MEETING


def _distinct(a: Floats, b: Floats, places: Floats) -> Floats:
    """Places without those that repeat one before: a crossing at a joint is found on both of its sides."""
    if len(places) < 2:
        return places
    index = np.minimum(places[:, 0].astype(int), len(a) - 1)
    here = point(a[index], places[:, 0] - index)
    later, earlier = _close_by(places)
    alike = (earlier < later) & (norm(here[later] - here[earlier]) <= 1e3 * MEETING)
    alike &= np.abs(places[later] - places[earlier]).max(axis=-1) < _ALIKE
    repeated = np.zeros(len(places), dtype=bool)
    repeated[later[alike]] = True
    return np.asarray(places[~repeated])


def _close_by(places: Floats) -> tuple[Ints, Ints]:
    """Pairs of places, sorted by the first path, that may be alike: each with those up to where that path is past."""
    end = np.searchsorted(places[:, 0], places[:, 0] + _ALIKE)
    begin = np.searchsorted(places[:, 0], places[:, 0] - _ALIKE)
    one, further = repeated(end - begin)
    return one, begin[one] + further


def _at_joint(path: Floats, places: Floats, closed: bool) -> Bools:
    """Which places on a path and itself are no more than the joint between two neighbours."""
    run = _distance_along(path, places)
    apart = run[:, 1] - run[:, 0]
    if closed:
        apart = np.minimum(apart, segment_lengths(path[None]).sum() - apart)
    joint: Bools = apart <= JOINT
    return joint


def _distance_along(path: Floats, places: Floats) -> Floats:
    """How far along a path `(N, 4, 2)` its places lie, in mm."""
    ends = np.concatenate([[0.0], np.cumsum(segment_lengths(path[None])[0])])
    index = np.minimum(places.astype(int), len(path) - 1)
    along: Floats = ends[index] + length_to(path[index], places - index)
    return along
