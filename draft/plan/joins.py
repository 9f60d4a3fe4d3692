"""Joins: both sides found among the pieces, and the marks asked for along them."""

from __future__ import annotations

from draft.base.notes import error
from draft.base.units import Kind
from draft.language import tree
from draft.plan.plan import PartPlan, SeamPlan, Value
from draft.plan.true_over import trued_over
from draft.plan.values import Values
from draft.words.word import Kinds, one

_MARK: Kinds = frozenset({Kind.LENGTH, Kind.NUMBER})


def seam(values: Values, written: tree.Seam) -> SeamPlan | None:
    """The plan of a join, or None with notes."""
    first = [_part(values, part) for part in written.first]
    second = [_part(values, part) for part in written.second]
    ratio = values.compile(written.ratio, None, one(Kind.NUMBER)) if written.ratio else None
    notches = [values.compile(at, None, _MARK) for at in written.notches]
    doubles = [values.compile(at, None, _MARK) for at in written.double_notches]
    over = trued_over(values, None, written) if written.trued else None
    if (written.ratio and not ratio) or any(part is None for part in [*first, *second, *notches, *doubles]):
        return None
    return SeamPlan(
        written.span,
        written.name,
        tuple(part for part in first if part),
        tuple(part for part in second if part),
        ratio,
        written.fit,
        tuple(mark for mark in notches if mark),
        tuple(mark for mark in doubles if mark),
        written.quarters,
        over,
    )


def _part(values: Values, part: tree.Part) -> PartPlan | None:
    if len(part.edge.parts) != 2:
        owners = values.names.owners(part.edge.text) or ["front"]
        fact = f"`{part.edge.text}` does not say of which piece"
        values.notes.append(error(fact, part.edge.span, f"try `{owners[0]}.{part.edge.text}`"))
        return None
    value: Value | None = values.compile(part.edge, None, one(Kind.EDGE))
    return PartPlan(part.span, part.edge.parts[0], part.edge.parts[1], part.reversed) if value else None
