"""Pieces: templates filled in, points and edges declared under the piece's own name, outlines closed."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace

from draft.geometry.length import length
from draft.geometry.measured import of_length
from draft.language import tree
from draft.notes import error, nearest
from draft.plan.choices import Choices
from draft.plan.edges import LegShape, Way, draw
from draft.plan.names import SEWN, Entry
from draft.plan.outline import in_order
from draft.plan.plan import EdgePlan, FoldPlan, MarkPlan, NotchPlan, PiecePlan, Run, Step, Trace, Value
from draft.plan.values import Values
from draft.plan.ways import square_to
from draft.units import Kind
from draft.words.word import QUANTITIES, Floats, Kinds, one

_POINT, _DIRECTION, _LENGTH = one(Kind.POINT), one(Kind.DIRECTION), one(Kind.LENGTH)
_LET: Kinds = QUANTITIES | {Kind.DIRECTION}
MOST_CUT = 100  # more copies of one piece in one garment are a slip of the pen


@dataclass(frozen=True)
class _Filled:
    """A piece with its template's lines, if it has one."""

    piece: tree.Piece
    body: tree.Body
    template: tree.Template | None


class Pieces:
    """Declares the names of every piece, and makes the plans of pieces once all names are declared."""

    def __init__(self, values: Values, templates: dict[str, tree.Template], choices: Choices) -> None:
        self.values = values
        self.notes = values.notes
        self.templates = templates
        self.choices = choices
        self.filled: dict[str, _Filled] = {}
        self.edges: dict[str, tree.Edge] = {}

    # ---- declaring

    def declare(self, piece: tree.Piece) -> None:
        """Declare the piece's values, points and edges."""
        if piece.name in self.filled:
            first = self.filled[piece.name].piece.name_span
            related = [(first, "it is first defined here")]
            self.notes.append(error(f"there are two pieces called `{piece.name}`", piece.name_span, related=related))
            return
        filled = self._fill(piece)
        if not filled:
            return
        self.filled[piece.name] = filled
        self._declare_given(filled)
        body, name = filled.body, piece.name
        for line in body.values:
            self._declare(name, line, self._definition(name, line))
        for place in body.points:
            self._declare(name, place, self._place(name, place))
        for edge in body.edges:
            self.edges.setdefault(f"{name}.{edge.name}", edge)
            self._declare(name, edge, self._edge(name, edge))
            full = f"{name}.{edge.name}{SEWN}"
            self.values.names.entries.setdefault(full, Entry(edge.name_span, self._sewn(name, edge, body.folds)))

    def _fill(self, piece: tree.Piece) -> _Filled | None:
        if not piece.template:
            for line in piece.body.given:
                fact = f"`{piece.name}` is made from no template that could take `{line.name}`"
                self.notes.append(error(fact, line.span, "put it under `let`"))
            return _Filled(piece, replace(piece.body, edges=self.choices.kept(piece.body.edges)), None)
        template = self.templates.get(piece.template.text)
        if not template:
            hint = nearest(piece.template.text, self.templates)
            self.notes.append(error(f"there is no template called `{piece.template.text}`", piece.template.span, *hint))
            return None
        own, shared = piece.body, template.body
        body = replace(
            shared,
            given=own.given,
            values=shared.values + own.values,
            points=shared.points + own.points,
            edges=self.choices.kept(shared.edges + own.edges),
            settings=own.settings + shared.settings,
            folds=shared.folds + own.folds,
            notches=shared.notches + own.notches,
            marks=shared.marks + own.marks,
            corners=shared.corners + own.corners,
        )
        return _Filled(piece, body, template)

    def _declare(self, piece: str, named: tree.Named, make: Callable[[], Step | None]) -> None:
        self.values.names.declare(f"{piece}.{named.name}", named, make)

    def _declare_given(self, filled: _Filled) -> None:
        piece, inputs = filled.piece, {i.name: i for i in filled.body.inputs}
        given = {line.name: line for line in filled.body.given}
        if filled.template:
            for line in filled.body.given:
                if line.name not in inputs:
                    hint = nearest(line.name, inputs) or (f"it takes {', '.join(inputs) or 'nothing'}",)
                    fact = f"`{filled.template.name}` has no input called `{line.name}`"
                    self.notes.append(error(fact, line.name_span, *hint))
        for name, wanted in inputs.items():
            expr = given[name].value if name in given else wanted.default
            if expr is None:
                self._note_missing(filled, wanted)
            inside = None if name in given else piece.name
            make = self._input(piece.name, wanted, given.get(name, wanted), expr, inside)
            self._declare(piece.name, wanted, make)

    def _note_missing(self, filled: _Filled, wanted: tree.Input) -> None:
        assert filled.template and filled.piece.template
        fact = f"`{filled.template.name}` needs `{wanted.name}`, {wanted.kind.value}: {wanted.words or 'see its input'}"
        hint = f"add a line `{wanted.name} = ...` under `{filled.piece.name}`"
        self.notes.append(error(fact, filled.piece.template.span, hint, related=[(wanted.name_span, "asked for here")]))

    # ---- making steps

    def _input(
        self, piece: str, wanted: tree.Input, at: tree.Named, expr: tree.Expr | None, inside: str | None
    ) -> Callable[[], Step | None]:
        def make() -> Step | None:
            value = self.values.compile(expr, inside, one(wanted.kind)) if expr else None
            return _step(f"{piece}.{wanted.name}", at, value, wanted.words)

        return make

    def _definition(self, piece: str, line: tree.Definition) -> Callable[[], Step | None]:
        return lambda: _step(f"{piece}.{line.name}", line, self.values.compile(line.value, piece, _LET), line.words)

    def _place(self, piece: str, place: tree.Place) -> Callable[[], Step | None]:
        return lambda: _step(f"{piece}.{place.name}", place, self.values.compile(place.value, piece, _POINT))

    def _edge(self, piece: str, edge: tree.Edge) -> Callable[[], Step | None]:
        def make() -> Step | None:
            places = self._knots(edge)
            knots = [self.values.compile(ref, piece, _POINT) for ref in places]
            ways = [self._leg_ways(piece, edge, leg, k, places) for k, leg in enumerate(edge.legs)]
            if any(knot is None for knot in knots) or any(way is None for way in ways):
                return None
            used = [knot for knot in knots if knot]
            legs = [way for way in ways if way]
            needs = frozenset[str]().union(*(k.needs for k in used), *(leg.needs for leg in legs))
            run = _drawing(tuple(k.run for k in used), tuple(legs))
            if edge.measuring:
                wanted = self.values.compile(edge.measuring, piece, _LENGTH)
                if not wanted:
                    return None
                needs, run = needs | wanted.needs, _measured(edge, run, wanted)
            return Step(edge.span, f"{piece}.{edge.name}", Kind.EDGE, needs, run)

        return make

    def _sewn(self, piece: str, edge: tree.Edge, folds: tuple[tree.Fold, ...]) -> Callable[[], Step | None]:
        """The length of an edge once its darts and pleats are closed and its gathers drawn up."""

        def make() -> Step | None:
            path = self.values.compile(tree.Ref(edge.name_span, (edge.name,)), piece, one(Kind.EDGE))
            taken = [self.values.compile(f.width, piece, _LENGTH) for f in folds if f.edge.parts == (edge.name,)]
            share = self.values.compile(edge.gathered, piece, one(Kind.NUMBER)) if edge.gathered else None
            if not path or any(width is None for width in taken) or (edge.gathered and not share):
                return None
            widths = tuple(width for width in taken if width)
            parts = (path, *widths, *((share,) if share else ()))
            needs = frozenset[str]().union(*(value.needs for value in parts))
            return Step(edge.span, f"{piece}.{edge.name}{SEWN}", Kind.LENGTH, needs, _sewing(path, widths, share))

        return make

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

    def _leg_ways(self, piece: str, edge: tree.Edge, leg: tree.Leg, k: int, places: list[tree.Ref]) -> _Ways | None:
        last = len(edge.legs) - 1
        if (leg.leaving and k > 0) or (leg.arriving and k < last):
            word = "leaving" if leg.leaving and k > 0 else "arriving"
            fact = f"`{word}` belongs to the {'first' if word == 'leaving' else 'last'} leg of an edge"
            self.notes.append(error(fact, leg.span, "use `heading` after the point that the leg runs to"))
            return None
        about = self._about(piece, leg)
        if leg.about and not about:
            return None
        start = self._way(piece, edge, leg.leaving, edge.start)
        end = self._way(piece, edge, leg.arriving or leg.heading, places[k + 1])
        if start is _BAD or end is _BAD:
            return None
        return _Ways(leg, start, end, about)

    def _about(self, piece: str, leg: tree.Leg) -> Value | None:
        """The centre of an arc, or the edge that a leg follows."""
        if leg.about is None:
            return None
        return self.values.compile(leg.about, piece, _POINT if leg.sort == "arc" else one(Kind.EDGE))

    def _way(self, piece: str, edge: tree.Edge, way: tree.Way | None, at: tree.Ref) -> _Way | None:
        if way is None:
            return None
        if not isinstance(way, tree.SquareTo):
            value = self.values.compile(way, piece, _DIRECTION)
            return _Way(value.needs, _fixed(value)) if value else _BAD
        other = self.values.compile(way.edge, piece, one(Kind.EDGE))
        full = self.values.names.find(way.edge, piece) if other else None
        if not other or not full:
            return _BAD
        neighbour = self.edges[full]
        ends = (neighbour.start.parts, neighbour.end.parts)
        if at.parts not in ends:
            fact = f"`{way.edge.text}` does not begin or end at `{at.text}`"
            self.notes.append(error(fact, way.span, "name an edge that meets this one there"))
            return _BAD
        return _Way(other.needs, _square(other, at_start=ends[0] == at.parts))

    # ---- the finished plan of a piece

    def plan(self, name: str, allowance: Value) -> PiecePlan | None:
        """The plan of a declared piece, or None with notes."""
        filled = self.filled[name]
        settings = _settings(filled.body)
        grain = self._direction(name, settings.get("grain"), "up")
        stretch = self._direction(name, settings.get("stretch"), "across")
        ordered = in_order(filled.piece, filled.body, self.notes)
        corners = self._corners(name, filled.body)
        edges = [self._edge_plan(name, edge, allowance, corners.get(edge.end.parts, "carried")) for edge in ordered]
        cut = self._cut(filled, settings.get("cut"))
        if not grain or not stretch or not edges or any(edge is None for edge in edges):
            return None
        title = settings.get("title")
        shown = str(title.value) if title else name.replace("_", " ")
        folds = [self._fold(name, fold) for fold in filled.body.folds]
        notches = [self._notch(name, notch) for notch in filled.body.notches]
        marks = [self._mark(name, mark) for mark in filled.body.marks]
        if any(part is None for part in [*folds, *notches, *marks]):
            return None
        return PiecePlan(
            filled.piece.span,
            name,
            shown,
            tuple(e for e in edges if e),
            *cut,
            grain,
            stretch,
            tuple(fold for fold in folds if fold),
            tuple(notch for notch in notches if notch),
            tuple(mark for mark in marks if mark),
        )

    def _corners(self, piece: str, body: tree.Body) -> dict[tuple[str, ...], tree.CornerKind]:
        """The corners that the file decides, by the point at each."""
        ends = {edge.end.parts for edge in body.edges}
        for corner in body.corners:
            if self.values.names.find(corner.at, piece) and corner.at.parts not in ends:
                fact = f"no corner of `{piece}` lies at `{corner.at.text}`"
                self.notes.append(error(fact, corner.at.span, "name the point where two edges meet"))
        return {corner.at.parts: corner.kind for corner in body.corners}

    def _notch(self, piece: str, notch: tree.SetNotch) -> NotchPlan | None:
        place = tree.Call(notch.span, "on_edge", (notch.edge, notch.distance, notch.near))
        at = self.values.compile(place, piece, _POINT)
        if not at or not self._own(notch.edge, "a notch"):
            return None
        return NotchPlan(notch.span, notch.edge.parts[0], at, 2 if notch.double else 1)

    def _mark(self, piece: str, mark: tree.Mark) -> MarkPlan | None:
        at = [self.values.compile(ref, piece, _POINT) for ref in mark.at]
        if any(point is None for point in at):
            return None
        return MarkPlan(mark.span, mark.name, mark.drill, tuple(p for p in at if p), mark.words)

    def _own(self, edge: tree.Ref, what: str) -> bool:
        if len(edge.parts) != 1:
            fact = f"{what} lies on an edge of its own piece"
            self.notes.append(error(fact, edge.span, f"try `{edge.parts[-1]}`"))
        return len(edge.parts) == 1

    def _fold(self, piece: str, fold: tree.Fold) -> FoldPlan | None:
        edge = self.values.compile(fold.edge, piece, one(Kind.EDGE))
        if edge and not self._own(fold.edge, "a dart or pleat"):
            return None
        width = self.values.compile(fold.width, piece, _LENGTH)
        at = self.values.compile(fold.at, piece, _POINT)
        to = self.values.compile(fold.to, piece, _POINT) if fold.to else None
        length = self.values.compile(fold.length, piece, _LENGTH) if fold.length else None
        if not edge or not width or not at or (fold.to and not to) or (fold.length and not length):
            return None
        return FoldPlan(fold.span, fold.name, fold.edge.parts[0], width, at, to, length)

    def _direction(self, piece: str, setting: tree.Setting | None, default: str) -> Value | None:
        if setting is None:
            return self.values.compile(tree.Call(self.filled[piece].piece.name_span, default, ()), piece)
        assert not isinstance(setting.value, str)
        return self.values.compile(setting.value, piece, _DIRECTION)

    def _edge_plan(self, piece: str, edge: tree.Edge, allowance: Value, end_corner: tree.CornerKind) -> EdgePlan | None:
        full = f"{piece}.{edge.name}"
        own = self.values.compile(edge.allowance, piece, _LENGTH) if edge.allowance else allowance
        if own is None or full not in self.values.steps:
            return None
        if edge.on_fold and (len(edge.legs) != 1 or edge.legs[0].sort != "straight"):
            self.notes.append(error(f"`{edge.name}` lies on the fold, so it must be one straight leg", edge.span))
        gathered = self.values.compile(edge.gathered, piece, one(Kind.NUMBER)) if edge.gathered else None
        return EdgePlan(edge.span, edge.name, full, own, edge.on_fold, edge.turned_up, gathered, end_corner)

    def _cut(self, filled: _Filled, setting: tree.Setting | None) -> tuple[int, tree.CutAs]:
        name = filled.piece.name
        if setting is None:
            self.notes.append(
                error(f"`{name}` does not say how many to cut", filled.piece.name_span, "add a line `cut 1`")
            )
            return 1, ""
        number, _, cut_as = str(setting.value).partition(" ")
        count = float(number)
        if count != int(count) or not 1 <= count <= MOST_CUT:
            self.notes.append(error(f"`{number}` is not a number of pieces", setting.value_span, "try `cut 2`"))
        elif cut_as == "as a pair" and count % 2:
            self.notes.append(
                error("a pair is two pieces", setting.value_span, f"try `cut {int(count) + 1} as a pair`")
            )
        return int(count), cut_as  # type: ignore[return-value]


@dataclass(frozen=True)
class _Way:
    """A direction that an edge is to take: the steps that it needs, and how it is found."""

    needs: frozenset[str]
    find: Callable[[Trace], Way]


@dataclass(frozen=True)
class _Ways:
    """A leg with the directions at its ends, and what it turns about or follows."""

    leg: tree.Leg
    start: _Way | None
    end: _Way | None
    about: Value | None

    @property
    def needs(self) -> frozenset[str]:
        return frozenset[str]().union(*(part.needs for part in (self.start, self.end, self.about) if part))

    def shape(self, trace: Trace) -> LegShape:
        about = self.about.run(trace) if self.about else None
        return LegShape(self.leg.sort, _found(self.start, trace), _found(self.end, trace), about)


def _nowhere(trace: Trace) -> Way:
    raise AssertionError("a direction with a mistake is never drawn")


_BAD = _Way(frozenset(), _nowhere)


def _step(full: str, at: tree.Node, value: Value | None, words: str = "") -> Step | None:
    return Step(at.span, full, value.kind, value.needs, value.run, words) if value else None


def _settings(body: tree.Body) -> dict[str, tree.Setting]:
    found: dict[str, tree.Setting] = {}
    for setting in body.settings:
        found.setdefault(setting.word, setting)
    return found


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


def _drawing(knots: tuple[Run, ...], legs: tuple[_Ways, ...]) -> Run:
    def run(trace: Trace) -> Floats:
        drawn = draw([knot(trace) for knot in knots], [leg.shape(trace) for leg in legs])
        for k, fact, where in drawn.failures:
            trace.fail(legs[k].leg.span, fact, where)
        return drawn.path

    return run


def _measured(edge: tree.Edge, draw_free: Run, wanted: Value) -> Run:
    def run(trace: Trace) -> Floats:
        path, fits = of_length(draw_free(trace), wanted.run(trace))
        trace.fail(edge.span, f"`{edge.name}` cannot be drawn to the length asked for", ~fits)
        return path

    return run


def _sewing(path: Value, widths: tuple[Value, ...], share: Value | None) -> Run:
    def run(trace: Trace) -> Floats:
        sewn = length(path.run(trace))
        for width in widths:
            sewn = sewn - width.run(trace)
        return sewn * share.run(trace) if share else sewn

    return run


def _found(way: _Way | None, trace: Trace) -> Way | None:
    return way.find(trace) if way else None
