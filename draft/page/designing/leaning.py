"""What leans on a number of the text: all else stays as it is while the number is moved, and is not found again."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

import numpy as np

from draft.base.arrays import Floats
from draft.base.notes import Span
from draft.plan.plan import Plan, Solve, Trace, Value
from draft.seams.replay import AS_DRAWN
from draft.solve import Outcome


class _Seen(dict[Span, float]):
    """Numbers as they stand in the text; each that is asked for is noted."""

    def __init__(self) -> None:
        super().__init__()
        self.spans: set[Span] = set()

    def __bool__(self) -> bool:
        return True

    def get(self, span: Span, usual: float) -> float:  # type: ignore[override]
        """The number's own value."""
        self.spans.add(span)
        return usual


class Leaning:
    """A plan with what came out of it: which of its steps read which numbers."""

    def __init__(self, plan: Plan, outcome: Outcome) -> None:
        self._plan, self._values = plan, outcome.trace.values
        trueing = any(name.endswith(AS_DRAWN) for name in self._values)
        self._is_plain = not trueing and not outcome.trace.failures and bool(outcome.drafted.all())
        self._readers = self._reading(outcome) if self._is_plain else {}
        self._users: dict[str, list[str]] = {}
        for step in plan.steps:
            for need in step.needs:
                self._users.setdefault(need, []).append(step.name)

    def kept(self, span: Span) -> dict[str, Floats]:
        """Values `(bodies, ...)` of steps that do not lean on a number; none where edges are trued or a body fails."""
        if not self._is_plain:
            return {}
        leaning, waiting = set[str](), list(self._readers.get(span, ()))
        while waiting:
            name = waiting.pop()
            if name not in leaning:
                leaning.add(name)
                waiting += self._users.get(name, ())
        return {step.name: self._values[step.name] for step in self._plan.steps if step.name not in leaning}

    def _reading(self, outcome: Outcome) -> dict[Span, set[str]]:
        seen, found = _Seen(), dict[Span, set[str]]()
        trace = Trace(len(outcome.bodies), outcome.bodies.names, dict(self._values), instead=seen)
        with np.errstate(all="ignore"):
            for name, runs in _runs(self._plan):
                seen.spans = set()
                for run in runs:
                    run.run(trace)
                for span in seen.spans:
                    found.setdefault(span, set()).add(name)
        return found


def _runs(plan: Plan) -> Iterator[tuple[str, Iterable[Value]]]:
    """Of every step what is run for it; of an unknown all that its block is settled by."""
    for step in plan.steps:
        if step.run is not None:
            yield step.name, [Value(step.span, step.kind, step.needs, step.run)]
    for block in plan.solves:
        asked = list(_asked(block))
        yield from ((unknown.name, asked) for unknown in block.unknowns)


def _asked(block: Solve) -> Iterator[Value]:
    for unknown in block.unknowns:
        yield from (unknown.low, unknown.high, unknown.nearest)
    for relation in block.relations:
        yield from (relation.left, relation.right)
    for step in block.between:
        if step.run is not None:
            yield Value(step.span, step.kind, step.needs, step.run)
