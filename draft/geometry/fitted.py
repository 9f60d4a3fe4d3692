"""Cubics fitted to true parallels, for many parts of segments at once.

The parallel of a cubic is no cubic. One with its ends and its directions there has two lengths free, those of its
handles; they are set so that it keeps its distance best at a few places between, and where that is not good enough
the part is divided. Arrays have the coordinate on the first axis here, so that one operation serves both.
"""

from __future__ import annotations

import numpy as np

from draft.base.arrays import Bools, Floats, Ints, repeated
from draft.base.record import dataclass
from draft.geometry.cubic import NO_LENGTH

SHARES = (1 - np.cos(np.pi * np.arange(1, 8) / 8)) / 2
"""A fit is set and measured at these shares of its part: closer together at its ends, where it turns most."""

PLACES = np.concatenate([[0.0], SHARES, [1.0]])

MIDDLE = len(PLACES) // 2

BASIS = tuple(
    np.asarray(weight)
    for weight in ((1 - SHARES) ** 3, 3 * SHARES * (1 - SHARES) ** 2, 3 * SHARES**2 * (1 - SHARES), SHARES**3)
)
"""How much each control of a cubic counts at those shares."""

STEPS, MORE_STEPS = 2, 3
"""Of Gauss and Newton, at first and for what is parted: the second takes away what the first leaves on a quarter
circle, and a third is worth its time only where the line bends unevenly."""

STEADY = 1e-6
"""Keeps handles that hardly matter, as those of an all but straight part, as long as the true derivative is."""

BETWEEN = 0.8
"""What is measured at a few places is held to this share of the tolerance: between them it is more by a tenth at most
on three thousand random edges."""

ROUNDS = 8
"""No part is divided more often: what is left then is a cusp some thousandths of the segment wide."""

MOST_PARTS = 4
"""A part is divided into so many at most at a time."""

STANDSTILL = 1e-6
"""Where a handle lies on its point the direction is taken this share of the part further inside."""

NEARLY_BACK = 0.05
"""Where the parallel all but turns back, its foot is taken to run no faster than twenty times as fast."""

RIGHT = np.array([1.0, -1.0])[:, None, None]
"""Turns vectors to the right once their coordinates are exchanged."""


@dataclass(frozen=True)
class _Stretch:
    """Parts seen at `PLACES`: points and unit directions `(2, M, 9)`, curvature and speed of each part `(M, 9)`."""

    points: Floats
    along: Floats
    bent: Floats
    speed: Floats

    @property
    def right(self) -> Floats:
        """The unit vectors to the right of the line."""
        return np.asarray(self.along[::-1] * RIGHT)


def fitted(
    seg: Floats, index: Ints, low: Floats, high: Floats, distance: Floats, tolerance: float
) -> tuple[Ints, Floats, Bools]:
    """The parallels of parts of segments `(N, 4, 2)`, within `tolerance` mm, as cubics `(K, 4, 2)`.

    Part m is that of segment `index[m]` from parameter `low[m]` to `high[m]`, all `(M,)`; `distance` `(N,)` in mm is
    that of each segment, positive to the right. Also given are the segment of each cubic, in whose order and along
    which they lie, and whether the cubic runs backwards `(K,)`, as inside a bend tighter than its distance.
    """
    powers = _powers(seg)
    done: list[tuple[Ints, Floats, Floats, Bools]] = []
    for step in range(ROUNDS + 1):
        seen = _seen(tuple(power[:, index] for power in powers), low, high)
        fit, miss = _fit(seen, distance[index, None], MORE_STEPS if step else STEPS)
        good = (miss <= BETWEEN * tolerance) | (step == ROUNDS)
        backwards = 1 + distance[index] * seen.bent[:, MIDDLE] < 0
        done.append((index[good], low[good], fit[good], backwards[good]))
        if good.all():
            break
        index, low, high = _parted(index[~good], low[~good], high[~good], miss[~good] / tolerance)
    indices, starts, fits, backward = (np.concatenate(column) for column in zip(*done, strict=True))
    order = np.lexsort((starts, indices))
    return indices[order], fits[order], backward[order]


def _parted(index: Ints, low: Floats, high: Floats, excess: Floats) -> tuple[Ints, Floats, Floats]:
    """Parts divided: more of them where the `excess` `(M,)` was larger, which falls with their cube or faster."""
    count = np.clip(np.ceil(np.cbrt(np.minimum(excess, MOST_PARTS**3))), 2, MOST_PARTS).astype(np.intp)
    which, order = repeated(count)
    share, wide = 1 / count[which], (high - low)[which]
    begin, end = low[which] + wide * (order * share), low[which] + wide * ((order + 1) * share)
    return index[which], begin, np.where(order + 1 == count[which], high[which], end)


def relative_speed(seg: Floats, t: Floats, distance: Floats) -> Floats:
    """How much faster the parallels of segments `(M, 4, 2)` run at parameters `t` `(T,)` or `(M, T)`: `(M, T)`."""
    velocity, turn = _moving(_powers(seg), t)
    square = velocity[0] * velocity[0] + velocity[1] * velocity[1]
    cube = square * np.sqrt(square)
    standing = cube <= NO_LENGTH**3
    return np.asarray(1 + distance[:, None] * np.where(standing, 0.0, turn / np.where(standing, 1.0, cube)))


def _powers(seg: Floats) -> tuple[Floats, ...]:
    """Segments as sums of powers of the parameter: four arrays `(2, N, 1)`."""
    a, b, c, d = (np.ascontiguousarray(seg[:, k].T)[..., None] for k in range(4))
    return a, 3 * (b - a), 3 * (c - 2 * b + a), d - 3 * c + 3 * b - a


def _moving(powers: tuple[Floats, ...], t: Floats) -> tuple[Floats, Floats]:
    """Velocities, and how far they turn: the signed area that they span with the accelerations."""
    _, first, second, third = powers
    cubed = 3 * third * t
    velocity, change = first + t * (2 * second + cubed), 2 * (second + cubed)
    return velocity, velocity[0] * change[1] - velocity[1] * change[0]


def _seen(powers: tuple[Floats, ...], low: Floats, high: Floats) -> _Stretch:
    wide = (high - low)[:, None]
    t = low[:, None] + wide * PLACES
    velocity, turn = _moving(powers, t)
    speed = np.sqrt(velocity[0] * velocity[0] + velocity[1] * velocity[1])
    slow = speed <= STANDSTILL * speed.max(axis=1, keepdims=True)
    if slow.any():
        inside = t + np.where(slow, STANDSTILL * wide * np.where(PLACES < 1, 1.0, -1.0), 0.0)
        velocity, turn = _moving(powers, inside)
        speed = np.maximum(np.hypot(velocity[0], velocity[1]), NO_LENGTH)
    zeroth, first, second, third = powers
    points = zeroth + t * (first + t * (second + t * third))
    return _Stretch(points, velocity / speed, turn / (speed * speed * speed), wide * speed)


def _fit(seen: _Stretch, distance: Floats, steps: int) -> tuple[Floats, Floats]:
    """The cubics `(M, 4, 2)` beside parts at distances `(M, 1)`, and by how much they miss them `(M,)`."""
    right, along, bent = seen.right, seen.along[..., 1:-1], seen.bent[:, 1:-1]
    ends = seen.points[..., [0, -1]] + distance * right[..., [0, -1]]
    leave, arrive = seen.along[..., :1], seen.along[..., -1:]
    handles = seen.speed[:, [0, -1]] * (1 + distance * seen.bent[:, [0, -1]]) / 3
    here = ends[..., :1] * (BASIS[0] + BASIS[1]) + ends[..., 1:] * (BASIS[2] + BASIS[3]) - seen.points[..., 1:-1]
    axes = along, right[..., 1:-1]
    x, y = (np.stack([axis[k] for axis in axes]) for k in (0, 1))
    ways = [x * v[0] + y * v[1] for v in (here, BASIS[1] * leave, -BASIS[2] * arrive)]
    best = handles
    miss, slopes, ahead = _off(ways, best, bent, distance)
    for _ in range(steps):
        best = best - _step(miss, slopes)
        miss, slopes, ahead = _off(ways, best, bent, distance)
    turned = np.asarray(np.any(best * handles <= 0, axis=1))
    if turned.any():
        best = np.where(turned[:, None], handles, best)
        miss, _, ahead = _off(ways, best, bent, distance)
    first, last = ends[..., 0], ends[..., 1]
    fit = np.stack([first, first + best[:, 0] * leave[..., 0], last - best[:, 1] * arrive[..., 0], last])
    doubt = _doubt(seen, ahead, distance)
    return np.ascontiguousarray(fit.transpose(2, 0, 1)), (np.abs(miss) + doubt).max(axis=1)


def _doubt(seen: _Stretch, ahead: Floats, distance: Floats) -> Floats:
    """By how much the part may stray `(M, 7)` from its circles of curvature where the fit runs `ahead` of places.

    A line whose curvature changes by c for each mm strays by c s^3 / 6 over s mm.
    """
    steps = np.abs(seen.bent[:, 1:] - seen.bent[:, :-1])
    change = 8 * np.maximum(steps[:, 1:], steps[:, :-1]) / np.maximum(seen.speed[:, 1:-1], NO_LENGTH)
    foot = ahead / np.maximum(np.abs(1 + distance * seen.bent[:, 1:-1]), NEARLY_BACK)
    return np.asarray(change * np.abs(foot * foot * foot) / 6)


def _off(ways: list[Floats], handles: Floats, bent: Floats, distance: Floats) -> tuple[Floats, Floats, Floats]:
    """How much too far fits lie from their parts `(M, 7)`, how that changes with both handles, and how far ahead.

    The part is taken for its circle of curvature at each place: the fit lies ahead and aside of the place, and one
    that runs ahead is not off for that. `ways` `(2, M, 7)` are what ends and handles count, ahead and aside.
    """
    here, one, other = ways
    ahead, aside = here + handles[:, :1] * one + handles[:, 1:] * other
    in_line, across = 1 + bent * aside, bent * ahead
    radius = np.sqrt(in_line * in_line + across * across)
    off = (aside * (1 + in_line) + across * ahead) / (1 + radius)
    beyond = in_line <= 0  # on the far side of the circle's centre
    if beyond.any():
        off = np.where(beyond, -(1 + radius) / np.where(beyond, bent, 1.0), off)
        radius = np.where(beyond, -np.maximum(radius, NO_LENGTH), radius)
    across, in_line = across / radius, in_line / radius
    slopes = np.stack([across * way[0] + in_line * way[1] for way in (one, other)])
    return off - distance, slopes, ahead


def _step(miss: Floats, slopes: Floats) -> Floats:
    """The change of the handles `(M, 2)` that makes the squares of the misses least, were these straight."""
    (a, c), b = (slopes * slopes).sum(axis=-1) + STEADY, (slopes[0] * slopes[1]).sum(axis=-1)
    p, q = (slopes * miss).sum(axis=-1)
    return np.asarray(np.stack([c * p - b * q, a * q - b * p], axis=1) / (a * c - b * b)[:, None])
