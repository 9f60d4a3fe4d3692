"""To which side of itself a dart or pleat is pressed, laid or bowed: that of an edge or a point."""

from __future__ import annotations

import numpy as np

from draft.base.arrays import Floats
from draft.base.notes import error
from draft.base.units import Kind
from draft.geometry.cubic import cross, right_of
from draft.geometry.length import length, point_at, tangent_at
from draft.geometry.nearest import nearest_place
from draft.language import tree
from draft.plan.plan import Trace, Value, broken, is_broken, needs_of
from draft.plan.values import Values
from draft.words.directions import unit_or_across
from draft.words.word import Kinds

_PLACES: Kinds = frozenset({Kind.POINT, Kind.EDGE})
BESIDE = 1.0  # mm: nearer to the line that a dart folds on, a place does not tell its sides apart


def pressed(values: Values, piece: str, written: tree.Takeup, at: Value, to: Value | None) -> Value | None:
    """Which way it is pressed: 1 towards the end of its edge, 0 towards the start; None where nothing is said."""
    if not written.pressed:
        return None
    return to_end(values, piece, written, written.pressed, "is pressed" if written.to else "is laid", at, to)


def to_end(
    values: Values, piece: str, written: tree.Takeup, ref: tree.Ref, goes: str, at: Value, to: Value | None
) -> Value:
    """1 where `ref` lies to that side of a dart or pleat where its edge ends, 0 where it lies to the other."""
    towards = values.compile(ref, piece, _PLACES)
    if ref.parts == written.edge.parts:
        fact = f"`{written.name}` lies on `{ref.text}`, so that does not say which way it {goes}"
        values.notes.append(error(fact, ref.span, "name an edge or a point to one side of it"))
        return broken(ref.span)
    edge = f"{piece}.{written.edge.parts[0]}"
    fact = f"`{ref.text}` lies in line with `{written.name}`, so it does not say which way that {goes}"

    def run(trace: Trace) -> Floats:
        path, target = trace.values[edge], towards.run(trace)
        if towards.kind is Kind.EDGE:
            target = point_at(target, length(target) / 2)
        place = nearest_place(path, np.broadcast_to(at.run(trace), (trace.count, 2)))[0]
        way, middle = tangent_at(path, place), point_at(path, place)
        axis = unit_or_across(middle - to.run(trace))[0] if to else right_of(way)
        aside = cross(axis, target - middle)
        trace.fail(ref.span, fact, np.abs(aside) < BESIDE)
        return (aside * cross(axis, way) > 0).astype(float)

    return Value(ref.span, Kind.NUMBER, needs_of(towards, at, to) | {edge}, run, is_broken((towards, at, to)))
