"""Sleeves turned with the arms, from one pose to the next."""

from __future__ import annotations

import numpy as np

from draft.base.arrays import Floats

STEP = float(np.radians(12.0))
"""By how much the arms are moved before the cloth settles again."""
HIGHEST = float(np.radians(-30.0))
_CLEAR = 25.0  # mm: half of a thin arm
_INWARD, _RUNS_OVER = 10.0, 90.0
"""mm inward of the joint where cloth begins to follow the arm, and over which it comes to follow it wholly."""


def below_arm(places: Floats, joint: Floats, at_most: float) -> float:
    """How far below level an arm may be held and still pass above all places `(n, 2)` across and up; at most so far.

    Where a side seam is laid flat, wider than the body is, a steeper arm would pass below the corner under the arm.
    """
    across, up = places[:, 0] - joint[0], places[:, 1] - joint[2]
    beyond = across > _CLEAR
    steepest = np.arctan2(-up[beyond] - _CLEAR, across[beyond])
    return float(max(min(steepest.min(initial=at_most), at_most), HIGHEST))


def poses(start: float, end: float) -> list[float]:
    """The angles below level from one pose to another, the first left out; none where they are the same."""
    count = int(np.ceil(abs(end - start) / STEP - 1e-9))
    return [start + (end - start) * k / count for k in range(1, count + 1)]


def follow(x: Floats, joint: Floats, start: float, end: float, moved: Floats) -> Floats:
    """Positions `(v, 3)` turned with the left arm about its joint `(3,)`, which itself is moved by `moved` `(3,)`."""
    along = (x[:, 0] - joint[0]) * np.cos(start) - (x[:, 2] - joint[2]) * np.sin(start)
    share = np.clip((along + _INWARD) / _RUNS_OVER, 0.0, 1.0)
    share = share * share * (3 - 2 * share)
    turn = share * (end - start)
    away = x - joint
    found = x.copy()
    found[:, 0] = joint[0] + np.cos(turn) * away[:, 0] + np.sin(turn) * away[:, 2]
    found[:, 2] = joint[2] - np.sin(turn) * away[:, 0] + np.cos(turn) * away[:, 2]
    return np.asarray(found + share[:, None] * moved)
