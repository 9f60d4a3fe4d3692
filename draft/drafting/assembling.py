"""From an outcome to a garment: the plan's own records, with what was found for every body in place of each value."""

from __future__ import annotations

from dataclasses import fields, is_dataclass, replace
from functools import cache
from typing import Any, TypeVar

import numpy as np

from draft.base.notes import Span
from draft.garment.garment import Garment, InnerDart, Mark, Notch, Piece, Takeup
from draft.plan.plan import Plan, Value
from draft.seams.dart_trueing import with_darts_trued
from draft.seams.drawing_up import with_edges_drawn_up
from draft.seams.notches import with_notches
from draft.seams.parting import with_edges_parted
from draft.seams.redrawing import Redrawing
from draft.seams.shut_corners import with_corners_shut
from draft.seams.trueing import trued
from draft.solve import Outcome, find_value

Line = TypeVar("Line", Takeup, InnerDart, Notch, Mark)


def assemble(plan: Plan, outcome: Outcome, before: Outcome | None = None) -> tuple[Garment, tuple[Redrawing, ...]]:
    """The garment that an outcome describes, its notches set, and how edges were redrawn to true its joins.

    `before` has the edges as they are before they are trued, where the outcome has them as they are then.
    """
    lines = before or outcome
    pieces = tuple(with_darts_trued(_with_what_is_there(filled(piece, lines))) for piece in plan.pieces)
    finished = filled(plan.finished, outcome)
    garment = Garment(
        title=plan.title,
        maker=plan.maker,
        sizes=outcome.bodies.names,
        pieces=pieces,
        joins=filled(plan.joins, outcome),
        finished=finished,
        chosen=tuple(outcome.chosen.items()),
        cloth=plan.cloth,
        patches=plan.patches,
        cloths=filled(plan.cloths, outcome),
        notions=filled(plan.notions, outcome),
    )
    made, turns = trued(with_edges_parted(garment))
    return with_notches(with_corners_shut(with_edges_drawn_up(made))), turns


def filled(planned: Any, outcome: Outcome) -> Any:
    """A record of the plan, or a tuple of them, with every `Value` found: `(bodies, ...)`.

    What is one for all bodies, an `allowance`, becomes a number: that of the first body which could be drafted.
    """
    if isinstance(planned, Value):
        return find_value(planned, outcome.trace)
    if isinstance(planned, tuple):
        return tuple(filled(part, outcome) for part in planned)
    names = _names(planned.__class__)
    if not names:
        return planned
    found = {name: filled(getattr(planned, name), outcome) for name in names}
    if found.get(_ONE) is not None:
        found[_ONE] = float(found[_ONE][np.argmax(outcome.drafted)])
    return replace(planned, **found)


def _with_what_is_there(piece: Piece) -> Piece:
    """A traced piece with those darts, notches and marks of its draft that lie on it for any body."""
    return replace(
        piece,
        takeups=_there(piece.takeups),
        inner_darts=_there(piece.inner_darts),
        notches=_there(piece.notches),
        marks=_there(piece.marks),
    )


def _there(lines: tuple[Line, ...]) -> tuple[Line, ...]:
    return tuple(line for line in lines if line.there is None or bool(np.any(line.there > 0)))


_ONE = "allowance"


@cache
def _names(kind: Any) -> tuple[str, ...]:
    """What a record of this kind holds; nothing of what is no record, or a place in the text."""
    if kind is Span or not is_dataclass(kind):
        return ()
    return tuple(part.name for part in fields(kind))
