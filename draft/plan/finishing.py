"""What is said of a piece besides its lines: how it is cut, its corners, darts, notches and marks."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import numpy as np

from draft.base.arrays import Floats
from draft.base.notes import Span, error
from draft.base.record import dataclass
from draft.base.units import Kind
from draft.garment.garment import FINISHES, CornerKind, CutOf, EdgeOf, MarkOf, NotchOf, PieceOf
from draft.language import tree
from draft.plan.cutting import Cutting, how_many
from draft.plan.edges.edge_order import in_order
from draft.plan.edges.inner_darts import by_place, inner_dart
from draft.plan.edges.taking_up import along, own_edge, takeup
from draft.plan.names import twice
from draft.plan.plan import Trace, Value, broken, constant, is_broken, needs_of
from draft.plan.values import Values
from draft.words import GRAIN, NOTCHED, STRETCH
from draft.words.word import one

_POINT, _DIRECTION = one(Kind.POINT), one(Kind.DIRECTION)
_AT = frozenset({Kind.POINT, Kind.ROW})


@dataclass(frozen=True)
class Filled:
    """A piece with its template's lines, if it has one."""

    piece: tree.Piece
    body: tree.Contents
    template: tree.Template | None


class Finishing:
    """Makes the plans of pieces whose names are all declared."""

    def __init__(self, values: Values) -> None:
        self.values = values
        self.notes = values.notes
        self.cutting = Cutting(values)

    def plan(self, filled: Filled, allowance: Value) -> PieceOf[Value, Value]:
        """The plan of a declared piece."""
        name, body = filled.piece.name, filled.body
        settings = _settings(body)
        grain = self._direction(filled, settings.get("grain"), GRAIN)
        stretch = self._direction(filled, settings.get("stretch"), STRETCH)
        ends = [end for edge in body.edges for end in (edge.start, edge.end)]
        known = all(self.values.names.knows(end, name) for end in ends)  # else that alone is worth a note
        drawn = known and (bool(body.edges) or not filled.piece.is_block)
        ordered = in_order(filled.piece, body, [] if filled.piece.is_block else self.notes) if drawn else []
        corners = self._corners(name, body)
        cuts = self.cutting.cuts(filled.piece, settings.get("cut"))
        first = cuts[0] if cuts else CutOf[Value](0)
        allowance = self.values.cloths.allowances.get(first.cloth, allowance)
        edges = tuple(self._edge(name, edge, allowance, corners.get(edge.end.parts, "carried")) for edge in ordered)
        title = settings.get("title")
        planned = PieceOf(
            filled.piece.span,
            name,
            edges,
            how_many(cuts),
            grain,
            stretch,
            printed=str(title.value) if title else name.replace("_", " "),
            cut_as=first.cut_as,
            stretches="stretch" in settings,
            cuts=cuts if first.cloth or first.layer or len(cuts) > 1 else (),
        )
        if not edges or is_broken(planned):
            return planned
        lines = {edge.name: edge for edge in (*body.edges, *body.lines)}
        edged, inner = by_place(body, self.notes)
        return replace(
            planned,
            takeups=tuple(takeup(self.values, name, written, lines) for written in edged),
            inner_darts=tuple(inner_dart(self.values, name, written, lines) for written in inner),
            notches=tuple(self._notch(name, notch) for notch in body.notches),
            marks=tuple(self._mark(name, mark) for mark in body.marks),
        )

    def _corners(self, piece: str, body: tree.Contents) -> dict[tuple[str, ...], CornerKind]:
        """The corners that the file decides, by the point at each."""
        ends = {edge.end.parts for edge in body.edges}
        self.notes += twice((corner.at.text, corner.at.span) for corner in body.corners)
        for corner in body.corners:
            if self.values.names.find(corner.at, piece) and corner.at.parts not in ends:
                fact = f"no corner of `{piece}` lies at `{corner.at.text}`"
                self.notes.append(error(fact, corner.at.span, "name the point where two edges meet"))
        return {corner.at.parts: corner.kind for corner in body.corners}

    def _notch(self, piece: str, notch: tree.Notch) -> NotchOf[Value]:
        place: tree.Expr = notch.near
        if notch.distance is not None:
            place = tree.Call(notch.span, NOTCHED, (notch.edge, notch.distance, notch.near))
        fits = not self.values.names.knows(notch.edge, piece) or own_edge(self.values, notch.edge, "a notch")
        at = self.values.compile(place, piece, _POINT) if fits else broken(notch.span)
        name = notch.edge.parts[0]
        there = self.values.compile_any(notch.there, piece, one(Kind.NUMBER))
        strokes = 2 if notch.double else 1
        return NotchOf(notch.span, name, along(f"{piece}.{name}", at), strokes, there, words=notch.words)

    def _mark(self, piece: str, mark: tree.Mark) -> MarkOf[Value]:
        at = tuple(self.values.compile(ref, piece, _AT if mark.drill else _POINT) for ref in mark.at)
        self._check_length(mark)
        hole = mark.fastening == "buttonhole"
        down = tree.Call(mark.span, "down", ())
        way = self.values.compile(mark.going or down, piece, _DIRECTION) if hole else None
        length = self.values.compile_any(mark.length, piece, one(Kind.LENGTH))
        points = at[0] if at[0].kind is Kind.ROW else _beside(mark.span, at)
        there = self.values.compile_any(mark.there, piece, one(Kind.NUMBER))
        own = mark.words, mark.fastening, length, way, there, mark.line
        return MarkOf(mark.span, mark.name, mark.drill, points, *own)

    def _check_length(self, mark: tree.Mark) -> None:
        if mark.fastening == "buttonhole" and mark.length is None:
            at = mark.at[-1].span
            fact = f"`{mark.name}` does not say how long it is"
            self.notes.append(error(fact, mark.span, f"add its length behind `{at.text}`: `, 16 mm long`"))
        elif mark.fastening != "buttonhole" and mark.length is not None:
            fact = f"a {mark.fastening} is marked at a point, and has no length"
            self.notes.append(error(fact, mark.length.span, "take it out, or write `buttonhole`"))

    def _direction(self, filled: Filled, setting: tree.Setting | None, default: str) -> Value:
        if setting is None:
            return self.values.compile(tree.Call(filled.piece.name_span, default, ()), filled.piece.name)
        assert not isinstance(setting.value, str)
        return self.values.compile(setting.value, filled.piece.name, _DIRECTION)

    def _edge(self, piece: str, edge: tree.Edge, allowance: Value, end_corner: CornerKind) -> EdgeOf[Value, Value]:
        self._check_fold(edge)
        path = self.values.compile(tree.Ref(edge.name_span, (edge.name,)), piece, one(Kind.EDGE))
        said = {name: self._finish(piece, getattr(edge.finish, name), kind) for name, kind in FINISHES.items()}
        nothing = constant(edge.span, Kind.LENGTH, 0.0)
        said["allowance"] = nothing if edge.finish.on_fold else said["allowance"] or allowance
        ends = edge.start.text, edge.end.text
        cornered = any(len(leg.along) > 1 for leg in edge.legs)
        return EdgeOf(edge.span, edge.name, path, ends, end_corner, cornered=cornered, **said)

    def _finish(self, piece: str, said: Any, kind: Kind | None) -> Any:
        """What is said of an edge: a value of the kind that the option takes, or whether it is said at all."""
        return said if kind is None or not said else self.values.compile(said, piece, one(kind))

    def _check_fold(self, edge: tree.Edge) -> None:
        finish = edge.finish
        if finish.on_fold and (len(edge.legs) != 1 or edge.legs[0].sort != "straight"):
            fact = f"`{edge.name}` lies on the fold, so it must be one straight leg"
            self.notes.append(error(fact, edge.span, "try `straight`, or leave out `on fold`"))
        finished = [("an allowance", finish.allowance), ("a hem", finish.turned_up), ("gathers", finish.gathered)]
        finished.append(("elastic", finish.elastic))
        for what in [what for what, said in finished if said] if finish.on_fold else ():
            fact = f"`{edge.name}` lies on the fold, where the cloth goes on: it has no edge for {what}"
            self.notes.append(error(fact, edge.span, "take out one of the two"))
        if finish.gathered and finish.elastic:
            fact = f"`{edge.name}` is drawn in by its elastic, so it is not gathered besides"
            self.notes.append(error(fact, edge.span, "take out one of the two"))


def _settings(body: tree.Contents) -> dict[str, tree.Setting]:
    found: dict[str, tree.Setting] = {}
    for setting in body.settings:
        found.setdefault(setting.word, setting)
    return found


def _beside(span: Span, points: tuple[Value, ...]) -> Value:
    """Several points as one value."""

    def run(trace: Trace) -> Floats:
        return np.stack([trace.found(point.span, point.run) for point in points], axis=1)

    return Value(span, Kind.POINT, needs_of(*points), run, is_broken(points))
