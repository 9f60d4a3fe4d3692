"""Where lines and edges meet, for all bodies at once: a mask says for whom they do."""

from __future__ import annotations

import numpy as np

from draft.base.arrays import Bools, Floats, Ints
from draft.geometry.cubic import blend, cross, norm, point, turning_places, unit
from draft.geometry.length import length_to, segment_lengths

PARALLEL = 1e-9
"""Lines that turn by less than this (rad) do not meet: a millimetre apart, they would do so a kilometre away."""

TOUCH = 1e-6
"""An edge that comes this near to a line (mm) without crossing it touches it."""

HALVINGS = 60
"""Halving a parameter this often leaves no more than its rounding."""


def lines_meet(p: Floats, d: Floats, q: Floats, e: Floats) -> tuple[Floats, Bools]:
    """Where the infinite lines through `p` along `d` and through `q` along `e` meet, all `(B, 2)`.

    Gives the points `(B, 2)` and whether there is one `(B,)`; where lines are parallel or a direction has no length
    the point is `p`.
    """
    d, e = unit(d), unit(e)
    turn = cross(d, e)
    ok = np.abs(turn) > PARALLEL
    along = np.where(ok, cross(q - p, e) / np.where(ok, turn, 1.0), 0.0)
    return p + along[..., None] * d, ok


def edge_meets_line(path: Floats, p: Floats, d: Floats) -> tuple[Floats, Floats, Bools]:
    """Where paths `(B, S, 4, 2)` first meet the infinite lines through `p` along `d` `(B, 2)`, from their start.

    Gives the points `(B, 2)`, their distance along the path in mm `(B,)`, and whether there is one `(B,)`; where
    there is none, the point is the path's first and the distance 0. Touching counts as meeting.
    """
    d = unit(d)
    index, t, ok = _first_zero(_beside(path, p, d))
    ok = ok & (norm(d) > 0.5)
    index, t = np.where(ok, index, 0), np.where(ok, t, 0.0)
    seg = path[np.arange(len(path)), index]
    passed = np.where(np.arange(path.shape[1]) < index[:, None], segment_lengths(path), 0.0).sum(axis=-1)
    return point(seg, t), passed + length_to(seg, t), ok


def _beside(path: Floats, p: Floats, d: Floats) -> Floats:
    """How far each control point lies to the left of its body's line: cubics in the parameter, `(B, S, 4)`."""
    return cross(d[:, None, None, :], path - p[:, None, None, :])


def _first_zero(values: Floats) -> tuple[Ints, Floats, Bools]:
    """The first zero of cubics with control values `(B, S, 4)`: segment, parameter, and whether there is one.

    Between the places where a cubic turns back it only rises or only falls, so every zero is held between two of
    them, and one that is only touched is such a place itself.
    """
    bodies, count = values.shape[:2]
    edge = np.broadcast_to([0.0], (bodies, count, 1))
    places = np.concatenate([edge, turning_places(values), edge + 1], axis=-1)
    heights = _value(values[..., None, :], places)
    touched = np.abs(heights) <= TOUCH
    passed = np.signbit(heights[..., :-1]) != np.signbit(heights[..., 1:])
    found = touched.copy()
    found[..., :-1] |= passed
    first = found.reshape(bodies, -1).argmax(axis=-1)
    index, between = first // 4, first % 4
    body = np.arange(bodies)
    ends = [places[body, index, np.minimum(between + k, 3)] for k in (0, 1)]
    t = _bisect(values[body, index], *ends)
    t = np.where(touched[body, index, between], ends[0], t)
    return index, t, np.asarray(found.any(axis=(-1, -2)))


def _bisect(values: Floats, low: Floats, high: Floats) -> Floats:
    falling = _value(values, low) > 0
    for _ in range(HALVINGS):
        middle = (low + high) / 2
        before = (_value(values, middle) > 0) == falling
        low, high = np.where(before, middle, low), np.where(before, high, middle)
    return (low + high) / 2


def _value(values: Floats, t: Floats) -> Floats:
    return blend([values[..., k] for k in range(4)], t)
