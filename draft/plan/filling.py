"""Pieces: templates filled in, points and edges declared under the piece's own name, outlines closed."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace

import numpy as np

from draft.base.notes import error, nearest
from draft.base.units import Kind
from draft.garment.garment import JoinOf, PieceOf
from draft.language import tree
from draft.plan.edges.at_rows import at_each
from draft.plan.edges.edge_steps import EdgeSteps
from draft.plan.files.replacing import Whole, replaced, unknown_again
from draft.plan.finishing import Filled, Finishing
from draft.plan.names import FLAT, SEWN, Entry, twice
from draft.plan.offered_choices import Choosing
from draft.plan.paper.stage import Sheets, Stage
from draft.plan.paper.tracing import Tracing, drawn_on, is_turned, unknown_names
from draft.plan.plan import Step, Value, broken
from draft.plan.sewn.rejoining import are_parted, rejoined, with_cuts
from draft.plan.styles.branches import Branches
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
        self.choosing = Choosing(values.settings, self.notes)
        self.filled: dict[str, Filled] = {}
        self.edges = values.edges
        self.steps = EdgeSteps(values, self.edges)
        self.finishing = Finishing(values)
        self.sheets = Sheets(values)
        self.tracing = Tracing(self.sheets, self.steps, self._draft)
        self.written: dict[str, tree.Piece] = {}
        self._traced: list[str] = []
        self._at_fault: set[str] = set()
        """Sheets whose beginning has a mistake, which is told once."""

    # ---- declaring

    def declare_all(self, pieces: Sequence[tree.Piece]) -> None:
        """Declare all pieces and blocks, each after those that it is traced from."""
        for piece in pieces:
            self.written.setdefault(piece.name, piece)
        for piece in pieces:
            if self.written[piece.name] is not piece or piece.name not in {*self.filled, *self._at_fault}:
                self.declare(piece)

    def _draft(self, asked: tree.Ref) -> Stage | None:
        """The state of a draft that is traced or laid."""
        name = asked.text
        if name in self._at_fault:
            return None
        if name not in self.written:
            fact = f"there is no block or piece called `{name}`"
            self.notes.append(error(fact, asked.span, *nearest(name, self.written)))
            return None
        if name in self._traced:
            ring = " from ".join(f"`{one}`" for one in [*self._traced[self._traced.index(name) :], name])
            self.notes.append(error(f"these are traced from one another in a ring: {ring}", asked.span))
            return None
        if name not in self.filled:
            self.declare(self.written[name])
        return self.sheets.stages.get(name)

    def declare(self, piece: tree.Piece) -> None:
        """Declare the values, points and edges of a piece or block."""
        if self._is_second(piece):
            return
        filled = self._fill(piece)
        if not filled:
            return
        self.filled[piece.name] = filled
        self._note_twice(filled)
        self._declare_given(filled)
        base = self._base(piece)
        if base is None and (piece.origin or piece.body.moves):
            self._set_aside(piece)
            return
        kept: frozenset[str] = frozenset()
        if base is not None:
            filled, kept = self._on(base, filled)
        else:
            unknown_again(filled.body, [edge.name for edge in filled.body.edges], self.notes)
        filled = self.filled[piece.name] = replace(filled, body=at_each(filled.body, self.notes))
        self._declare_lines(filled, kept)
        self.tracing.state_of(piece, filled.body, base)

    def _is_second(self, piece: tree.Piece) -> bool:
        if piece.name in self.filled:
            first = self.filled[piece.name].piece.name_span
            related = [(first, "it is first defined here")]
            fix = "put its lines under the first one and take this heading out, or give it another name"
            fact = f"there are two pieces called `{piece.name}`"
            self.notes.append(error(fact, piece.name_span, fix, related=related))
        return piece.name in self.filled

    def _note_twice(self, filled: Filled) -> None:
        piece = filled.piece
        for body in (piece.body, filled.template.body if filled.template else piece.body):
            self.notes += twice((setting.word, setting.span) for setting in body.settings)
        self.notes += twice((line.name, line.name_span) for line in piece.body.given if filled.template)

    def _declare_lines(self, filled: Filled, kept: frozenset[str]) -> None:
        """Declare a sheet's own lines; those that are as they were on the paper that it was traced from are there."""
        body, name = filled.body, filled.piece.name
        for line in body.values:
            self._declare(name, line, self._definition(name, line))
        for place in body.points:
            self._declare(name, place, self._place(name, place))
        for edge in (*body.edges, *body.lines):
            full = f"{name}.{edge.name}"
            self.edges.setdefault(full, edge)
            if edge.name not in kept:
                self._declare(name, edge, self.steps.edge(name, edge))
            sewn = Entry(edge.name_span, self.steps.sewn(name, edge), bool(kept))
            self.values.names.entries.setdefault(f"{full}{SEWN}", sewn)
            flat = Entry(edge.name_span, self.steps.flat(name, edge, body.takeups), bool(kept))
            self.values.names.entries.setdefault(f"{full}{FLAT}", flat)

    def _base(self, piece: tree.Piece) -> Stage | None:
        """The state that a sheet is drawn on, if it is traced."""
        if piece.origin is None:
            if piece.body.moves:
                fact = f"`{piece.name}` is traced from no draft that could be moved"
                fix = f"draw it as a block, and write `{'block' if piece.is_block else 'piece'} ... from {piece.name}`"
                self.notes.append(error(fact, piece.body.moves[0].span, fix))
            return None
        self._traced.append(piece.name)
        try:
            return self.tracing.traced(piece, piece.origin)
        finally:
            self._traced.pop()

    def _set_aside(self, piece: tree.Piece) -> None:
        """A sheet whose beginning has a mistake: nothing more is said of what leans on it."""
        self.values.names.no_pieces.add(piece.name)
        self._at_fault.add(piece.name)
        del self.filled[piece.name]

    def _on(self, base: Stage, filled: Filled) -> tuple[Filled, frozenset[str]]:
        """A sheet's lines over those of the state that it begins from, whose names are declared as they were there."""
        unknown_names(base, filled.body, self.notes)
        body, kept = drawn_on(base, filled.body)
        stage = Stage(filled.piece.name, filled.piece.span)
        backwards = {edge.name for edge in body.edges if edge.name in kept and is_turned(edge, base)}
        for name in sorted(kept):
            if name in backwards:
                self.sheets.turned(stage, name, base, filled.piece.name_span)
            else:
                self.sheets.same(stage, name, base, filled.piece.name_span)
        changed = replace(filled, body=body)
        self.filled[filled.piece.name] = changed
        return changed, kept

    def _fill(self, piece: tree.Piece) -> Filled | None:
        piece = self._made_after(piece)
        if not piece.template:
            for line in piece.body.given:
                fact = f"`{piece.name}` is made from no template that could take `{line.name}`"
                self.notes.append(error(fact, line.span, _meant(line)))
            for taken in () if piece.origin else piece.body.without:
                fact = f"`{piece.name}` is made from no template that lines could be taken out of"
                self.notes.append(error(fact, taken.span, "take this line out"))
            return Filled(piece, piece.body, None)
        chosen = self.choosing.of(piece, self.whole.inputs(piece.template))
        template = self.whole.of(piece.template, piece.name, choices=chosen)
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
            if wanted.kind is Kind.CHOICE:
                self._declare_choice(piece.name, wanted)
                continue
            if wanted.kind in (Kind.POINT, Kind.EDGE) and isinstance(expr, tree.Ref):
                self.values.names.given[f"{piece.name}.{name}"] = (expr, inside, wanted.kind is Kind.EDGE)
            make = self._input(piece.name, wanted, given.get(name, wanted), expr, inside)
            self._declare(piece.name, wanted, make)

    def _declare_choice(self, piece: str, wanted: tree.Input) -> None:
        full = f"{piece}.{wanted.name}"
        step = Step(wanted.span, full, Kind.CHOICE, frozenset(), lambda trace: np.zeros(trace.count))
        self._declare(piece, wanted, lambda: step)

    def _note_missing(self, filled: Filled, wanted: tree.Input) -> None:
        assert filled.template and filled.piece.template
        fact = f"`{filled.template.name}` needs `{wanted.name}`, {wanted.what}: {wanted.words or 'see below'}"
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
        cut = [self.finishing.plan(filled, allowance) for filled in self.filled.values() if not filled.piece.is_block]
        return with_cuts(cut, self.sheets.stages)

    def rejoined(self, joins: Sequence[tree.Join]) -> tuple[tree.Join, ...]:
        """The joins, those along a line with both of their sides."""
        pieces = [
            name for name, filled in self.filled.items() if not filled.piece.is_block and name in self.sheets.stages
        ]
        return rejoined(joins, self.sheets.stages, pieces, self.notes)

    def are_parted(self, join: JoinOf[Value]) -> bool:
        """Whether a join sews together again what was cut along a line."""
        return are_parted(join, self.sheets.stages)

    def drafts(self, allowance: Value) -> list[PieceOf[Value, Value]]:
        """The blocks, planned as pieces are but cut from no cloth."""
        return [self.finishing.plan(filled, allowance) for filled in self.filled.values() if filled.piece.is_block]


def _meant(given: tree.Definition) -> str:
    """A fix for what is given where nothing is asked for: a setting is written without `=`."""
    if given.name in ("title", "cut", "grain", "stretch"):
        return f"try `{given.name} {given.value.span.text}`"
    return "put it under `let`"
