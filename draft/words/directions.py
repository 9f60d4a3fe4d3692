"""Directions on the cloth: across is away from the fold, up is towards the head."""

from __future__ import annotations

from functools import partial

import numpy as np

from draft.base.arrays import Floats
from draft.base.units import Kind
from draft.geometry.cubic import NO_LENGTH, norm, unit
from draft.geometry.length import tangent_at
from draft.geometry.nearest import ON_EDGE, nearest_place
from draft.words.word import Given, Word, one


def unit_or_across(vectors: Floats) -> Given:
    """Vectors `(B, 2)` brought to length 1; those too short to have a direction are across and masked."""
    fits = norm(vectors) > NO_LENGTH
    return np.where(fits[..., None], unit(vectors), np.array([1.0, 0.0])), fits


def _fixed(x: float, y: float) -> Floats:
    return np.array([[x, y]])


def _leaning(angle: Floats, side: Floats, towards: float) -> Floats:
    angle, across = np.broadcast_arrays(angle, side[..., 0])
    return np.stack([across * np.cos(angle), towards * np.sin(angle)], axis=-1)


def _along(line: Floats) -> Given:
    return unit_or_across(line[:, 1])


def square_towards(along: Floats, side: Floats) -> Given:
    """The perpendicular of directions `(B, 2)` on the side towards which `side` `(B, 2)` runs, and where it has one."""
    turned = np.stack([-along[:, 1], along[:, 0]], axis=-1)
    lean = np.sum(turned * side, axis=-1)
    return turned * np.where(lean < 0, -1.0, 1.0)[:, None], np.abs(lean) > 1e-9


def _square_from(side: Floats, line: Floats) -> Given:
    """The perpendicular of the line on the named side; a line that runs along that side has none to choose."""
    along, fits = unit_or_across(line[:, 1])
    square, chosen = square_towards(along, side)
    return square, fits & chosen


def _along_edge(edge: Floats, point: Floats) -> Given:
    """The way that an edge runs at a point on it, from its first point towards its last."""
    at, miss = nearest_place(edge, point)
    return tangent_at(edge, at), miss <= ON_EDGE


def _square_from_edge(side: Floats, edge: Floats, point: Floats) -> Given:
    along, on_edge = _along_edge(edge, point)
    direction, fits = _square_from(side, np.stack(np.broadcast_arrays(point, along), axis=1))
    return direction, fits & on_edge


_D = one(Kind.DIRECTION)

WORDS = (
    Word("across", "across", "Away from the fold.", (), Kind.DIRECTION, partial(_fixed, 1.0, 0.0),
         example="tip  from nape: 3 cm across"),
    Word("inward", "inward", "Towards the fold.", (), Kind.DIRECTION, partial(_fixed, -1.0, 0.0),
         example="tip  from armpit: 3 cm inward"),
    Word("up", "up", "Towards the head.", (), Kind.DIRECTION, partial(_fixed, 0.0, 1.0),
         example="tip  from nape: 3 cm up"),
    Word("down", "down", "Towards the feet.", (), Kind.DIRECTION, partial(_fixed, 0.0, -1.0),
         example="tip  from nape: 3 cm down"),
    Word("below", "ANGLE below across", "Turned down by an angle from across or inward.", (one(Kind.ANGLE), _D),
         Kind.DIRECTION, partial(_leaning, towards=-1.0), example="tip  from neck: 12 cm at slope below across"),
    Word("above", "ANGLE above across", "Turned up by an angle from across or inward.", (one(Kind.ANGLE), _D),
         Kind.DIRECTION, partial(_leaning, towards=1.0), example="tip  from armpit: 12 cm at slope above inward"),
    Word("along", "along A to B", "The way from one point to another.", (one(Kind.LINE),), Kind.DIRECTION, _along,
         fails="the two points lie on one another, so there is no way from one to the other",
         example="tip  from armpit: 3 cm along armpit to waist_side"),
    Word("along_edge", "along EDGE at P", "The way that an edge runs at a point on it, from first to last.",
         (one(Kind.EDGE), one(Kind.POINT)), Kind.DIRECTION, _along_edge, fails="the point does not lie on the edge",
         example="tip  from waist_side: 3 cm along side at waist_side"),
    Word("square_from", "square down from A to B", "Square to a line, on the side named.", (_D, one(Kind.LINE)),
         Kind.DIRECTION, _square_from, fails="the line has no such side: it runs that way, or has no length",
         example="tip  from shoulder: 14 cm square down from neck to shoulder"),
    Word("square_from_edge", "square down from EDGE at P", "Square to an edge at a point on it, on the side named.",
         (_D, one(Kind.EDGE), one(Kind.POINT)), Kind.DIRECTION, _square_from_edge,
         fails="the point does not lie on the edge, or the edge has no such side there",
         example="tip  from waist_side: 3 cm square across from side at waist_side"),
)  # fmt: skip
