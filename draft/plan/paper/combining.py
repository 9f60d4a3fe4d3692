"""Values made of other values by a function over arrays."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Any

import numpy as np

from draft.base.arrays import Floats
from draft.base.notes import Span
from draft.base.units import Kind
from draft.plan.plan import Trace, Value, is_broken, needs_of


def made_of(span: Span, kind: Kind, parts: Sequence[Value], make: Callable[..., Any]) -> Value:
    """A value that `make` finds from those of its parts, an array each with the bodies on its first axis.

    `make` gives an array, or an array and a list of faults.
    """

    def run(trace: Trace) -> Floats:
        found = make(*(_of_all(part.run(trace), trace.count) for part in parts))
        if isinstance(found, tuple):
            found, faults = found
            for where, fact in faults:
                trace.fail(span, fact, where)
        return np.asarray(found)

    return Value(span, kind, needs_of(*parts), run, is_broken(tuple(parts)))


def _of_all(found: Floats, count: int) -> Floats:
    return np.broadcast_to(found, (count, *found.shape[1:]))
