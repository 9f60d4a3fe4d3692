"""The steps that draw an edge: its points, the directions asked for along it, and its length once it is sewn."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np

from draft.base.arrays import Floats
from draft.base.notes import Span, error
from draft.base.record import dataclass
from draft.base.units import Kind, in_centimetres
from draft.garment.garment import TakeupOf
from draft.geometry.dart import Taken, true_darts
from draft.geometry.length import length
from draft.geometry.nearest import ON_EDGE, tangent_near
from draft.geometry.of_length import of_length
from draft.language import tree
from draft.plan.edges.edges import LegShape, Way, draw
from draft.plan.edges.taking_up import takeup
from draft.plan.edges.ways import square_to
from draft.plan.names import FLAT, SEWN
from draft.plan.plan import Run, Step, Trace, Value, broken, is_broken, needs_of
from draft.plan.values import Values
from draft.words.directions import square_towards
from draft.words.word import one

_POINT, _DIRECTION, _LENGTH = one(Kind.POINT), one(Kind.DIRECTION), one(Kind.LENGTH)


class EdgeSteps:
    """Makes the steps of edges; `edges` has those of all pieces by their full names."""

    def __init__(self, values: Values, edges: dict[str, tree.Edge]) -> None:
        self.values = values
        self.notes = values.notes
        self.edges = edges

    def edge(self, piece: str, edge: tree.Edge, called: str = "") -> Callable[[], Step]:
        """How the step that draws an edge is made; it is `called` by another name where it is drawn for one."""
        full = called or f"{piece}.{edge.name}"

        def make() -> Step:
            places = self._knots(edge)
            knots = tuple(self.values.compile(ref, piece, _POINT) for ref in places)
            legs = tuple(self._leg_ways(piece, edge, leg, k, places) for k, leg in enumerate(edge.legs))
            wanted = self.values.compile_any(edge.measuring, piece, _LENGTH)
            made = (*knots, *legs, wanted)
            if is_broken(made):
                return Step.of(edge.span, full, broken(edge.span, Kind.EDGE))
            run = _drawing(tuple(k.run for k in knots), legs)
            run = _measured(edge, run, wanted) if wanted else run
            needs = needs_of(*knots, wanted).union(*(leg.needs for leg in legs))
            return Step(edge.span, full, Kind.EDGE, needs, run)

        return make

    def sewn(self, piece: str, edge: tree.Edge) -> Callable[[], Step]:
        """How the step is made that finds the length of an edge once it is sewn: that of its elastic, if it has one."""
        elastic = edge.finish.elastic

        def as_it_lies() -> Step:
            flat = self.values.found(edge.span, f"{piece}.{edge.name}{FLAT}")
            return Step.of(edge.span, f"{piece}.{edge.name}{SEWN}", flat)

        if elastic is None:
            return as_it_lies

        def make() -> Step:
            relaxed = self.values.compile(elastic, piece, _LENGTH)
            cloth = self.values.found(edge.span, f"{piece}.{edge.name}{FLAT}")
            run = _drawn_in(edge, relaxed, cloth)
            value = Value(edge.span, Kind.LENGTH, needs_of(relaxed, cloth), run, is_broken((relaxed, cloth)))
            return Step.of(edge.span, f"{piece}.{edge.name}{SEWN}", value)

        return make

    def flat(self, piece: str, edge: tree.Edge, takeups: tuple[tree.Takeup, ...]) -> Callable[[], Step]:
        """How the step is made that finds the length of an edge once its take-ups are closed and it is gathered."""

        def make() -> Step:
            path = self.values.compile(tree.Ref(edge.name_span, (edge.name,)), piece, one(Kind.EDGE))
            on_it = [takeup for takeup in takeups if takeup.edge.parts == (edge.name,)]
            lines = self._lines(piece) if on_it else {}
            trued = any(takeup.trued for takeup in on_it)
            taken = tuple(self._taken(piece, takeup, lines, trued) for takeup in on_it)
            share = self.values.compile_any(edge.finish.gathered, piece, one(Kind.NUMBER))
            parts = (path, *(value for one in taken for value in vars(one).values() if isinstance(value, Value)))
            parts += (share,) if share else ()
            sewn = Value(edge.span, Kind.LENGTH, needs_of(*parts), _sewing(path, taken, share), is_broken(parts))
            return Step.of(edge.span, f"{piece}.{edge.name}{FLAT}", sewn)

        return make

    def _lines(self, piece: str) -> dict[str, tree.Edge]:
        return {edge.name: edge for full, edge in self.edges.items() if full == f"{piece}.{edge.name}"}

    def _taken(
        self, piece: str, written: tree.Takeup, lines: dict[str, tree.Edge], trued: bool
    ) -> TakeupOf[Value | None]:
        """Where it stands, and how it is pressed, counts only on an edge that is trued across one."""
        if trued:
            return takeup(self.values, piece, written, lines)  # type: ignore[return-value]
        width = self.values.compile(written.width, piece, _LENGTH)
        return TakeupOf(written.span, written.name, written.edge.text, None, width)

    def _knots(self, edge: tree.Edge) -> list[tree.Ref]:
        if not edge.legs:
            self.notes.append(error(f"`{edge.name}` does not say how it runs", edge.span, "add `straight` or `curve`"))
        inner = []
        for leg in edge.legs[:-1]:
            if leg.to is None:
                fix = "say where it ends, as in `straight to waist_side`"
                self.notes.append(error("only the last leg of an edge runs to its end", leg.span, fix))
            inner.append(leg.to or edge.end)
        last = edge.legs[-1] if edge.legs else None
        if last and last.to and last.to.parts != edge.end.parts:
            fact = f"the last leg ends at `{last.to.text}`, but the edge at `{edge.end.text}`"
            self.notes.append(error(fact, last.to.span, "add a leg for the rest, or leave out `to`"))
        return [edge.start, *inner, edge.end]

    def _leg_ways(self, piece: str, edge: tree.Edge, leg: tree.Leg, k: int, places: list[tree.Ref]) -> _Ways:
        last = len(edge.legs) - 1
        if (leg.leaving and k > 0) or (leg.arriving and k < last):
            word = "leaving" if leg.leaving and k > 0 else "arriving"
            fact = f"`{word}` belongs to the {'first' if word == 'leaving' else 'last'} leg of an edge"
            fix = "use `heading` after the point that a leg runs to, as in `curve to waist_side heading down`"
            self.notes.append(error(fact, leg.span, fix))
            return _Ways(leg, _bad(leg.span), None, None)
        about = self.values.compile_any(leg.about, piece, _POINT if leg.sort == "arc" else one(Kind.EDGE))
        along = tuple(self.values.compile(other, piece, one(Kind.EDGE)) for other in leg.along)
        if is_broken((about, along)):
            return _Ways(leg, None, None, about, along)
        start = self._way(piece, edge, leg.leaving, edge.start)
        end = self._way(piece, edge, leg.arriving or leg.heading, places[k + 1])
        return _Ways(leg, start, end, about, along)

    def _way(self, piece: str, edge: tree.Edge, way: tree.Way | None, at: tree.Ref) -> _Way | None:
        if way is None:
            return None
        if not isinstance(way, tree.SquareTo):
            value = self.values.compile(way, piece, _DIRECTION)
            return _Way(value, _fixed(value))
        other = self.values.compile(way.edge, piece, one(Kind.EDGE))
        if other.broken:
            return _bad(way.span)
        full = self.values.names.find(way.edge, piece)
        assert full
        neighbour = self.edges[full]
        ends = (neighbour.start.parts, neighbour.end.parts)
        if at.parts not in ends and not self._is_corner(full.rpartition(".")[0], edge, at):
            return _Way(other, _square_on(other, self.values.compile(at, piece, _POINT), way, at))
        if at.parts not in ends:
            fact = f"`{way.edge.text}` does not begin or end at `{at.text}`"
            self.notes.append(error(fact, way.span, "name an edge that meets this one there"))
            return _bad(way.span)
        return _Way(other, _square(other, at_start=ends[0] == at.parts))

    def _is_corner(self, piece: str, edge: tree.Edge, at: tree.Ref) -> bool:
        """Whether another edge of a piece begins or ends at a point."""
        others = [one for full, one in self.edges.items() if full.rpartition(".")[0] == piece and one is not edge]
        return any(at.parts in (one.start.parts, one.end.parts) for one in others)


@dataclass(frozen=True)
class _Way:
    """A direction that an edge is to take: what it leans on, and how it is found."""

    on: Value
    find: Callable[[Trace], Way]


@dataclass(frozen=True)
class _Ways:
    """A leg with the directions at its ends, and what it turns about or follows."""

    leg: tree.Leg
    start: _Way | None
    end: _Way | None
    about: Value | None
    along: tuple[Value, ...] = ()

    @property
    def needs(self) -> frozenset[str]:
        return needs_of(*(way.on for way in (self.start, self.end) if way), self.about, *self.along)

    def shape(self, trace: Trace) -> LegShape:
        about = self.about.run(trace) if self.about else None
        along = tuple(edge.run(trace) for edge in self.along)
        ways = _found(self.start, trace), _found(self.end, trace)
        return LegShape(self.leg.sort, *ways, about, along, self.leg.evenly)


def _nowhere(trace: Trace) -> Way:
    raise AssertionError("a direction with a mistake is never drawn")


def _bad(span: Span) -> _Way:
    return _Way(broken(span), _nowhere)


def _fixed(value: Value) -> Callable[[Trace], Way]:
    def find(trace: Trace) -> Way:
        direction = value.run(trace)
        return lambda chord: direction

    return find


def _square(edge: Value, at_start: bool) -> Callable[[Trace], Way]:
    def find(trace: Trace) -> Way:
        path = edge.run(trace)
        return lambda chord: square_to(path, at_start, chord)

    return find


def _square_on(edge: Value, place: Value, way: tree.SquareTo, at: tree.Ref) -> Callable[[Trace], Way]:
    """Square to an edge at a point that lies on it between its ends."""

    def find(trace: Trace) -> Way:
        along, off = tangent_near(edge.run(trace), place.run(trace))
        trace.fail(way.span, f"`{at.text}` does not lie on `{way.edge.text}`", off > ON_EDGE)
        return lambda chord: square_towards(along, chord)[0]

    return find


def _drawing(knots: tuple[Run, ...], legs: tuple[_Ways, ...]) -> Run:
    def run(trace: Trace) -> Floats:
        since = len(trace.failures)
        drawn = draw([knot(trace) for knot in knots], [leg.shape(trace) for leg in legs])
        told = np.zeros(trace.count, dtype=bool)
        for _, _, where in trace.failures[since:]:  # what could not be laid is not told of its ends as well
            told = told | where
        for k, fact, where in drawn.failures:
            trace.fail(legs[k].leg.span, fact, where & ~told)
        return drawn.path

    return run


def _measured(edge: tree.Edge, draw_free: Run, wanted: Value) -> Run:
    def run(trace: Trace) -> Floats:
        asked = np.broadcast_to(wanted.run(trace), (trace.count,))
        path, fits = of_length(draw_free(trace), asked)
        off = length(path) - asked
        for where, fact in ((off > 0, _TOO_SHORT), (off < 0, _TOO_LONG)):
            if (missed := where & ~fits & np.isfinite(off)).any():
                by = in_centimetres(float(np.abs(off[missed]).max()), 2)
                trace.fail(edge.span, fact.format(name=edge.name, by=by), missed)
        return path

    return run


_TOO_SHORT = "`{name}` cannot be drawn so short: its points lie {by} further apart than the length asked for"
_TOO_LONG = "`{name}` cannot be drawn so long: even at its fullest it falls {by} short of the length asked for"


def _sewing(path: Value, takeups: tuple[TakeupOf[Value | None], ...], share: Value | None) -> Run:
    def run(trace: Trace) -> Floats:
        drawn = path.run(trace)
        taken = [_on(takeup, trace) for takeup in takeups]
        if any(one.over is not None for one in taken):
            drawn, taken = true_darts(drawn, taken)
        sewn = length(drawn)
        for place in taken:
            sewn = sewn - place.width
        return sewn * share.run(trace) if share else sewn

    return run


def _drawn_in(edge: tree.Edge, relaxed: Value, cloth: Value) -> Run:
    """The elastic's length, where it draws the cloth in."""

    def run(trace: Trace) -> Floats:
        elastic, flat = relaxed.run(trace), cloth.run(trace)
        trace.fail(relaxed.span, f"the elastic of `{edge.name}` has no length", elastic <= 0)
        trace.fail(relaxed.span, f"the elastic of `{edge.name}` is no shorter than its edge", elastic >= flat)
        return np.asarray(np.broadcast_to(elastic, flat.shape))

    return run


def _on(takeup: TakeupOf[Value | None], trace: Trace) -> Taken:
    given = (takeup.at, takeup.width, takeup.to, takeup.trued_over, takeup.pressed,
             takeup.bow_together, takeup.from_fold, takeup.to_fold)  # fmt: skip
    at, width, to, over, pressed, *ways = (value.run(trace) if value else None for value in given)
    assert width is not None
    at = np.zeros(trace.count) if at is None else at
    return Taken(at, width, to, over, takeup.let_in, pressed, *ways)


def _found(way: _Way | None, trace: Trace) -> Way | None:
    return way.find(trace) if way else None
