"""As few named points as an even curve of the language needs to keep by a line that was drawn.

The curve is the engine's own (`geometry/spline.py`): it runs through points, with a direction at its ends and, where
that saves points, at those between. Points are tried on the line itself, rounded as they will be written, and moved
along it by small steps of chance, always the same, as long as that helps.
"""

from __future__ import annotations

import numpy as np

from draft.base.arrays import Floats
from draft.base.record import dataclass
from draft.geometry.cubic import norm
from draft.geometry.even_curve import evenly_bent
from draft.geometry.flatten import flatten
from draft.geometry.spline import hobby

MOST_POINTS = 14
"""Between the ends of one curve; a longer line is parted."""
_TRIES, _ROUNDS = 80, 12
_FEWEST_SEEN, _MOST_SEEN = 60, 160
_EVERY = 2.0  # mm between places where the curve is held to the line
_NEWTON = 3


@dataclass(frozen=True)
class Line:
    """A line as places on it: points `(M, 2)`, unit directions `(M, 2)`, and how far along each lies, 0 to 1 `(M,)`."""

    points: Floats
    along: Floats
    share: Floats


@dataclass(frozen=True)
class Fit:
    """Points `(n, 2)` between the ends, the angles (rad) at both ends and perhaps at them, and how far off, mm."""

    points: Floats
    ends: tuple[float, float]
    headings: Floats | None
    off: float
    evenly: bool = False
    """Whether it is drawn with a curvature that has no steps."""


def line_of(path: Floats) -> Line:
    """A path `(S, 4, 2)` as places on it, even along it."""
    fine = flatten(path, 0.002)
    at = np.concatenate([[0.0], np.cumsum(norm(np.diff(fine, axis=0)))])
    count = int(np.clip(at[-1] / _EVERY, _FEWEST_SEEN, _MOST_SEEN))
    want = np.linspace(0.0, at[-1], count)
    reach = min(0.5, at[-1] / count / 2)
    points = _at(want, at, fine)
    ahead = _at(np.minimum(want + reach, at[-1]), at, fine) - _at(np.maximum(want - reach, 0.0), at, fine)
    return Line(points, ahead / np.maximum(norm(ahead), 1e-12)[:, None], want / at[-1])


def _at(want: Floats, at: Floats, points: Floats) -> Floats:
    return np.stack([np.interp(want, at, points[:, axis]) for axis in (0, 1)], axis=-1)


@dataclass(frozen=True)
class Asked:
    """What a curve is fitted to: the line, the ends as they are written `(2, 2)`, and the angles there (rad).

    `free` are the ends whose angles are written, and may be turned; points and angles are written in steps (mm, rad).
    """

    line: Line
    ends: Floats
    angles: tuple[float, float]
    free: tuple[bool, bool]
    step: float
    turn: float
    beside: tuple[bool, bool] = (False, False)
    """Whether a straight leg lies beside the end."""


def fitted_curve(asked: Asked, limit: float) -> Fit:
    """The fit with the fewest points that keeps within `limit` mm; else the nearest that there is.

    A plain curve is tried before one with headings, and that before an even one.
    """
    best, count = _with(asked, 0, _WAYS[0], limit), 0
    while best.off > limit and count < MOST_POINTS:
        near = np.inf
        for way in _WAYS if count else _WAYS[2:3]:
            if way[1] and count > _MOST_EVEN:
                continue
            found = _with(asked, count, way, limit)
            best = min(best, found, key=lambda fit: fit.off)
            near = min(near, found.off)
            if best.off <= limit:
                return best
        count = max(count + 1, int((count + 1) * (near / limit) ** _FALLS - 1))
    return best


_FALLS = 0.2
"""What is off falls with the fourth power of the count of points, or slower: what cannot suffice is left out."""


_WAYS = ((False, False), (True, False), (False, True), (True, True))
_MOST_EVEN = 6


def _with(asked: Asked, count: int, how: tuple[bool, bool], limit: float) -> Fit:
    """The best fit with so many points between the ends."""
    headed, evenly = how
    chance = np.random.default_rng(count)
    shares, turns = _evenly(asked.line, count)[None], np.zeros((1, 2 + count))
    best, reach, lean = np.inf, 0.5 / (count + 1), np.radians(3.0)
    free = np.array([*asked.free, *[headed] * count], dtype=float)
    for number in range(_ROUNDS):
        wide = chance.uniform(0, 1, (_TRIES, count)) if not number else shares
        near = shares + reach * chance.uniform(-1, 1, (_TRIES, count))
        tried = np.sort(np.clip(np.where(chance.uniform(size=(_TRIES, 1)) < 0.5, wide, near), 0.01, 0.99), axis=1)
        leant = turns + lean * chance.uniform(-1, 1, (_TRIES, 2 + count)) * free
        tried, leant = np.concatenate([shares, tried]), np.concatenate([turns, leant])
        off = _off(asked, tried, leant, how)
        first = int(np.argmin(off))
        if off[first] < best:
            best, shares, turns = float(off[first]), tried[first : first + 1], leant[first : first + 1]
        if best <= limit:
            break
        reach, lean = reach * 0.65, lean * 0.7
    knots, angles = _drawn(asked, shares, turns)
    return Fit(knots[0, 1:-1], (angles[0, 0], angles[0, 1]), angles[0, 2:] if headed else None, best, evenly)


def _evenly(line: Line, count: int) -> Floats:
    """Shares of a line `(count,)` between which it bends and runs about as far."""
    turned = np.arctan2(*reversed([line.along[1:] @ np.eye(2)[k] for k in (0, 1)]))
    bend = np.abs(np.diff(np.unwrap(np.concatenate([[np.arctan2(line.along[0, 1], line.along[0, 0])], turned]))))
    weight = np.diff(line.share) + bend / max(float(bend.sum()), 0.2)
    at = np.concatenate([[0.0], np.cumsum(weight)]) / weight.sum()
    return np.interp(np.arange(1, count + 1) / (count + 1), at, line.share)


def _drawn(asked: Asked, shares: Floats, turns: Floats) -> tuple[Floats, Floats]:
    """The knots `(B, K, 2)` and the angles `(B, 2 + n)` at the ends and between, as they will be written."""
    line = asked.line
    between = np.stack([np.interp(shares, line.share, line.points[:, axis]) for axis in (0, 1)], axis=-1)
    between = np.round(between / asked.step) * asked.step
    ends = np.broadcast_to(asked.ends[:, None, None], (2, len(shares), 1, 2))
    way = [np.interp(shares, line.share, np.unwrap(np.arctan2(line.along[:, 1], line.along[:, 0])))]
    angles = np.concatenate([np.broadcast_to(np.array(asked.angles), (len(shares), 2)), *way], axis=1) + turns
    loose = np.array([*asked.free, *[True] * shares.shape[1]])
    angles = np.where(loose, np.round(angles / asked.turn) * asked.turn, angles)
    return np.concatenate([ends[0], between, ends[1]], axis=1), angles


def _off(asked: Asked, shares: Floats, turns: Floats, how: tuple[bool, bool]) -> Floats:
    """How far the curve through these points strays from the line `(B,)`, mm."""
    knots, angles = _drawn(asked, shares, turns)
    ways = np.stack([np.cos(angles), np.sin(angles)], axis=-1)
    inner = [ways[:, 2 + k] if how[0] else None for k in range(shares.shape[1])]
    path = hobby(knots, [ways[:, 0], *inner, ways[:, 1]])
    if how[1]:
        bends = [np.full(len(shares), 0.0 if straight else np.nan) for straight in asked.beside]
        path = evenly_bent(path, bends[0], bends[1])
    return _farthest(path, shares, asked.line)


def _farthest(path: Floats, shares: Floats, line: Line) -> Floats:
    """The farthest of a line's places from curves `(B, S, 4, 2)` that have its points at `shares` `(B, n)`.

    Between two of them lie one cubic, or several that share it evenly.
    """
    bodies, parts = len(path), path.shape[1] // (shares.shape[1] + 1)
    bounds = np.concatenate([np.zeros((bodies, 1)), shares, np.ones((bodies, 1))], axis=1)
    which = (line.share[None, :, None] > bounds[:, None, 1:-1]).sum(axis=-1)
    rows = np.arange(bodies)[:, None]
    low, high = bounds[rows, which], bounds[rows, which + 1]
    t = (line.share - low) / np.maximum(high - low, 1e-9) * parts
    part = np.clip(t.astype(np.intp), 0, parts - 1)
    t, which = t - part, which * parts + part
    a, b, c, d = (path[rows, which, k] for k in range(4))
    powers = a, 3 * (b - a), 3 * (c - 2 * b + a), d - 3 * c + 3 * b - a
    for _ in range(_NEWTON):
        apart, speed = _place(powers, t, line)
        toward = (speed * line.along).sum(axis=-1)
        ahead = (apart * line.along).sum(axis=-1)
        t = np.clip(t - ahead / np.where(np.abs(toward) < 1e-6, 1e-6, toward), 0.0, 1.0)
    apart, _ = _place(powers, t, line)
    return np.asarray(norm(apart).max(axis=-1))


def _place(powers: tuple[Floats, ...], t: Floats, line: Line) -> tuple[Floats, Floats]:
    """From the line's places to the curve's at `t`, and the curve's velocity there: both `(B, M, 2)`."""
    a, b, c, d = powers
    t = t[..., None]
    return a + t * (b + t * (c + t * d)) - line.points, b + t * (2 * c + 3 * t * d)
