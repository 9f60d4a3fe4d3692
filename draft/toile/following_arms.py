"""Sleeves turned with the arms, from one pose to the next, and with the forearm where the elbow is bent."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np

from draft.base.arrays import Floats
from draft.base.record import dataclass
from draft.toile.dressed import FormField

STEP, BEND = float(np.radians(12.0)), float(np.radians(15.0))
"""By how much the arms are moved, and the elbows bent, before the cloth settles again."""
HIGHEST = float(np.radians(-30.0))
_CLEAR = 25.0  # mm: half of a thin arm
_INWARD, _RUNS_OVER = 10.0, 90.0
"""mm inward of the joint where cloth begins to follow the arm, and over which it comes to follow it wholly."""
_NEAR, _FAR = 120.0, 220.0
"""mm from the arm's middle within which cloth follows it, and beyond which it is the trunk's."""


@dataclass(frozen=True, eq=False)
class Elbow:
    """An elbow bent forward by `bend` radians at a place `(3,)` of the left; the form with it bent so far."""

    bend: float
    place: Floats
    field_at: Callable[[float], FormField]


def below_arm(places: Floats, joint: Floats, at_most: float) -> float:
    """How far below level an arm may be held and still pass above all places `(n, 2)` across and up; at most so far.

    Where a side seam is laid flat, wider than the body is, a steeper arm would pass below the corner under the arm.
    """
    across, up = places[:, 0] - joint[0], places[:, 1] - joint[2]
    beyond = across > _CLEAR
    steepest = np.arctan2(-up[beyond] - _CLEAR, across[beyond])
    return float(max(min(steepest.min(initial=at_most), at_most), HIGHEST))


def poses(start: float, end: float, step: float = STEP) -> list[float]:
    """The angles from one pose to another, the first left out; none where they are the same."""
    count = int(np.ceil(abs(end - start) / step - 1e-9))
    return [start + (end - start) * k / count for k in range(1, count + 1)]


def follow(x: Floats, joint: Floats, start: float, end: float, moved: Floats) -> Floats:
    """Positions `(v, 3)` turned with the left arm about its joint `(3,)`, which itself is moved by `moved` `(3,)`."""
    away = x - joint
    along = away[:, 0] * np.cos(start) - away[:, 2] * np.sin(start)
    below = away[:, 0] * np.sin(start) + away[:, 2] * np.cos(start)
    share = _smooth((along + _INWARD) / _RUNS_OVER) * _smooth((_FAR - np.abs(below)) / (_FAR - _NEAR))
    turn = share * (end - start)
    found = x.copy()
    found[:, 0] = joint[0] + np.cos(turn) * away[:, 0] + np.sin(turn) * away[:, 2]
    found[:, 2] = joint[2] - np.sin(turn) * away[:, 0] + np.cos(turn) * away[:, 2]
    return np.asarray(found + share[:, None] * moved)


def follow_forearm(x: Floats, elbow: Elbow, arms: float, start: float, end: float) -> Floats:
    """Positions `(v, 3)` turned with a forearm that is bent forward from one angle to another, the arm held so."""
    away = x - elbow.place
    way, side = np.array([np.cos(arms), 0.0, -np.sin(arms)]), np.array([np.sin(arms), 0.0, np.cos(arms)])
    fore = np.cos(start) * way - np.sin(start) * np.array([0.0, 1.0, 0.0])
    up = np.sin(start) * way + np.cos(start) * np.array([0.0, 1.0, 0.0])
    along, across = away @ fore, away @ up
    share = _smooth((along + _RUNS_OVER / 2) / _RUNS_OVER) * _smooth((_FAR - np.abs(away @ side)) / (_FAR - _NEAR))
    turn = share * (end - start)
    new = np.cos(turn) * along + np.sin(turn) * across, -np.sin(turn) * along + np.cos(turn) * across
    found = elbow.place + new[0][:, None] * fore + new[1][:, None] * up + (away @ side)[:, None] * side
    return np.asarray(np.where(share[:, None] > 0, found, x))


def _smooth(share: Floats) -> Floats:
    """From 0 to 1 without a corner."""
    within = np.clip(share, 0.0, 1.0)
    return np.asarray(within * within * (3 - 2 * within))
