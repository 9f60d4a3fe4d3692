"""Darts and pleats as they are planned: where they stand, where a dart is sewn to, and which way they are pressed."""

from __future__ import annotations

from collections.abc import Mapping

import numpy as np

from draft.base.arrays import Floats
from draft.base.notes import Span, error
from draft.base.units import Kind
from draft.garment.garment import TakeupOf
from draft.geometry.cubic import cross, norm, right_of
from draft.geometry.length import length, point_at, tangent_at
from draft.geometry.nearest import ON_EDGE, nearest_place
from draft.language import tree
from draft.plan.edges.true_over import trued_over
from draft.plan.plan import Run, Trace, Value, broken, is_broken, needs_of
from draft.plan.values import Values
from draft.words.directions import square_towards, unit_or_across
from draft.words.word import Kinds, one

_POINT, _LENGTH = one(Kind.POINT), one(Kind.LENGTH)
_PLACES: Kinds = frozenset({Kind.POINT, Kind.EDGE})
BESIDE = 1.0  # mm: nearer to the line that a dart folds on, a place does not tell its sides apart


def own_edge(values: Values, edge: tree.Ref, what: str) -> bool:
    """Whether an edge is named without its piece, as what lies on it is of the same one; a note where not."""
    if len(edge.parts) != 1:
        fact = f"{what} lies on an edge of its own piece"
        values.notes.append(error(fact, edge.span, f"try `{edge.parts[-1]}`"))
    return len(edge.parts) == 1


def takeup(values: Values, piece: str, written: tree.Takeup, edges: Mapping[str, tree.Edge]) -> TakeupOf[Value]:
    """The plan of a dart or pleat of a piece; `edges` are the piece's own, by name."""
    edge = values.compile(written.edge, piece, one(Kind.EDGE))
    if edge.broken or not own_edge(values, written.edge, "a dart or pleat"):
        edge = broken(written.span)
        return TakeupOf(written.span, written.name, written.edge.text, edge, edge)
    name = written.edge.parts[0]
    at = values.compile(written.at, piece, _POINT)
    to = sewn_to(values, piece, written)
    off = f"the middle of `{written.name}` does not lie on `{name}`"
    return TakeupOf(
        written.span,
        written.name,
        name,
        at=along(f"{piece}.{name}", at, "" if written.there else off),
        width=values.compile(written.width, piece, _LENGTH),
        to=to,
        length=values.compile_any(written.length, piece, _LENGTH),
        trued_over=trued_over(values, piece, written),
        let_in=is_let_in(name, written, edges),
        from_fold=_square_to_fold(values, piece, name, edges, edges[name].start),
        to_fold=_square_to_fold(values, piece, name, edges, edges[name].end),
        pressed=_pressed(values, piece, written, at, to),
        towards=written.pressed.text if written.pressed else "",
        there=values.compile_any(written.there, piece, one(Kind.NUMBER)),
    )


def is_let_in(name: str, written: tree.Takeup, edges: Mapping[str, tree.Edge]) -> bool:
    """Whether an edge is to run from end to end in one line once its darts are shut.

    It is one straight leg as it is drawn, and the dart says nothing of how far it is blended. The line is straight, but
    where it ends at a fold, which it meets square.
    """
    straight = [leg.sort for leg in edges[name].legs] == ["straight"]
    return written.trued and not written.trued_over and straight


def fold_at(name: str, end: tree.Ref, edges: Mapping[str, tree.Edge]) -> tree.Edge | None:
    """The fold that an edge meets at one of its ends."""
    beside = (other for other in edges.values() if other.name != name and other.finish.on_fold)
    return next((fold for fold in beside if end.parts in (fold.start.parts, fold.end.parts)), None)


def _square_to_fold(
    values: Values, piece: str, name: str, edges: Mapping[str, tree.Edge], end: tree.Ref
) -> Value | None:
    """The way in which an edge runs square to the fold at one of its ends, from its start towards its end."""
    fold = fold_at(name, end, edges)
    if fold is None:
        return None
    ends = (fold.start, fold.end, edges[name].start, edges[name].end)
    low, high, start, finish = found = [values.compile(at, piece, _POINT) for at in ends]

    def run(trace: Trace) -> Floats:
        along = unit_or_across(high.run(trace) - low.run(trace))[0]
        return square_towards(along, finish.run(trace) - start.run(trace))[0]

    return Value(end.span, Kind.DIRECTION, needs_of(*found), run, is_broken(found))


def along(edge: str, at: Value, off: str = "") -> Value:
    """How far along an edge, by its full name, a point on it lies; where it does not, `off` is the failure."""

    def run(trace: Trace) -> Floats:
        found, miss = nearest_place(trace.values[edge], trace.found(at.span, at.run))
        if off:
            trace.fail(at.span, off, miss > ON_EDGE)
        return found

    return Value(at.span, Kind.LENGTH, at.needs | {edge}, run, at.broken)


def sewn_to(values: Values, piece: str, written: tree.Takeup) -> Value | None:
    """The point that a dart is sewn to: its own, or so much short of it; None of a pleat."""
    to = values.compile_any(written.to, piece, _POINT)
    if to is None or not written.short:
        return to
    at, short = values.compile(written.at, piece, _POINT), values.compile(written.short, piece, _LENGTH)
    run = _shortened(written.short.span, written.name, to.run, at.run, short.run)
    return Value(to.span, Kind.POINT, needs_of(to, at, short), run, is_broken((to, at, short)))


def _shortened(span: Span, name: str, to: Run, at: Run, short: Run) -> Run:
    def run(trace: Trace) -> Floats:
        begin, end, less = to(trace), at(trace), short(trace)
        trace.fail(span, f"`{name}` cannot be sewn to beyond its point: so much short is less than none", less < 0)
        trace.fail(span, f"`{name}` is no longer than it is to stop short of its point", less >= norm(end - begin))
        return begin + less[:, None] * unit_or_across(end - begin)[0]

    return run


def _goes(written: tree.Takeup) -> str:
    return "is pressed" if written.to else "is laid"


def _pressed(values: Values, piece: str, written: tree.Takeup, at: Value, to: Value | None) -> Value | None:
    """Which way it is pressed: 1 towards the end of its edge, 0 towards the start; None where nothing is said."""
    if not written.pressed:
        return None
    ref = written.pressed
    towards = values.compile(ref, piece, _PLACES)
    if written.pressed.parts == written.edge.parts:
        fact = f"`{written.name}` lies on `{ref.text}`, so that does not say which way it {_goes(written)}"
        values.notes.append(error(fact, ref.span, "name an edge or a point to one side of it"))
        return broken(ref.span)
    edge = f"{piece}.{written.edge.parts[0]}"
    fact = f"`{ref.text}` lies in line with `{written.name}`, so it does not say which way that {_goes(written)}"

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
