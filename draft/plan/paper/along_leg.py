"""A line that runs straight from a dart's point to its edge follows the dart's leg, which may be bowed."""

from __future__ import annotations

import numpy as np

from draft.base.arrays import Bools, Floats
from draft.base.units import Kind
from draft.geometry.cubic import cross, norm, unit
from draft.geometry.dart_leg import leg as leg_of
from draft.language import tree
from draft.plan.edges.bowing import bowed
from draft.plan.edges.taking_up import sewn_to
from draft.plan.paper.combining import made_of
from draft.plan.plan import Value
from draft.plan.values import Values
from draft.words.word import one

SAME = 1e-6  # mm: what is drawn from a point and to it ends there but for rounding


def along_leg(
    values: Values, piece: str, dart: tree.Takeup, path: Value, mouths: tuple[Value, Value], last: bool
) -> Value:
    """A path with its straight stretch along one leg of a dart bowed as that leg is.

    `mouths` are where that leg and the other meet the dart's edge; `last` says that it is the one further along.
    """
    at, to = values.compile(dart.at, piece, one(Kind.POINT)), sewn_to(values, piece, dart)
    assert to
    bow = bowed(values, piece, dart, at, to, values.compile(dart.width, piece, one(Kind.LENGTH)))[last]

    def bent(drawn: Floats, mouth: Floats, other: Floats, tip: Floats, by: Floats) -> Floats:
        bowed_leg = leg_of(mouth, tip, by, mouth - other if last else other - mouth)
        return _put(_put(drawn, mouth, tip, bowed_leg), tip, mouth, bowed_leg[:, ::-1])

    return made_of(path.span, Kind.EDGE, (path, *mouths, to, bow), bent)


def _put(path: Floats, start: Floats, end: Floats, instead: Floats) -> Floats:
    """A path `(B, S, 4, 2)` with another segment `(B, 4, 2)` for the straight one from `start` to `end` `(B, 2)`."""
    there = (_near(path[:, :, 0], start) & _near(path[:, :, 3], end) & _is_straight(path))[:, :, None, None]
    return np.where(there, instead[:, None], path)


def _near(places: Floats, to: Floats) -> Bools:
    return norm(places - to[:, None]) < SAME


def _is_straight(path: Floats) -> Bools:
    way = unit(path[:, :, 3] - path[:, :, 0])
    return np.asarray((np.abs(cross(way[:, :, None], path - path[:, :, :1])) < SAME).all(axis=-1))
