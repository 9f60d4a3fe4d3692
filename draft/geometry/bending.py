"""How a line bends from place to place: where its curvature steps, how unevenly it turns, how far it turns back."""

from __future__ import annotations

import numpy as np

from draft.base.arrays import Floats
from draft.base.record import dataclass
from draft.geometry.cubic import norm, point
from draft.geometry.fairness import PLACES, SHORT, combs
from draft.geometry.length import segment_lengths

TRACED = np.linspace(0.0, 1.0, PLACES + 1)


@dataclass(frozen=True)
class Bending:
    """What a cutter's eye finds on paths `(B, S, 4, 2)`, for each body `(B,)`.

    `step` is the largest step of the curvature at a joint, 1/mm, with `RUN` or more of line on both sides of it, and
    `onset` the largest beside a stretch that is as good as straight. `back` `(2, B)` is how far the line turns back on
    a short stretch at its first and at its last end, rad, having turned the other way for the most of it. `peak` is the
    strongest bend of the way that it turns most, in mean bends of where it turns that way; 0 where it turns by less
    than 30 degrees.
    """

    step: Floats
    onset: Floats
    back: Floats
    peak: Floats


RUN = 25.0
"""Mm: on less line than this no eye tells one curvature from another; a button stand is no longer."""

SHORT_END = 40.0
"""Mm: a line that turns the other way for longer at an end was meant to, as a side seam below the waist."""

NEXT = 100.0
LITTLE = 0.15
"""A line that turns back by more than this share of its turn on the next so many mm has the shape of an S."""

STRAIGHT = 1 / 400
"""1/mm: on 5 cm such a line is off a straight one by less than a millimetre."""


LEAST_TURN = np.radians(30)
"""A line that turns by less looks straight with a bend in it, and may."""


def bending(path: Floats) -> Bending:
    """Measure how paths `(B, S, 4, 2)` in mm bend; segments without length are passed over."""
    lengths = segment_lengths(path)
    bent = combs(path)
    turn, way = _pieces(path, bent, lengths)
    step, onset = _steps(bent, lengths)
    back = np.stack([_turned_back(turn, way), _turned_back(turn[:, ::-1], way[:, ::-1])])
    return Bending(step, onset, back, _peak(bent, lengths, turn, way))


def end_bends(path: Floats) -> tuple[Floats, Floats]:
    """The curvature `(B,)`, 1/mm, positive to the left, at the first and at the last end of paths."""
    there, bent = segment_lengths(path) > SHORT, combs(path)
    who = np.arange(len(path))
    first, last = np.argmax(there, axis=1), there.shape[1] - 1 - np.argmax(there[:, ::-1], axis=1)
    return bent[who, first, 0], bent[who, last, -1]


def _pieces(path: Floats, bent: Floats, lengths: Floats) -> tuple[Floats, Floats]:
    """How far the line turns from each place to the next, rad, and how long it is there, mm: `(B, S * PLACES)`."""
    places = point(path[:, :, None], TRACED)
    way = norm(np.diff(places, axis=2))
    turn = (bent[:, :, 1:] + bent[:, :, :-1]) / 2 * way
    there = (lengths > SHORT)[..., None]
    return (np.where(there, part, 0.0).reshape(len(path), -1) for part in (turn, way))  # type: ignore[return-value]


def _steps(bent: Floats, lengths: Floats) -> tuple[Floats, Floats]:
    """The largest steps at joints with enough line on both sides: any, and those beside a straight stretch."""
    step, onset, last = np.zeros((3, len(bent)))
    gone, whole = np.zeros(len(bent)), lengths.sum(axis=1)
    for k in range(bent.shape[1]):
        here = lengths[:, k] > SHORT
        by = np.abs(bent[:, k, 0] - last) * (here & (gone >= RUN) & (whole - gone >= RUN))
        step = np.maximum(step, by)
        flat = np.minimum(np.abs(bent[:, k, 0]), np.abs(last)) < STRAIGHT
        onset = np.maximum(onset, np.where(flat, by, 0.0))
        last = np.where(here, bent[:, k, -1], last)
        gone = gone + lengths[:, k]
    return step, onset


def _turned_back(turn: Floats, way: Floats) -> Floats:
    """How far lines turn back on a short stretch at their first end, rad `(B,)`."""
    main = np.where(turn.sum(axis=1) < 0, -1.0, 1.0)[:, None]
    heading, gone = np.cumsum(-main * turn, axis=1), np.cumsum(way, axis=1)
    back = np.maximum(heading, 0.0).max(axis=1)
    ended = gone[np.arange(len(turn)), np.argmax(heading, axis=1)]
    whole = np.where(gone < ended[:, None] + NEXT, np.maximum(main * turn, 0.0), 0.0).sum(axis=1)
    return np.where((ended < SHORT_END) & (back < LITTLE * whole), back, 0.0)


def _peak(bent: Floats, lengths: Floats, turn: Floats, way: Floats) -> Floats:
    sign = np.where(turn.sum(axis=1) < 0, -1.0, 1.0)[:, None]
    along = np.maximum(sign * turn, 0.0)
    whole, length = along.sum(axis=1), np.where(along > 1e-3 * way, way, 0.0).sum(axis=1)
    strongest = np.where((lengths > SHORT)[..., None], sign[..., None] * bent, 0.0).max(axis=(1, 2))
    enough = whole > LEAST_TURN
    return np.where(enough, strongest * length / np.where(enough, whole, 1.0), 0.0)
