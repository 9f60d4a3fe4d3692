"""How fair a line is: its corners, how tightly it turns, how often it changes the way that it turns, how evenly."""

from __future__ import annotations

import numpy as np

from draft.base.arrays import Bools, Floats
from draft.base.record import dataclass
from draft.geometry.cubic import cross, curvature, derivative, dot, end_tangent, norm, point, start_tangent, unit
from draft.geometry.length import segment_lengths

PLACES = 16  # on each segment
SHORT = 0.5  # mm: a segment this short shows no shape of its own
STRAIGHT = 1e-4  # 1/mm: a line that turns less than this (a circle 20 m across) is straight to a sewer
SHARPEST = 2.0  # 1/mm: at a cusp the curvature grows without end; a radius of half a millimetre is a point to a sewer
NOTICED = np.radians(0.5)  # on 10 cm of a line a smaller turn is a hollow of 0.1 mm: nobody sees that


@dataclass(frozen=True)
class Fairness:
    """What there is to say of paths `(B, S, 4, 2)`, for each body `(B,)`.

    `corner` is the sharpest corner inside, in degrees; `radius` the tightest, mm; `turns` how often the line changes
    the way that it turns, by half a degree or more. `unevenness` adds up all changes of the curvature, jumps at joints
    included, and takes that times the path's length: 0 for a straight line or an arc, so that two drafts of one edge
    can be compared. `sharpest` is the strongest curvature with its sign, 1/mm, positive to the left.
    """

    corner: Floats
    radius: Floats
    turns: Floats
    unevenness: Floats
    sharpest: Floats


def fairness(path: Floats) -> Fairness:
    """Measure how fair paths `(B, S, 4, 2)` are; segments without length are passed over."""
    lengths = segment_lengths(path)
    there = lengths > SHORT
    bent = np.clip(combs(path), -SHARPEST, SHARPEST)
    return Fairness(
        _corner(path, there),
        _radius(path, np.where(there[..., None], bent, 0.0), there),
        turns(path, NOTICED)[0],
        _changes(bent, there) * lengths.sum(axis=1),
        _sharpest(np.where(there[..., None], bent, 0.0)),
    )


def _sharpest(bent: Floats) -> Floats:
    flat = bent.reshape(len(bent), -1)
    return np.asarray(flat[np.arange(len(flat)), np.argmax(np.abs(flat), axis=1)])


def turns(path: Floats, *least: float) -> list[Floats]:
    """How often paths `(B, S, 4, 2)` change the way that they turn, by each `least` rad or more a time: `(B,)` each."""
    there = segment_lengths(path) > SHORT
    steps = np.where(there[..., None], _step_turns(path), 0.0)
    return [_turns(steps, enough) for enough in least]


def combs(path: Floats) -> Floats:
    """The curvature, 1/mm with its sign, at evenly spaced parameters of each segment: `(B, S, PLACES + 1)`."""
    return np.asarray(curvature(path[:, :, None], _places()))


def _places() -> Floats:
    return np.linspace(0.0, 1.0, PLACES + 1)


def _directions(path: Floats) -> Floats:
    """Unit vectors along the line at the places of the combs, `(B, S, PLACES + 1, 2)`; zero where it stands still."""
    found = unit(derivative(path[:, :, None], _places()))
    found[:, :, 0], found[:, :, -1] = start_tangent(path), end_tangent(path)
    return found


def _step_turns(path: Floats, steps: int = 1) -> Floats:
    """The signed turn in rad from each place of the combs to the one so many steps on."""
    along = _directions(path)
    return _turn(along[:, :, :-steps], along[:, :, steps:])


def _turn(before: Floats, after: Floats) -> Floats:
    """The signed angle in rad between directions `(..., 2)`; none where either is zero."""
    along = dot(before, after)
    return np.asarray(np.arctan2(cross(before, after), np.where(along == 0.0, 0.0, along)))


def _corner(path: Floats, there: Bools) -> Floats:
    """The sharpest turn between one segment and the next that has a length."""
    leaves, arrives = start_tangent(path), end_tangent(path)
    sharpest = np.zeros(len(path))
    last = np.zeros((len(path), 2))
    for k in range(path.shape[1]):
        turn = np.degrees(np.abs(_turn(last, leaves[:, k])))
        sharpest = np.where(there[:, k], np.maximum(sharpest, turn), sharpest)
        last = np.where(there[:, k, None], arrives[:, k], last)
    return sharpest


def _radius(path: Floats, bent: Floats, there: Bools) -> Floats:
    """The tightest radius, at the places of the combs or on the way from one to the next but one.

    The latter finds a cusp between them, or one that lies on a place, where the line stands still.
    """
    turn = np.abs(_step_turns(path, 2))
    steps = norm(np.diff(point(path[:, :, None], _places()), axis=2))
    way = np.maximum(steps[:, :, :-1] + steps[:, :, 1:], 1.0 / SHARPEST)
    between = np.where(there[..., None], np.minimum(turn / way, SHARPEST), 0.0)
    tightest = np.maximum(np.max(np.abs(bent), axis=(1, 2)), np.max(between, axis=(1, 2)))
    return np.where(tightest > STRAIGHT, 1.0 / np.maximum(tightest, STRAIGHT), np.inf)


def _turns(steps: Floats, least: float) -> Floats:
    """How often a line that turns by `(B, S, N)` rad from place to place goes over to turning the other way."""
    along = steps.reshape(len(steps), -1)
    if not _turn_both_ways(along, least).any():
        return np.zeros(len(steps))
    heading = np.cumsum(along, axis=1)
    count, way = np.zeros(len(steps)), np.zeros(len(steps))
    low, high = np.zeros(len(steps)), np.zeros(len(steps))
    for now in heading.T:
        low, high = np.minimum(low, now), np.maximum(high, now)
        left, right = (now - low > least) & (way <= 0), (high - now > least) & (way >= 0)
        count += (left & (way < 0)) | (right & (way > 0))
        way = np.where(left, 1.0, np.where(right, -1.0, way))
        low, high = np.where(way > 0, now, low), np.where(way < 0, now, high)
    return np.asarray(count)


def _turn_both_ways(steps: Floats, least: float) -> Bools:
    """Whether lines `(B, N)` turn by `least` both to the left and to the right, if all their turns are added up."""
    left, right = (np.maximum(way * steps, 0.0).sum(axis=1) for way in (1, -1))
    enough = least * (1 - 1e-6)  # far more than adding up may round off
    return np.asarray((left > enough) & (right > enough))


def _changes(bent: Floats, there: Bools) -> Floats:
    """All changes of the curvature along paths, 1/mm `(B,)`: within the segments, and from each to the next."""
    within = np.abs(np.diff(bent, axis=2)).sum(axis=2)
    total = np.where(there, within, 0.0).sum(axis=1)
    last, begun = np.zeros(len(bent)), np.zeros(len(bent), dtype=bool)
    for k in range(bent.shape[1]):
        here = there[:, k]
        total += np.where(here & begun, np.abs(bent[:, k, 0] - last), 0.0)
        last, begun = np.where(here, bent[:, k, -1], last), begun | here
    return np.asarray(total)
