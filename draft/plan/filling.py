"""Pieces: templates filled in, points and edges declared under the piece's own name, outlines closed."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from draft.base.notes import error, nearest
from draft.base.units import Kind
from draft.garment.garment import PieceOf
from draft.language import tree
from draft.plan.branches import Branches
from draft.plan.edge_steps import EdgeSteps
from draft.plan.finishing import Filled, Finishing
from draft.plan.names import SEWN, Entry, twice
from draft.plan.plan import Step, Value, broken
from draft.plan.values import Values
from draft.words.word import QUANTITIES, Kinds, one

_POINT = one(Kind.POINT)
_LET: Kinds = QUANTITIES | {Kind.DIRECTION}


class Pieces:
    """Declares the names of every piece, and makes the plans of pieces once all names are declared."""

    def __init__(self, values: Values, templates: dict[str, tree.Template], branches: Branches) -> None:
        self.values = values
        self.notes = values.notes
        self.templates = templates
        self.branches = branches
        self.filled: dict[str, Filled] = {}
        self.edges = values.edges
        self.steps = EdgeSteps(values, self.edges)
        self.finishing = Finishing(values)

    # ---- declaring

    def declare(self, piece: tree.Piece) -> None:
        """Declare the piece's values, points and edges."""
        if piece.name in self.filled:
            first = self.filled[piece.name].piece.name_span
            related = [(first, "it is first defined here")]
            fix = "put its lines under the first one and take this heading out, or give it another name"
            fact = f"there are two pieces called `{piece.name}`"
            self.notes.append(error(fact, piece.name_span, fix, related=related))
            return
        filled = self._fill(piece)
        if not filled:
            return
        self.filled[piece.name] = filled
        for body in (piece.body, filled.template.body if filled.template else piece.body):
            self.notes += twice((setting.word, setting.span) for setting in body.settings)
        self.notes += twice((line.name, line.name_span) for line in piece.body.given if filled.template)
        self._declare_given(filled)
        body, name = filled.body, piece.name
        for line in body.values:
            self._declare(name, line, self._definition(name, line))
        for place in body.points:
            self._declare(name, place, self._place(name, place))
        for edge in body.edges:
            self.edges.setdefault(f"{name}.{edge.name}", edge)
            self._declare(name, edge, self.steps.edge(name, edge))
            full = f"{name}.{edge.name}{SEWN}"
            self.values.names.entries.setdefault(full, Entry(edge.name_span, self.steps.sewn(name, edge, body.takeups)))

    def _fill(self, piece: tree.Piece) -> Filled | None:
        if not piece.template:
            for line in piece.body.given:
                fact = f"`{piece.name}` is made from no template that could take `{line.name}`"
                self.notes.append(error(fact, line.span, "put it under `let`"))
            return Filled(piece, piece.body, None)
        template = self.templates.get(piece.template.text)
        if not template:
            known = (f"choose from {', '.join(self.templates)}",) if self.templates else ()
            hint = nearest(piece.template.text, self.templates) or known
            self.notes.append(error(f"there is no template called `{piece.template.text}`", piece.template.span, *hint))
            return None
        template = replace(template, body=self.branches.settled(template.body, piece.name))
        own, shared = self._without_twins(piece, template), template.body
        body = replace(
            shared,
            given=own.given,
            values=shared.values + own.values,
            points=shared.points + own.points,
            edges=shared.edges + own.edges,
            settings=own.settings + shared.settings,
            takeups=shared.takeups + own.takeups,
            notches=shared.notches + own.notches,
            marks=shared.marks + own.marks,
            corners=shared.corners + own.corners,
        )
        return Filled(piece, body, template)

    def _without_twins(self, piece: tree.Piece, template: tree.Template) -> tree.Contents:
        """What is a piece's own, less what its template has by the same name; a note on each of these."""
        body, shared = piece.body, template.body
        pairs = ((body.values, shared.values), (body.points, shared.points), (body.edges, shared.edges))
        twins = []
        for own, theirs in pairs:
            names = {line.name for line in theirs}
            twins += [line for line in own if line.name in names]
        for line in twins:
            fact = f"`{line.name}` belongs to `{template.name}`, and a piece cannot replace it"
            fix = f"give `{template.name}` an `input` for what differs, or move `{line.name}` from it to each piece"
            self.notes.append(error(fact, line.name_span, fix))
        return replace(
            body,
            values=tuple(line for line in body.values if line not in twins),
            points=tuple(line for line in body.points if line not in twins),
            edges=tuple(line for line in body.edges if line not in twins),
        )

    def _declare(self, piece: str, named: tree.Named, make: Callable[[], Step]) -> None:
        self.values.names.declare(f"{piece}.{named.name}", named, make)

    def _declare_given(self, filled: Filled) -> None:
        piece, inputs = filled.piece, {i.name: i for i in filled.body.inputs}
        given = {line.name: line for line in filled.body.given}
        if filled.template:
            for line in filled.body.given:
                if line.name not in inputs:
                    hint = nearest(line.name, inputs) or (
                        f"choose from {', '.join(inputs)}" if inputs else "take it out",
                    )
                    fact = f"`{filled.template.name}` has no input called `{line.name}`"
                    self.notes.append(error(fact, line.name_span, *hint))
        for name, wanted in inputs.items():
            expr = given[name].value if name in given else wanted.default
            if expr is None:
                self._note_missing(filled, wanted)
            inside = None if name in given else piece.name
            make = self._input(piece.name, wanted, given.get(name, wanted), expr, inside)
            self._declare(piece.name, wanted, make)

    def _note_missing(self, filled: Filled, wanted: tree.Input) -> None:
        assert filled.template and filled.piece.template
        fact = f"`{filled.template.name}` needs `{wanted.name}`, {wanted.kind.value}: {wanted.words or 'see below'}"
        hint = f"add a line `{wanted.name} = ...` under `{filled.piece.name}`"
        self.notes.append(error(fact, filled.piece.template.span, hint, related=[(wanted.name_span, "asked for here")]))

    # ---- making steps

    def _input(
        self, piece: str, wanted: tree.Input, at: tree.Named, expr: tree.Expr | None, inside: str | None
    ) -> Callable[[], Step]:
        def make() -> Step:
            value = self.values.compile(expr, inside, one(wanted.kind)) if expr else broken(at.span, wanted.kind)
            return Step.of(at.span, f"{piece}.{wanted.name}", value, wanted.words)

        return make

    def _definition(self, piece: str, line: tree.Definition) -> Callable[[], Step]:
        full = f"{piece}.{line.name}"
        return lambda: Step.of(line.span, full, self.values.compile(line.value, piece, _LET), line.words)

    def _place(self, piece: str, place: tree.Place) -> Callable[[], Step]:
        full = f"{piece}.{place.name}"
        return lambda: Step.of(place.span, full, self.values.compile(place.value, piece, _POINT))

    def plans(self, allowance: Value) -> list[PieceOf[Value, Value]]:
        """The plans of the declared pieces."""
        return [self.finishing.plan(filled, allowance) for filled in self.filled.values()]
