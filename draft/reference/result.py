"""What a word's example comes to, in the small draft that it is a line of."""

from __future__ import annotations

from functools import cache
from pathlib import Path

import numpy as np

from draft.base.notes import Source
from draft.base.units import Kind, in_place, in_words
from draft.bodies.bodies import Bodies
from draft.geometry.length import length
from draft.language.reader import read
from draft.plan.library import Texts
from draft.plan.make import plan_texts
from draft.solve import evaluate
from draft.words.example import with_line

ONE_BODY = Bodies(("example",), {})


@cache
def result(line: str) -> str:
    """`12.5 cm`, or `3 cm across, 4 cm down`. Raises `Problems` if the line has a mistake, ValueError if it fails."""
    tree = read(Source("example", with_line(line)))
    plan = plan_texts(Texts(tree, (), Path()), {})
    outcome = evaluate(plan, ONE_BODY)
    if outcome.trace.failures:
        raise ValueError(f"`{line}` fails: {outcome.trace.failures[0][1]}")
    name = f"front.{line.split()[0]}"
    kind = next(step.kind for step in plan.steps if step.name == name)
    value = outcome.trace.values[name][0]
    if kind is Kind.EDGE:
        return in_words(float(length(value[None])[0]), Kind.LENGTH)
    if kind is Kind.ROW:
        return f"{len(np.unique(value, axis=0))} points from {in_place(*value[0])} to {in_place(*value[-1])}"
    return in_place(*value) if kind is Kind.POINT else in_words(float(value), kind)
