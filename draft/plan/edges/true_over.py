"""How far from a seam or dart the outline is blended into one line."""

from __future__ import annotations

from draft.base.units import Kind
from draft.language import tree
from draft.plan.plan import Value, constant
from draft.plan.values import Values
from draft.words.word import one

TRUED_OVER = 40.0  # mm: about the span that a French curve bridges by hand (common practice)


def trued_over(values: Values, piece: str | None, written: tree.Join | tree.Takeup) -> Value | None:
    """The length asked for, or the usual one; None where nothing is to be trued."""
    if not written.trued:
        return None
    if written.trued_over:
        return values.compile(written.trued_over, piece, one(Kind.LENGTH))
    return constant(written.span, Kind.LENGTH, TRUED_OVER)
