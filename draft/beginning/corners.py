"""Where an outline turns a corner, and where it only bends: it is parted there into runs, each the line of one edge.

A drawing may have its curves as curves, or as the points that a program set on them. Of points it has to be told which
are corners: a point is one where the line turns further than the points of a curve do that lie so far apart.
"""

from __future__ import annotations

from itertools import pairwise

import numpy as np

from draft.base.arrays import Bools, Floats
from draft.base.record import dataclass
from draft.geometry.cubic import cross, dot, end_tangent, is_straight, lines_through, norm, start_tangent
from draft.geometry.spline import hobby

SMOOTH = np.radians(4.0)
"""A curve and what lies beside it meet smoothly where they turn by less: so far a hand is off (common practice)."""
SAGITTA = 0.3
"""mm: points that a program sets on a curve leave less between curve and chord (common practice)."""
SHARP = np.radians(30.0)
WINDOW = 2.0  # mm
FEWEST = 0.01
"""mm: points that lie nearer to the line through their neighbours say nothing."""
WORN = 0.03
_MOST_POINTS = 5_000
_LEG = 15.0
"""mm: a shorter straight part of a smooth edge is drawn along with its curve."""
_MOST_KNOTS = 300
_ALIKE = 2.5


@dataclass(frozen=True)
class Run:
    """The line of an edge `(S, 4, 2)`, from corner to corner; `name` is what it says to be, `straight` if it is."""

    path: Floats
    name: str = ""

    @property
    def straight(self) -> bool:
        """Whether it is straight, as far as scissors go."""
        points = self.path.reshape(-1, 2)
        chord = points[-1] - points[0]
        long = float(norm(chord))
        return bool(long > 0 and np.abs(cross(chord, points - points[0])).max() <= STRAIGHT * long)


STRAIGHT = 0.04
"""mm from its chord."""


def runs_of(path: Floats, edges: tuple[str, ...]) -> list[Run]:
    """The runs of a closed outline `(S, 4, 2)`, whose segments say to be of `edges`; two of them at least."""
    path, edges = _fewer(path, edges)
    lines = is_straight(path)
    named = np.array([edges[k - 1] != edges[k] for k in range(len(edges))])
    corners = _corners(path, lines) | named
    starts = np.flatnonzero(corners).tolist() or _extremes(path)
    if len(starts) == 1:
        ends = path[:, 0] - path[starts[0], 0]
        starts = sorted({*starts, int(np.argmax(norm(ends)))})
    found = []
    for k, start in enumerate(starts):
        end = starts[(k + 1) % len(starts)]
        which = np.arange(start, end if end > start else end + len(path)) % len(path)
        found.append(Run(path[which], edges[start]))
    return found


def _fewer(path: Floats, edges: tuple[str, ...]) -> tuple[Floats, tuple[str, ...]]:
    """An outline of nothing but points without those that say nothing."""
    if len(set(edges)) > 1 or not is_straight(path).all():
        return path, edges
    import shapely

    ring, tolerance = shapely.LineString(np.concatenate([path[:, 0], path[:1, 0]])), FEWEST
    points = shapely.get_coordinates(shapely.simplify(ring, tolerance))[:-1]
    while len(points) > _MOST_POINTS and tolerance < WORN:
        tolerance *= 2
        points = shapely.get_coordinates(shapely.simplify(ring, tolerance))[:-1]
    if len(points) > 3 and _turns(lines_through(points, closed=True))[0] < np.radians(0.2):
        points = points[1:]  # where the ring begins in the middle of a straight line
    made = lines_through(points, closed=True)
    return made, edges[:1] * len(made)


def _turns(path: Floats) -> Floats:
    """How far a closed path turns where each segment begins `(S,)`, rad."""
    arriving, leaving = np.roll(end_tangent(path), 1, axis=0), start_tangent(path)
    return np.asarray(np.abs(np.arctan2(cross(arriving, leaving), dot(arriving, leaving))))


def _signed(path: Floats) -> Floats:
    arriving, leaving = np.roll(end_tangent(path), 1, axis=0), start_tangent(path)
    return np.asarray(np.arctan2(cross(arriving, leaving), dot(arriving, leaving)))


def _corners(path: Floats, lines: Bools) -> Bools:
    """Which segments of a closed path begin at a corner."""
    signed = _signed(path)
    turn, long = np.abs(signed), norm(path[:, 3] - path[:, 0])
    before = np.roll(long, 1)
    both = lines & np.roll(lines, 1)
    far = np.minimum(long, before) * turn / 8 > SAGITTA
    clear = far & (turn > np.radians(1.0)) & ~_in_a_row(signed, long)
    of_points = clear | ((turn > SHARP / 2) & (_windowed(signed, long) > SHARP) & _is_peak(turn))
    return np.asarray(np.where(both, of_points, turn > SMOOTH))


def _in_a_row(signed: Floats, long: Floats) -> Bools:
    """Which points turn as a neighbour does, at about its distance: those of a coarse curve."""
    found = np.zeros(len(signed), dtype=bool)
    for step in (1, -1):
        other, chords = np.roll(signed, step), np.roll(long, step)
        ratio = np.divide(other, signed, out=np.zeros_like(signed), where=np.abs(signed) > 1e-9)
        near = np.divide(chords, long, out=np.zeros_like(long), where=long > 0)
        found |= (ratio > 1 / _ALIKE) & (ratio < _ALIKE) & (near > 1 / _ALIKE) & (near < _ALIKE)
    return np.asarray(found & (np.abs(signed) < SHARP))


def _windowed(signed: Floats, long: Floats) -> Floats:
    """How far the line turns within `WINDOW` mm to both sides of each point, rad."""
    count = len(signed)
    at = np.concatenate([[0.0], np.cumsum(np.tile(long, 3))])[: 3 * count]
    total = np.concatenate([[0.0], np.cumsum(np.tile(signed, 3))])
    here = np.arange(count, 2 * count)
    first = np.searchsorted(at, at[here] - WINDOW, side="left")
    last = np.searchsorted(at, at[here] + WINDOW, side="right")
    return np.asarray(np.abs(total[last] - total[first]))


def _is_peak(turn: Floats) -> Bools:
    return np.asarray((turn >= np.roll(turn, 1)) & (turn > np.roll(turn, -1)))


def _extremes(path: Floats) -> list[int]:
    """Where a round outline is parted: at its lowest, rightmost, highest and leftmost places."""
    points = path[:, 0]
    rounded = np.round(points, 6)
    found = [np.lexsort((rounded[:, 1 - axis], sign * rounded[:, axis]))[0] for axis, sign in _WAYS]
    return sorted({int(k) for k in found})


_WAYS = ((1, 1.0), (0, -1.0), (1, -1.0), (0, 1.0))


@dataclass(frozen=True)
class Part:
    """A part of a run `(S, 4, 2)`, straight or bent."""

    path: Floats
    straight: bool


def parts_of(run: Run) -> list[Part]:
    """The straight and the bent parts of a run, in order."""
    if run.straight:
        return [Part(run.path, True)]
    lines, long = is_straight(run.path), norm(run.path[:, 3] - run.path[:, 0])
    beside = np.maximum(np.concatenate([[0.0], long[:-1]]), np.concatenate([long[1:], [0.0]]))
    of_points = bool(lines.all())
    legs = lines & (long >= _LEG) & ((long > 3 * beside) if of_points else True)
    for k in np.flatnonzero(legs[1:] & legs[:-1]) + 1:  # two that do not lie in one line are a part of a curve
        if not Run(run.path[k - 1 : k + 1]).straight:
            legs[k if long[k] < long[k - 1] else k - 1] = False
    starts = [0, *(np.flatnonzero(legs[1:] != legs[:-1]) + 1).tolist(), len(legs)]
    found = []
    for start, end in pairwise(starts):
        path = run.path[start:end]
        found.append(Part(path if legs[start] else _bent(path), bool(legs[start])))
    return found


def _bent(path: Floats) -> Floats:
    """A curve; of points it is the even one through them."""
    if len(path) < 2 or not is_straight(path).all():
        return path
    points = np.concatenate([path[:, 0], path[-1:, 3]])
    return np.concatenate([hobby(some[None], [None] * len(some))[0] for some in _some(_thinned(points))])


def _thinned(points: Floats) -> Floats:
    """Points `(N, 2)` of a curve, so few that it can be drawn through them."""
    import shapely

    tolerance = FEWEST
    while len(points) > 10 * _MOST_KNOTS and tolerance < SAGITTA:
        tolerance *= 2
        points = shapely.get_coordinates(shapely.simplify(shapely.LineString(points), tolerance))
    return points


def _some(points: Floats) -> list[Floats]:
    return [points[k : k + _MOST_KNOTS + 1] for k in range(0, len(points) - 1, _MOST_KNOTS)]
