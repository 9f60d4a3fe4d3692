"""By how much the relations of a block are met when its unknowns have given values."""

from __future__ import annotations

import numpy as np

from draft.base.arrays import Bools, Floats, Ints
from draft.plan.plan import Solve, Trace
from draft.solve.outcome import Standing
from draft.solve.steps import stand, take

Ranges = tuple[Floats, Floats, Floats]
"""The low end, the high end and the wanted value of an unknown, `(B,)` each."""


def try_values(block: Solve, trace: Trace, at: dict[str, Floats], copies: int = 1) -> tuple[list[Standing], Bools]:
    """How the relations stand when the unknowns have the values `at`, and where a step failed on the way there.

    `at` holds `(copies * B,)` values: as many runs of the bodies one after another.
    """
    trial = Trace(trace.count * copies, trace.names * copies, _Repeated(trace.values, copies), instead=trace.instead)
    trial.values.update(at)
    for step in block.between:
        take(step, trial)
    standings = [stand(relation, trial) for relation in block.relations]
    failed = np.zeros(trial.count, dtype=bool)
    for _, _, mask in trial.failures:
        failed |= mask
    return standings, failed


class Some:
    """A trace for fewer and fewer of its bodies: those that are still looked for."""

    def __init__(self, trace: Trace) -> None:
        self._whole = trace
        self._rows: Ints = np.arange(trace.count)
        self._trace = trace

    def of(self, rows: Ints) -> Trace:
        """The trace of the bodies `rows` `(n,)` alone; values are taken on demand, and kept for the same rows."""
        if not np.array_equal(rows, self._rows):
            names = tuple(self._whole.names[k] for k in rows)
            whole = self._whole
            self._rows = rows
            self._trace = Trace(len(rows), names, _Chosen(whole.values, rows), instead=whole.instead)
        return self._trace


class _Chosen(dict[str, Floats]):
    """Values of a trace for only some of its bodies, taken on demand."""

    def __init__(self, values: dict[str, Floats], rows: Ints) -> None:
        super().__init__()
        self._values = values
        self._rows = rows

    def __missing__(self, name: str) -> Floats:
        self[name] = chosen = np.asarray(self._values[name][self._rows])
        return chosen


class _Repeated(dict[str, Floats]):
    """Values of a trace, repeated on demand for several runs of the bodies."""

    def __init__(self, values: dict[str, Floats], copies: int) -> None:
        super().__init__()
        self._values = values
        self._copies = copies

    def __missing__(self, name: str) -> Floats:
        value = self._values[name]
        repeated = value if self._copies == 1 else np.concatenate([value] * self._copies)
        self[name] = repeated
        return repeated
