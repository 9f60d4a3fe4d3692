"""Measures that a pattern declares itself: their range, how they are taken, and what they are about."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np

from draft.base.arrays import Floats
from draft.base.notes import error
from draft.base.units import Kind
from draft.bodies.bodies import Bodies
from draft.bodies.measures import MEASURES, BodyMeasure
from draft.bodies.own_measure import OwnMeasure
from draft.language import tree
from draft.plan.plan import Trace, Value
from draft.plan.values import Values
from draft.words.word import one

_TAKEN = (Kind.LENGTH, Kind.ANGLE)


def own_measure(values: Values, written: tree.OwnMeasure) -> OwnMeasure | None:
    """The measure as it is declared, not yet with its estimate; None and a note where it cannot be one."""
    low, high = written.low, written.high
    assert isinstance(low, tree.Literal) and isinstance(high, tree.Literal)
    fix: tuple[str, ...] = ()
    if written.name in MEASURES:
        fact, span = f"`{written.name}` is known, with its limits and how it is taken", written.span
        fix = (f"leave `{written.name}` alone on the line, or give this one a name of its own",)
    elif low.kind not in _TAKEN:
        fact, span = f"`{low.span.text}` is {low.kind.value}, but a tape gives a length", low.span
        fix = (f"did you mean `{low.span.text} cm`?",) if low.kind is Kind.NUMBER and "%" not in low.span.text else ()
    elif high.kind is not low.kind:
        fact, span = f"`{high.span.text}` is {high.kind.value}, but `{low.span.text}` is {low.kind.value}", high.span
    elif not 0 < low.value < high.value:
        fact, span = f"no body lies between {low.span.text} and {high.span.text}", low.span
        fix = ("write the smaller figure first, and more than nothing",)
    else:
        return OwnMeasure(written.name, low.kind, "", written.words, low.value, high.value)
    values.notes.append(error(fact, span, *fix))
    return None


def known_measure(written: tree.Measure) -> BodyMeasure | None:
    """A measure that is known, to be estimated as the pattern says where it says so; None where there is none such."""
    known = MEASURES.get(written.name)
    if known is None or written.estimate is None:
        return known
    return OwnMeasure(known.name, known.kind, known.clause, known.how, known.low, known.high)


def with_estimate(
    values: Values, written: tree.OwnMeasure | tree.Measure, measure: OwnMeasure, measures: set[str]
) -> OwnMeasure:
    """The measure with what it is about; a note where that leans on anything but the `measures` of the pattern."""
    if not written.estimate:
        return measure
    value = values.compile(written.estimate, None, one(measure.kind))
    span = written.estimate.span
    others = sorted(value.needs - measures)
    if others:
        fact = f"an estimate leans on body measures alone, but `{others[0]}` is none"
        values.notes.append(error(fact, span, "name measures of `body`, and figures"))
    elif measure.name in value.needs:
        values.notes.append(error(f"`{measure.name}` is estimated from itself", span))
    return OwnMeasure(
        measure.name,
        measure.kind,
        measure.clause,
        measure.how,
        measure.low,
        measure.high,
        _estimating(value),
        tuple(sorted(value.needs)),
        " ".join(span.text.split()),
    )


def _estimating(value: Value) -> Callable[[Bodies], Floats]:
    def estimate(bodies: Bodies) -> Floats:
        trace = Trace(len(bodies), bodies.names, values=dict(bodies.values))
        with np.errstate(all="ignore"):  # a body that lacks what it leans on has none
            return np.broadcast_to(np.asarray(value.run(trace), dtype=float), (len(bodies),))

    return estimate
