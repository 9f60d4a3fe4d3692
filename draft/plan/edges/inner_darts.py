"""Darts with two points, which lie on a line inside their piece and take nothing up on an edge."""

from __future__ import annotations

from collections.abc import Mapping

import numpy as np

from draft.base.arrays import Floats
from draft.base.notes import Note, error
from draft.base.units import Kind
from draft.garment.garment import InnerDartOf
from draft.geometry.cubic import cross
from draft.geometry.length import point_at, tangent_at
from draft.language import tree
from draft.plan.edges.taking_up import takeup
from draft.plan.plan import Run, Trace, Value, broken, needs_of
from draft.plan.values import Values
from draft.words.word import one

Takeups = list[tree.Takeup]
APART = 1.0  # mm: a point nearer to the line than this lies on neither side of it


def by_place(body: tree.Contents, notes: list[Note]) -> tuple[Takeups, Takeups]:
    """The darts and pleats on the outline of a sheet, and the darts inside it; a note on what is neither."""
    inside = {line.name for line in body.lines} - {edge.name for edge in body.edges}
    edged: Takeups = []
    inner: Takeups = []
    for one_of in body.takeups:
        fault = _fault(one_of, one_of.edge.parts[0] in inside)
        if fault:
            notes += [] if _is_traced(one_of) else [fault]  # it is told of the sheet that it is written on
        else:
            (inner if one_of.other else edged).append(one_of)
    return edged, inner


def _is_traced(written: tree.Takeup) -> bool:
    return isinstance(written.at, tree.Ref) and " " in written.at.text


def _fault(written: tree.Takeup, is_inside: bool) -> Note | None:
    on, name = written.edge.text, written.name
    if is_inside and written.to is None:
        return error(f"`{on}` is a line inside the piece, where no pleat can be folded", written.edge.span)
    if is_inside and written.other is None:
        fact = f"`{on}` is a line inside the piece, so a dart on it runs to two points"
        assert written.to
        return error(fact, written.edge.span, f"name the other point too: `to {written.to.span.text} and POINT`")
    if written.other and not is_inside and len(written.edge.parts) == 1:
        fact = f"`{on}` is an edge of the outline, so `{name}` runs to one point"
        return error(fact, written.other.span, "name one point, or draw a line under `lines` and set the dart on that")
    if written.other and written.trued:
        return error(f"`{name}` lies inside the piece, so no edge is trued across it", written.span, "take `trued` out")
    if written.other and written.short:
        fix = "take it out, and name the points that it is sewn to"
        return error(f"`{name}` has two points, so it does not say of which it is short", written.short.span, fix)
    return None


def inner_dart(values: Values, piece: str, written: tree.Takeup, lines: Mapping[str, tree.Edge]) -> InnerDartOf[Value]:
    """The plan of a dart on a line of a piece; `lines` are its edges and lines by name."""
    assert written.other
    on = takeup(values, piece, written, lines)
    other = values.compile(written.other, piece, one(Kind.POINT))
    line = f"{piece}.{written.edge.parts[0]}"
    to = on.to or broken(written.span)
    sides = _on_both_sides(written, line, on.at.run, to.run, other.run)

    def found(sort: Kind, run: Run) -> Value:
        return Value(written.span, sort, needs_of(on.at, to, other) | {line}, run, on.at.broken)

    return InnerDartOf(
        written.span,
        written.name,
        written.edge.parts[0],
        at=found(Kind.POINT, lambda trace: point_at(trace.values[line], on.at.run(trace))),
        way=found(Kind.DIRECTION, lambda trace: tangent_at(trace.values[line], on.at.run(trace))),
        width=on.width,
        to=Value(to.span, Kind.POINT, needs_of(on.at, to, other) | {line}, sides, to.broken),
        other=other,
        pressed=on.pressed,
        towards=on.towards,
        there=on.there,
        bow_first=on.bow_first,
        bow_last=on.bow_last,
    )


def _on_both_sides(written: tree.Takeup, line: str, at: Run, to: Run, other: Run) -> Run:
    """Where it is sewn to first; it fails for a body that has not one of the points on either side of the line."""
    fact = f"the two points of `{written.name}` do not lie on either side of `{written.edge.text}`"

    def run(trace: Trace) -> Floats:
        path, place, one_end, other_end = trace.values[line], at(trace), to(trace), other(trace)
        middle, way = point_at(path, place), tangent_at(path, place)
        first, last = cross(way, one_end - middle), cross(way, other_end - middle)
        wrong = (first * last >= 0) | (np.minimum(np.abs(first), np.abs(last)) < APART)
        trace.fail(written.span, fact, wrong)
        return one_end

    return run
