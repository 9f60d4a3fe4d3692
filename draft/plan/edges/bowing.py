"""Darts whose legs are curves: bowed together or apart where the body is round, or both to one side.

Bowed to one side one leg is the other turned about the dart's point, as paper is that was cut along a curve and turned;
bowed together or apart each is the other's mirror image. Both ways the legs are of one length.
"""

from __future__ import annotations

import numpy as np

from draft.base.arrays import Floats
from draft.base.units import Kind
from draft.geometry.cubic import norm
from draft.geometry.length import point_at
from draft.geometry.nearest import nearest_place
from draft.language import tree
from draft.plan.edges.to_one_side import to_end
from draft.plan.plan import Trace, Value, is_broken, needs_of
from draft.plan.values import Values
from draft.words.word import one

OF_WIDTH = 1 / 8
"""Of a dart's width: bowed together so far, its legs leave its point side by side, and apart they reach its edge so."""
OF_LENGTH = 1 / 4
"""Of a dart's length: bowed further to one side a leg is more than half a circle long."""


def bowed(values: Values, piece: str, written: tree.Takeup, at: Value, to: Value, width: Value) -> tuple[Value, Value]:
    """By how much the first leg of a dart and the last are bowed towards the end of its edge, mm."""
    bow = written.bowed
    assert bow
    by = values.compile(bow.by, piece, one(Kind.LENGTH))
    side = to_end(values, piece, written, bow.towards, "is bowed", at, to) if bow.towards else None
    edge = f"{piece}.{written.edge.parts[0]}"
    parts = (by, side, at, to, width)

    def amount(trace: Trace) -> Floats:
        found = np.broadcast_to(by.run(trace), (trace.count,))
        trace.fail(bow.span, f"`{written.name}` is bowed by less than nothing", found < 0)
        most, of = _limit(trace, bow, edge, at, to, width)
        fact = f"`{written.name}` can be bowed by less than {of}, {float(np.min(most)):.1f} mm"
        trace.fail(bow.span, fact, (found > 0) & (found >= most))
        return found

    def leg(way: int) -> Value:
        def run(trace: Trace) -> Floats:
            if side:
                return amount(trace) * (2 * side.run(trace) - 1)
            return amount(trace) * (-way if bow.apart else way)

        return Value(bow.span, Kind.LENGTH, needs_of(*parts) | {edge}, run, is_broken(parts))

    return leg(1), leg(-1)


def _limit(trace: Trace, bow: tree.Bowed, edge: str, at: Value, to: Value, width: Value) -> tuple[Floats, str]:
    """How far a dart can be bowed, mm `(B,)`, and what share of what that is."""
    if not bow.towards:
        return np.broadcast_to(width.run(trace), (trace.count,)) * OF_WIDTH, "an eighth of its width"
    path = trace.values[edge]
    place = nearest_place(path, np.broadcast_to(at.run(trace), (trace.count, 2)))[0]
    return norm(point_at(path, place) - to.run(trace)) * OF_LENGTH, "a quarter of its length"
