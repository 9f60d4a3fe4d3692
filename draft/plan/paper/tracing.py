"""Sheets of paper: each one state of a draft, traced from another and moved, before anything is drawn on it.

`traced` gives the state that a sheet begins from; `state_of` the one that it ends as, for others to be traced from.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from draft.base.notes import Note, error, nearest
from draft.base.units import Kind
from draft.language import tree
from draft.plan.edges.edge_order import completed, in_order
from draft.plan.edges.edge_steps import EdgeSteps
from draft.plan.edges.true_over import trued_over
from draft.plan.files.replacing import said_again, unknown_again
from draft.plan.paper.close_dart import CloseDart
from draft.plan.paper.extend import Extend
from draft.plan.paper.lay_on import LayOn
from draft.plan.paper.outline_places import lies_on
from draft.plan.paper.slash import Slash
from draft.plan.paper.stage import Sheets, Stage, ref
from draft.plan.paper.trace_between import TraceBetween
from draft.plan.plan import Value
from draft.words import NOTCHED

_AT = (Kind.POINT, Kind.ROW)

Find = Callable[[tree.Ref], Stage | None]
"""The state of a draft by its name; None, with a note, where there is none."""


class Tracing:
    """Makes the states that sheets begin from and end as."""

    def __init__(self, sheets: Sheets, steps: EdgeSteps, find: Find) -> None:
        self.sheets, self.steps, self.find = sheets, steps, find
        self.notes = sheets.notes

    # ---- what a sheet begins from

    def traced(self, piece: tree.Piece, origin: tree.Origin) -> Stage | None:
        """The state that a sheet's own lines are drawn on: what it is traced from, and moved."""
        stage = self.find(origin.draft)
        if stage is not None and origin.between:
            if not self._has_outline(stage, origin):
                return None
            name = f"{piece.name} 0"
            stage = TraceBetween(self.sheets, self.steps, stage, name, origin).stage()
        hold: tree.Hold | None = None
        for number, move in enumerate(piece.body.moves, start=1):
            if stage is None:
                return None
            if isinstance(move, tree.Hold):
                hold = move
                continue
            stage = self._moved(stage, f"{piece.name} {number}", move, hold)
            stage = self.sheets.keep(stage) if stage else None
        return stage

    def _has_outline(self, stage: Stage, at: tree.Node) -> bool:
        if not stage.outline:
            name = stage.name.split()[0]
            self.notes.append(error(f"`{name}` has no outline that closes, so no part of it can be traced", at.span))
        return bool(stage.outline)

    def _moved(
        self, stage: Stage, name: str, move: tree.Close | tree.Slash | tree.Lay | tree.Extend, hold: tree.Hold | None
    ) -> Stage | None:
        if not self._has_outline(stage, move):
            return None
        if isinstance(move, tree.Close):
            return CloseDart(self.sheets, stage, name, move, hold).stage()
        if isinstance(move, tree.Slash):
            return Slash(self.sheets, stage, name, move, hold).stage()
        if isinstance(move, tree.Extend):
            return Extend(self.sheets, stage, name, move).stage()
        laid = self.find(move.draft)
        if laid is None:
            return None
        on_edge = laid.place_in(move.first.text) is not None
        return LayOn(self.sheets, stage, name, replace(move, onto_edge=on_edge), laid).stage()

    # ---- what a sheet ends as

    def state_of(self, piece: tree.Piece, body: tree.Contents, base: Stage | None) -> Stage:
        """The state of a sheet whose names are declared: `body` has its lines with those that it was traced with."""
        scratch = self.notes if piece.is_block else []
        outline = in_order(piece, body, scratch) if body.edges else []
        own = {place.name: lies_on(place) for place in body.points}
        points = {**(base.points if base else {}), **own}
        for edge in (*body.edges, *body.lines):
            for at in [leg.to for leg in edge.legs if leg.to and leg.to.text in points]:
                points[at.text] = points[at.text] | {edge.name}
        stage = Stage(piece.name, piece.name_span, tuple(outline), body.lines, points)
        values = (*(base.values if base else ()), *(line.name for line in (*body.values, *body.inputs)))
        cuts = {name: cut for name, cut in (base.cuts if base else {}).items() if stage.edge(name)}
        for edge in [edge for edge in outline if base and is_turned(edge, base) and edge.name in cuts]:
            cuts[edge.name] = replace(cuts[edge.name], forward=not cuts[edge.name].forward)
        stage = replace(stage, values=values, corners=body.corners, cuts=cuts)
        before = (*base.takeups, *base.marks, *base.notches, *base.settings) if base else ()
        for takeup in body.takeups:
            stage = (
                replace(stage, takeups=(*stage.takeups, takeup))
                if takeup in before
                else self._with_takeup(stage, takeup)
            )
        for mark in body.marks:
            stage = replace(stage, marks=(*stage.marks, mark)) if mark in before else self._with_mark(stage, mark)
        for number, notch in enumerate(body.notches):
            there = notch in before
            stage = replace(stage, notches=(*stage.notches, notch)) if there else self._with_notch(stage, notch, number)
        for setting in body.settings:
            stage = (
                replace(stage, settings=(*stage.settings, setting))
                if setting in before
                else self._with_way(stage, setting)
            )
        for takeup in stage.takeups:  # named on a line, a dart is a place on it; whoever cuts there takes its legs
            middle = _compiled(self.sheets, takeup.at, stage.name, Kind.POINT)
            self.sheets.declare(stage.full(takeup.name), takeup.span, middle)
        return self.sheets.keep(stage)

    def _with_takeup(self, stage: Stage, takeup: tree.Takeup) -> Stage:
        """The state with a dart or pleat whose parts have names of their own: each goes where its paper goes."""
        scope, points, values = stage.name, dict(stage.points), list(stage.values)
        changes: dict[str, tree.Ref] = {}
        parts = (("at", takeup.at, Kind.POINT), ("to", takeup.to, Kind.POINT),
                 ("other", takeup.other, Kind.POINT), ("width", takeup.width, Kind.LENGTH),
                 ("length", takeup.length, Kind.LENGTH), ("short", takeup.short, Kind.LENGTH))  # fmt: skip
        for part, said, kind in parts:
            if said is None:
                continue
            name = f"{takeup.name} {part}"
            self.sheets.declare(stage.full(name), takeup.span, _compiled(self.sheets, said, scope, kind))
            changes[part] = ref(takeup.span, name)
            if kind is Kind.POINT:
                points[name] = frozenset({takeup.edge.text}) if part == "at" else frozenset()
            else:
                values.append(name)
        if takeup.trued_over:
            name = f"{takeup.name} over"
            self.sheets.declare(stage.full(name), takeup.span, _over(self.sheets, scope, takeup))
            changes["trued_over"] = ref(takeup.span, name)
            values.append(name)
        changed = replace(takeup, **changes)  # type: ignore[arg-type]
        if takeup.bowed:
            name = f"{takeup.name} bow"
            by = _compiled(self.sheets, takeup.bowed.by, scope, Kind.LENGTH)
            self.sheets.declare(stage.full(name), takeup.span, by)
            changed = replace(changed, bowed=replace(takeup.bowed, by=ref(takeup.span, name)))
            values.append(name)
        return replace(stage, points=points, values=tuple(values), takeups=(*stage.takeups, changed))

    def _with_mark(self, stage: Stage, mark: tree.Mark) -> Stage:
        points, at = dict(stage.points), []
        for number, said in enumerate(mark.at):
            name = f"{mark.name} {number}"
            self.sheets.declare(stage.full(name), mark.span, _compiled(self.sheets, said, stage.name, *_AT))
            points[name] = frozenset()
            at.append(ref(mark.span, name))
        return replace(stage, points=points, marks=(*stage.marks, replace(mark, at=tuple(at))))

    def _with_notch(self, stage: Stage, notch: tree.Notch, number: int) -> Stage:
        if notch.distance is None:
            return stage
        name = f"notch {number}"
        place = tree.Call(notch.span, NOTCHED, (notch.edge, notch.distance, notch.near))
        self.sheets.declare(stage.full(name), notch.span, _compiled(self.sheets, place, stage.name, Kind.POINT))
        points = {**stage.points, name: frozenset({notch.edge.text})}
        changed = replace(notch, distance=None, near=ref(notch.span, name))
        return replace(stage, points=points, notches=(*stage.notches, changed))

    def _with_way(self, stage: Stage, setting: tree.Setting) -> Stage:
        """The state with a direction of its paper: which way the grain runs there."""
        if isinstance(setting.value, str) or setting.word not in ("grain", "stretch"):
            return stage
        name = f"{setting.word} way"
        self.sheets.declare(
            stage.full(name), setting.span, _compiled(self.sheets, setting.value, stage.name, Kind.DIRECTION)
        )
        changed = replace(setting, value=ref(setting.span, name))
        return replace(stage, values=(*stage.values, name), settings=(*stage.settings, changed))


def _compiled(sheets: Sheets, said: tree.Expr, scope: str, *kinds: Kind) -> Callable[[], Value]:
    return lambda: sheets.values.compile(said, scope, frozenset(kinds))


def _over(sheets: Sheets, scope: str, takeup: tree.Takeup) -> Callable[[], Value]:
    def make() -> Value:
        over = trued_over(sheets.values, scope, takeup)
        assert over is not None
        return over

    return make


def drawn_on(base: Stage, own: tree.Contents) -> tuple[tree.Contents, frozenset[str]]:
    """A sheet's own lines over those that it begins from, and the names that are as they were.

    A line whose name is there already takes its place.
    """
    left_out = {name for line in own.without for name in line.names}
    names = {line.name for line in (*own.points, *own.edges, *own.lines, *own.values)} | left_out
    again = {line.name: line for line in own.again}
    edges = tuple(said_again(edge, again.get(edge.name)) for edge in base.outline if edge.name not in names)
    lines = tuple(line for line in base.lines if line.name not in names)
    outline = completed(edges + own.edges, tuple(line for line in lines if line.name in base.spare))
    lines = tuple(line for line in lines if line.name not in {edge.name for edge in outline})
    ours = {takeup.name for takeup in own.takeups} | left_out
    there = {edge.name for edge in (*edges, *lines, *own.edges, *own.lines)}
    said = {setting.word for setting in own.settings}
    marked = {mark.name for mark in own.marks} | left_out
    takeups = tuple(one for one in base.takeups if one.name not in ours and one.edge.text in there)
    ends = {at.parts for edge in (*edges, *own.edges) for at in (edge.start, edge.end)}
    at = {corner.at.parts for corner in own.corners}
    corners = tuple(one for one in base.corners if one.at.parts not in at and one.at.parts in ends)
    body = replace(
        own,
        edges=outline,
        lines=lines + own.lines,
        takeups=takeups + own.takeups,
        notches=tuple(notch for notch in base.notches if notch.edge.text in there) + own.notches,
        marks=tuple(mark for mark in base.marks if mark.name not in marked) + own.marks,
        corners=corners + own.corners,
        settings=own.settings + tuple(setting for setting in base.settings if setting.word not in said),
    )
    kept = {*(edge.name for edge in (*outline, *lines)), *base.points, *base.values} - names
    return body, frozenset(kept)


def is_turned(edge: tree.Edge, base: Stage) -> bool:
    """Whether an edge runs the other way than on the paper that it was traced from."""
    before = base.edge(edge.name)
    return before is not None and before.start.parts == edge.end.parts and before.end.parts == edge.start.parts


def unknown_names(base: Stage, own: tree.Contents, notes: list[Note]) -> None:
    """Notes on lines that say something of an edge, or leave one out, that is not there."""
    edges = [edge.name for edge in base.edges]
    known = {*edges, *(one.name for one in (*base.takeups, *base.marks)), *base.points}
    unknown_again(own, edges, notes)
    for name, span in [pair for line in own.without for pair in zip(line.names, line.name_spans, strict=True)]:
        if name not in known:
            notes.append(error(f"there is no `{name}` here to take out", span, *nearest(name, known)))
