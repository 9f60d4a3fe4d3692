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
from draft.plan.replacing import Whole, replaced
from draft.plan.values import Values
from draft.words.word import QUANTITIES, Kinds, one

_PLACES: Kinds = frozenset({Kind.POINT, Kind.ROW})
_LET: Kinds = QUANTITIES | {Kind.DIRECTION}


class Pieces:
    """Declares the names of every piece, and makes the plans of pieces once all names are declared."""

    def __init__(self, values: Values, templates: dict[str, tree.Template], branches: Branches) -> None:
        self.values = values
        self.notes = values.notes
        self.whole = Whole(templates, branches.settled, self.notes)
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
        piece = self._made_after(piece)
        if not piece.template:
            for line in piece.body.given:
                fact = f"`{piece.name}` is made from no template that could take `{line.name}`"
                self.notes.append(error(fact, line.span, "put it under `let`"))
            for taken in piece.body.without:
                fact = f"`{piece.name}` is made from no template that lines could be taken out of"
                self.notes.append(error(fact, taken.span, "take this line out"))
            return Filled(piece, piece.body, None)
        template = self.whole.of(piece.template, piece.name)
        return Filled(piece, replaced(template.body, piece.body, self.notes), template) if template else None

    def _made_after(self, piece: tree.Piece) -> tree.Piece:
        """A piece with the template that its heading or a line of its own names."""
        named = [*([piece.template] if piece.template else []), *(line.template for line in piece.body.after)]
        for second in named[1:]:
            related = [(named[0].span, "the first is named here")]
            fact = f"`{piece.name}` is made from one template, and two are named"
            self.notes.append(error(fact, second.span, "take one of the two out", related=related))
        return replace(piece, template=named[0]) if named else piece

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
        return lambda: Step.of(place.span, full, self.values.compile(place.value, piece, _PLACES))

    def plans(self, allowance: Value) -> list[PieceOf[Value, Value]]:
        """The plans of the declared pieces."""
        return [self.finishing.plan(filled, allowance) for filled in self.filled.values()]
