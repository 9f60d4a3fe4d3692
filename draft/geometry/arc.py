"""Circular arcs as cubics."""

from __future__ import annotations

import numpy as np

from draft.base.arrays import Bools, Floats
from draft.geometry.cubic import norm, unit

PARTS = 4
"""A half circle in four cubics strays from the circle by less than 1e-5 of its radius."""

ROUND = 0.01
"""mm: ends whose distances from the centre differ by more do not lie on one circle."""

HALF = 1e-4
"""rad: ends that miss opposite sides by less lie opposite one another, as far as anybody can draw."""

QUARTER_HANDLE = 0.5522847498307936
"""The handle of a quarter circle of radius 1: 4/3 (sqrt 2 - 1), within 0.03 % of the circle."""


def arc(centre: Floats, start: Floats, end: Floats) -> tuple[Floats, Bools]:
    """The shorter arc round `centre` from `start` to `end`, all `(B, 2)`: `(B, 4, 4, 2)`, and where it is one.

    It is none where the two ends lie at unlike distances from the centre, or on it; nor where they lie opposite one
    another, for then both arcs are half circles and rounding would choose.
    """
    first, last = start - centre, end - centre
    radius = norm(first)
    turn = _turn(first, last)
    fits = (np.abs(radius - norm(last)) <= ROUND) & (radius > ROUND) & ~are_opposite(centre, start, end)
    steps = turn[:, None] * np.linspace(0.0, 1.0, PARTS + 1)
    begins = np.arctan2(first[:, 1], first[:, 0])[:, None] + steps
    spokes = np.stack([np.cos(begins), np.sin(begins)], axis=-1)
    along = np.stack([-np.sin(begins), np.cos(begins)], axis=-1)
    # Handles of 4/3 tan(angle / 4) give each part the arc's own middle (common practice).
    reach = (4 / 3 * np.tan(turn / PARTS / 4))[:, None, None]
    points, handles = spokes, along * reach
    unitary = np.stack(
        [points[:, :-1], points[:, :-1] + handles[:, :-1], points[:, 1:] - handles[:, 1:], points[:, 1:]], axis=2
    )
    path = centre[:, None, None] + radius[:, None, None, None] * unitary
    path[:, 0, 0], path[:, -1, 3] = start, end
    return path, fits


def are_opposite(centre: Floats, start: Floats, end: Floats) -> Bools:
    """Whether two points lie on opposite sides of a centre, all `(B, 2)`."""
    return np.asarray(np.pi - np.abs(_turn(start - centre, end - centre)) <= HALF)


def _turn(first: Floats, last: Floats) -> Floats:
    """The signed angle from one spoke to the other, the short way."""
    a, b = unit(first), unit(last)
    return np.asarray(np.arctan2(a[:, 0] * b[:, 1] - a[:, 1] * b[:, 0], np.sum(a * b, axis=-1)))
