"""Joins: both sides found among the pieces, and the marks asked for along them."""

from __future__ import annotations

from draft.base.notes import error
from draft.base.units import Kind
from draft.garment.garment import JoinNotchOf, JoinOf, SidePart
from draft.language import tree
from draft.plan.plan import Value, constant
from draft.plan.true_over import trued_over
from draft.plan.values import Values
from draft.words.word import Kinds, one

_ALONG: Kinds = frozenset({Kind.LENGTH, Kind.NUMBER})
_QUARTERS = (0.25, 0.5, 0.75)


def join(values: Values, written: tree.Join) -> JoinOf[Value]:
    """A join with its values planned."""
    first = tuple(_part(values, part) for part in written.first)
    second = tuple(_part(values, part) for part in written.second)
    ratio = values.compile_any(written.ratio, None, one(Kind.NUMBER))
    found = [_notch(values, notch) for notch in sorted(written.notches, key=lambda notch: notch.double)]
    quarters = [JoinNotchOf(constant(written.span, Kind.NUMBER, share)) for share in _QUARTERS if written.quarters]
    notches = (*(n for n in found if not n.double), *quarters, *(n for n in found if n.double))
    over = trued_over(values, None, written)
    return JoinOf(written.span, written.name, first, second, ratio, notches, written.fit, over)


def _notch(values: Values, written: tree.JoinNotch) -> JoinNotchOf[Value]:
    at = values.compile(written.at, None, _ALONG)
    return JoinNotchOf(at, at.kind is Kind.LENGTH, written.double)


def _part(values: Values, part: tree.SidePart) -> SidePart:
    if len(part.edge.parts) != 2:
        owners = values.names.owners(part.edge.text) or ["front"]
        fact = f"`{part.edge.text}` does not say of which piece"
        values.notes.append(error(fact, part.edge.span, f"try `{owners[0]}.{part.edge.text}`"))
        return SidePart("", part.edge.text, part.reverse)
    values.compile(part.edge, None, one(Kind.EDGE))
    return SidePart(*part.edge.parts, reverse=part.reverse)
