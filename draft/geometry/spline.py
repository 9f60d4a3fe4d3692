"""Fair curves through points: J. D. Hobby's splines, for all bodies at once.

A designer names points and, here and there, a direction; the curve between has to look drawn by one hand.
Hobby's splines turn evenly, need no handles and move with their points. Source: J. D. Hobby, "Smooth, easy
to compute interpolating splines", Discrete & Computational Geometry 1 (1986). The names are his: at each knot
the curve leaves at `theta` from the chord ahead and arrives at `phi` from the chord behind, and the chords
turn by `psi`.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np

from draft.base.arrays import Bools, Floats
from draft.geometry.cubic import NO_LENGTH, cross, dot, norm, turned
from draft.geometry.drawn_once import DrawnOnce

LONGEST_HANDLE = 4.0
"""Handles are at most this many chords long, as in D. E. Knuth, METAFONT: The Program (1986), section 116."""

ALONG_CHORD = 1e-9
"""Angles below this (rad) are taken for zero, so that what is meant straight is drawn exactly straight."""


def hobby(
    knots: Floats,
    directions: Sequence[Floats | None],
    tension: float = 1.0,
    curl: float = 1.0,
    closed: bool = False,
) -> Floats:
    """A fair curve through `knots` `(B, K, 2)`: `(B, K - 1, 4, 2)`, or `(B, K, 4, 2)` if `closed`.

    `directions` has one entry for each knot: unit vectors `(B, 2)` that the curve follows there, or None to
    let it find its own; a zero vector also counts as None. A direction inside the curve parts it in two that
    meet smoothly. `tension` (from 3/4) tightens the curve; `curl` is how much a free end bends, beside its
    neighbour. Knots that coincide give a segment without length, and the curve starts afresh behind it.
    """
    if (tension, curl, closed) == (1.0, 1.0, False):
        return _KEPT(knots, *directions)
    return _drawn(knots, directions, tension, curl, closed)


def _drawn(
    knots: Floats, directions: Sequence[Floats | None], tension: float = 1.0, curl: float = 1.0, closed: bool = False
) -> Floats:
    turn = _Turns(knots, _directions(knots, directions), closed)
    theta = _solve(turn, 1 / tension, curl)
    phi = np.roll(-turn.psi - theta, -1, axis=1)
    segments = _segments(knots, turn.chord, _settle(theta), _settle(phi), tension)
    return segments if closed else segments[:, :-1]


_KEPT = DrawnOnce(lambda knots, *directions: _drawn(knots, directions))


class _Turns:
    """The chords between the knots, their angles, and what is given. Chord k follows knot k."""

    def __init__(self, knots: Floats, directions: Floats, closed: bool) -> None:
        self.chord = np.roll(knots, -1, axis=1) - knots
        length = norm(self.chord)
        present = length > NO_LENGTH
        if not closed:
            present[:, -1] = False
        self.given: Bools = norm(directions) > 0.5
        self.ahead = np.where(present, 1 / np.where(present, length, 1.0), 0.0)
        self.behind = np.roll(self.ahead, 1, axis=1)
        before = np.roll(self.chord, 1, axis=1)
        self.leave = np.where(present, _angle(self.chord, directions), 0.0)
        self.arrive = np.where(self.behind > 0, _angle(directions, before), 0.0)
        free = np.where((self.ahead > 0) & (self.behind > 0), _angle(before, self.chord), 0.0)
        self.psi = np.where(self.given, -self.leave - self.arrive, free)


def _directions(knots: Floats, directions: Sequence[Floats | None]) -> Floats:
    found = np.zeros_like(knots)
    for k, direction in enumerate(directions):
        if direction is not None:
            found[:, k] = direction
    return found


def _angle(a: Floats, b: Floats) -> Floats:
    """The angle (rad, half a turn at most) from vectors `a` to vectors `b`; 0 for one without length."""
    angle: Floats = np.arctan2(cross(a, b), dot(a, b))
    return angle


def _solve(turn: _Turns, alpha: float, curl: float) -> Floats:
    """The angles theta `(B, K)` that make the mock curvatures agree on both sides of every free knot."""
    here, back, on, wanted = _equations(turn, alpha, curl)
    count = here.shape[1]
    itself, following = np.eye(count), np.roll(np.eye(count), 1, axis=1)
    matrix: Floats = here[..., None] * itself + back[..., None] * following.T + on[..., None] * following
    return np.asarray(np.linalg.solve(matrix, wanted[..., None])[..., 0], dtype=np.float64)


def _equations(turn: _Turns, alpha: float, curl: float) -> tuple[Floats, Floats, Floats, Floats]:
    """For each knot the weights `(B, K)` of its own theta, of those behind and ahead, and the right side.

    An end of a curve is a knot with a chord on one side only; it takes Hobby's curl equation.
    """
    ahead, behind, psi, rest = turn.ahead, turn.behind, turn.psi, 3 - alpha
    near, far = rest + curl * alpha, curl * rest + alpha
    starts, finishes = (ahead > 0) & (behind == 0), (ahead == 0) & (behind > 0)
    lone = starts & ~turn.given & np.roll(finishes & ~turn.given, -1, axis=1)
    kinds = [turn.given, lone | np.roll(lone, 1, axis=1), starts, finishes, (ahead == 0) & (behind == 0)]
    one, none, psi_on = np.ones_like(psi), np.zeros_like(psi), np.roll(psi, -1, axis=1)
    here = np.select(kinds, [one, one, near * one, near * one, one], rest * (behind + ahead))
    back = np.select(kinds, [none, none, none, far * one, none], alpha * behind)
    on = np.select(kinds, [none, none, far * one, none, none], alpha * ahead)
    wanted = np.select(
        kinds, [turn.leave, none, -far * psi_on, none, none], -rest * behind * psi - alpha * ahead * psi_on
    )
    return here, back, on, wanted


def _settle(angle: Floats) -> Floats:
    return np.where(np.abs(angle) < ALONG_CHORD, 0.0, angle)


def _segments(knots: Floats, chord: Floats, theta: Floats, phi: Floats, tension: float) -> Floats:
    ends = np.roll(knots, -1, axis=1)
    out = _reach(theta, phi, tension)[..., None] * turned(chord, theta)
    back = _reach(phi, theta, tension)[..., None] * turned(chord, -phi)
    return np.stack([knots, knots + out, ends - back, ends], axis=-2)


def _reach(theta: Floats, phi: Floats, tension: float) -> Floats:
    """The length of the handle at angle `theta` in chords: Hobby's velocity function rho / 3."""
    sines = (np.sin(theta) - np.sin(phi) / 16) * (np.sin(phi) - np.sin(theta) / 16)
    above = 2 + math.sqrt(2) * sines * (np.cos(theta) - np.cos(phi))
    root = math.sqrt(5)
    below = 3 * tension * (1 + (root - 1) / 2 * np.cos(theta) + (3 - root) / 2 * np.cos(phi))
    bounded = above < LONGEST_HANDLE * below
    return np.where(bounded, above / np.where(bounded, below, 1.0), LONGEST_HANDLE)
