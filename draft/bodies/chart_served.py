"""Whom the sizes of a chart serve: people who lie near enough to one of them, at every girth at once.

A girth may be near one size and the next girth near another; what counts is that one size is near at all of them.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence

import numpy as np

from draft.base.arrays import Bools, Floats, Ints
from draft.bodies.bodies import Bodies
from draft.bodies.formula import GIVEN

GIRTHS = GIVEN[:3]
"""Bust, waist and hip."""


def near(chart: Floats, people: Floats, within: Floats) -> Bools:
    """Whether each body `(n,)` lies within so many mm `(sizes,)` of each size `(sizes,)` at one girth: `(n, sizes)`."""
    return np.asarray(np.abs(people[:, None] - chart) <= within + 1e-6)


def steps_of(chart: Floats) -> Floats:
    """For each size of a girth `(sizes,)` the smaller of the steps to its neighbours, mm; zero for a single size."""
    if len(chart) < 2:
        return np.zeros(len(chart))
    steps = np.abs(np.diff(chart))
    return np.asarray(np.minimum(np.concatenate([steps[:1], steps]), np.concatenate([steps, steps[-1:]])))


HALF, WHOLE = 0.5, 1.0


def served(chart: Bodies, people: Bodies, girths: Sequence[str], step: float) -> Bools:
    """Who `(n,)` has a size within that part of its step at all these girths at once."""
    return by_one_size(near(chart.values[g], people.values[g], step * steps_of(chart.values[g])) for g in girths)


def by_one_size(each: Iterable[Bools]) -> Bools:
    """Who `(n,)` is near the same size at every girth, of what is near at each `(n, sizes)`."""
    return np.asarray(np.logical_and.reduce(list(each)).any(axis=1))


def nearest_size(chart: Floats, people: Floats) -> Ints:
    """For each body `(n,)` the number of the size whose girth `(sizes,)` is nearest."""
    return np.asarray(np.abs(people[:, None] - chart).argmin(axis=1))


def usual_at(lead: Floats, other: Floats, at: Floats) -> tuple[Floats, Floats]:
    """What another girth usually is at values of the leading one `(k,)`, and its spread (one sd), of people `(n,)`."""
    slope, start = np.polyfit(lead, other, 1)
    off = other - (slope * lead + start)
    return np.asarray(slope * at + start), np.full(len(at), float(off.std()))
