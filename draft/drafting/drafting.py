"""From an outcome to a garment: pieces, joins with their marks, measurements; and notes on bodies that failed."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from pathlib import Path

import numpy as np

from draft.base.arrays import Floats
from draft.base.notes import Note, stop_if_errors
from draft.base.units import Kind
from draft.bodies.bodies import Bodies, body_notes
from draft.bodies.estimates import Estimate
from draft.drafting.telling import allowance_notes, describe
from draft.garment.garment import Edge, Finished, Garment, Join, Mark, Notch, Piece, SidePart, Takeup
from draft.geometry.nearest import ON_EDGE, nearest_place
from draft.plan.make import make_plan
from draft.plan.plan import (
    EdgePlan,
    MarkPlan,
    NotchPlan,
    PartPlan,
    PiecePlan,
    Plan,
    ReadingPlan,
    SeamPlan,
    TakeupPlan,
    Value,
)
from draft.seams.dart_trueing import with_darts_trued
from draft.seams.notches import quarters, with_notches
from draft.seams.replay import replayed
from draft.seams.sides import side
from draft.seams.trueing import Turned, trued
from draft.solve import Outcome, evaluate, find_value


@dataclass(frozen=True)
class Drafted:
    """A garment for a list of bodies, with what there is to say about it."""

    plan: Plan
    bodies: Bodies
    outcome: Outcome
    garment: Garment
    notes: tuple[Note, ...]
    estimates: tuple[Estimate, ...] = ()
    """What was not measured of the person and is estimated."""
    unwashed: Garment | None = None
    """The pieces for cloth that is cut before it is washed, where that was asked for."""

    @property
    def to_cut(self) -> Garment:
        """What is drawn on paper: the garment as it is to become, or larger by what washing takes."""
        return self.unwashed or self.garment


def draft(path: Path, bodies: Bodies, styles: Mapping[str, str] | None = None) -> Drafted:
    """Draft the pattern at `path` for the bodies. Raises `Problems` for mistakes in the pattern or the bodies.

    A body that cannot be drafted is an error among the notes of the result; its lines must not be cut.
    """
    return draft_plan(make_plan(path, styles), bodies)


def draft_plan(plan: Plan, bodies: Bodies) -> Drafted:
    """Draft a plan for the bodies. Raises `Problems` for measures that are missing or cannot be true."""
    stop_if_errors(body_notes(bodies, plan.measures))
    outcome, garment = drawn(plan, bodies)
    notes = (*bodies.notes, *plan.notes, *describe(plan, outcome), *allowance_notes(plan, outcome))
    return Drafted(plan, bodies, outcome, garment, notes)


def drawn(plan: Plan, bodies: Bodies) -> tuple[Outcome, Garment]:
    """Evaluate a plan and assemble the garment; where joins are trued, once more with their edges as trued."""
    outcome = evaluate(plan, bodies)
    garment, turns = _assembled(plan, outcome)
    if turns:
        with_turns, given = replayed(plan, turns)
        outcome = evaluate(with_turns, bodies, given)
        garment, _ = _assembled(plan, outcome)
    return outcome, garment


def assemble(plan: Plan, outcome: Outcome) -> Garment:
    """The garment that an outcome describes, its marks set."""
    return _assembled(plan, outcome)[0]


def _assembled(plan: Plan, outcome: Outcome) -> tuple[Garment, tuple[Turned, ...]]:
    garment = Garment(
        title=plan.title,
        maker=plan.maker,
        sizes=outcome.bodies.names,
        pieces=tuple(with_darts_trued(_piece(piece, outcome)) for piece in plan.pieces),
        joins=(),
        finished=tuple(_finished(reading, outcome) for reading in plan.readings),
        chosen=tuple(outcome.chosen.items()),
        cloth=plan.cloth,
        patches=plan.patches,
    )
    joins = tuple(_join(seam, garment, outcome) for seam in plan.seams)
    made, turns = trued(replace(garment, joins=joins))
    return with_notches(made), turns


def _values(value: Value, outcome: Outcome) -> Floats:
    return find_value(value, outcome.trace)


def _finished(plan: ReadingPlan, outcome: Outcome) -> Finished:
    over = (_said(plan.over), _values(plan.over, outcome)) if plan.over else None
    passing = tuple((_said(body), _values(body, outcome)) for body in plan.passing)
    across = np.full(len(outcome.bodies), 1.0 if plan.around else 0.0)
    if plan.going:
        across = _values(plan.going, outcome)[:, 0] ** 2
    values = _values(plan.value, outcome)
    return Finished(plan.name, plan.around, values, plan.words, plan.span, over, passing, across)


def _said(body: Value) -> str:
    return body.span.text.replace("_", " ")


def _piece(plan: PiecePlan, outcome: Outcome) -> Piece:
    bodies = len(outcome.bodies)
    return Piece(
        span=plan.span,
        name=plan.name,
        edges=tuple(_edge(edge, outcome) for edge in plan.edges),
        cut=plan.cut,
        grain=np.broadcast_to(_values(plan.grain, outcome), (bodies, 2)),
        stretch=np.broadcast_to(_values(plan.stretch, outcome), (bodies, 2)),
        printed=plan.title,
        takeups=tuple(_takeup(plan, takeup, outcome) for takeup in plan.takeups),
        cut_as=plan.cut_as,
        stretches=plan.stretches,
        notches=tuple(_notch(plan, notch, outcome) for notch in plan.notches),
        marks=tuple(_mark(mark, outcome) for mark in plan.marks),
    )


def _notch(piece: PiecePlan, plan: NotchPlan, outcome: Outcome) -> Notch:
    at, _ = nearest_place(outcome.trace.values[f"{piece.name}.{plan.edge}"], _values(plan.at, outcome))
    return Notch(plan.span, plan.edge, at, plan.strokes)


def _mark(plan: MarkPlan, outcome: Outcome) -> Mark:
    bodies = len(outcome.bodies)
    points = [np.broadcast_to(_values(point, outcome), (bodies, 2)) for point in plan.at]
    return Mark(plan.span, plan.name, plan.drill, np.stack(points, axis=1), plan.words)


def _takeup(piece: PiecePlan, plan: TakeupPlan, outcome: Outcome) -> Takeup:
    name = f"{piece.name}.{plan.edge}"
    at, miss = nearest_place(outcome.trace.values[name], _values(plan.at, outcome))
    since = len(outcome.trace.failures)
    outcome.trace.fail(plan.at.span, f"the middle of `{plan.name}` does not lie on `{plan.edge}`", miss > ON_EDGE)
    outcome.trace.keep_first({name, *plan.at.needs}, since)
    to = _values(plan.to, outcome) if plan.to else None
    length = _values(plan.length, outcome) if plan.length else None
    over = _values(plan.trued_over, outcome) if plan.trued_over else None
    return Takeup(plan.span, plan.name, plan.edge, at, _values(plan.width, outcome), to, length, over)


def _edge(plan: EdgePlan, outcome: Outcome) -> Edge:
    widths = _values(plan.allowance, outcome)
    return Edge(
        span=plan.span,
        name=plan.name,
        segments=outcome.trace.values[plan.step],
        allowance=0.0 if plan.on_fold else float(widths[np.argmax(outcome.drafted)]),
        on_fold=plan.on_fold,
        corner="mirror" if plan.turned_up else "meet",
        end_corner=plan.end_corner,
        gathered=_values(plan.gathered, outcome) if plan.gathered else None,
        ends=plan.ends,
        unjoined=plan.unjoined,
    )


def _join(plan: SeamPlan, garment: Garment, outcome: Outcome) -> Join:
    first = _parts(plan.first)
    whole = side(garment, first).length
    marks = tuple(_share(mark, whole, outcome) for mark in plan.notches)
    if plan.quarters:
        marks += quarters(len(outcome.bodies))
    doubles = tuple(_share(mark, whole, outcome) for mark in plan.double_notches)
    ratio = _values(plan.ratio, outcome) if plan.ratio else None
    over = _values(plan.trued_over, outcome) if plan.trued_over else None
    return Join(plan.span, plan.name, first, _parts(plan.second), ratio, marks, doubles, plan.fit, over)


def _parts(parts: tuple[PartPlan, ...]) -> tuple[SidePart, ...]:
    return tuple(SidePart(part.piece, part.edge, part.reverse) for part in parts)


def _share(mark: Value, whole: Floats, outcome: Outcome) -> Floats:
    found = _values(mark, outcome)
    return found if mark.kind is Kind.NUMBER else np.asarray(found / np.maximum(whole, 1e-9))
