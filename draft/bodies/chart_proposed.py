"""A chart for so many sizes and some people: the steps that serve most of them.

Sizes begin somewhere and grow by steps that may themselves grow, all in half centimetres; waist and hip are what people
of such a bust usually have. Of all such charts that one is taken by which most people lie within a few centimetres of
one size at every girth. The other measures are the usual estimates for the bodies found.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

import numpy as np

from draft.base.arrays import Floats
from draft.base.record import dataclass
from draft.bodies.bodies import Bodies
from draft.bodies.chart_served import GIRTHS, by_one_size, near, usual_at
from draft.bodies.estimates import completed
from draft.bodies.measures import MEASURES
from draft.bodies.wearers import WOMEN, Wearers

WITHIN = 60.0
"""A garment for cloth that gives serves a body that is so many mm off at a girth, up or down (common practice)."""
_ROUND = 5.0
_STEPS = np.arange(40.0, 121.0, _ROUND)
_GROWING = (0.0, 5.0, 10.0, 15.0)
"""By how much a step may be more than the one before, mm."""
_STARTS = np.linspace(0.0, 0.2, 11)
"""Where the smallest size may lie: the share of people whose bust is less."""


@dataclass(frozen=True)
class Proposal:
    """A chart, and which share of people lies within so many mm of one of its sizes at bust, waist and hip."""

    chart: Bodies
    share: float


def proposed(
    people: Bodies,
    names: Sequence[str],
    within: float = WITHIN,
    wearers: Wearers = WOMEN,
    ends: tuple[float, float] | None = None,
    lead: str = "bust_girth",
) -> Proposal:
    """The chart of sizes of these names that serves most people; `ends` are the bust of its first and last size, mm.

    Raises ValueError for no people or no names.
    """
    if not len(people) or not names:
        raise ValueError("a chart needs people, and names for its sizes")
    best, most = np.zeros(len(names)), -1.0
    for sizes in _between(*ends, len(names)) if ends else _candidates(people.values[lead], len(names)):
        share = _share(_girths(people, lead, sizes), people, within)
        if share > most + 1e-9:
            best, most = sizes, share
    values = _girths(people, lead, best)
    values["stature"] = _rounded(usual_at(people.values[lead], people.values["stature"], best)[0])
    whole, _ = completed(Bodies(tuple(names), values), MEASURES, MEASURES, wearers)
    never_less = {name: np.maximum.accumulate(row) for name, row in whole.values.items()}
    return Proposal(Bodies(whole.names, never_less), most)


def _candidates(lead: Floats, count: int) -> Iterator[Floats]:
    """The sizes of the leading girth, mm `(count,)`."""
    for start in np.unique(_rounded(np.quantile(lead, _STARTS))):
        for step in _STEPS:
            for more in _GROWING if count > 2 else _GROWING[:1]:
                yield _growing(start, step, more, count)


def _between(first: float, last: float, count: int) -> Iterator[Floats]:
    """The same where both ends are given: only how much the steps grow is tried."""
    for more in _GROWING:
        step = (last - first - more * (count - 1) * (count - 2) / 2) / max(count - 1, 1)
        if step > 0 or count == 1:
            yield _rounded(_growing(first, step, more, count))


def _growing(start: float, step: float, more: float, count: int) -> Floats:
    """So many sizes `(count,)` from a first one on, each step longer than the one before."""
    numbers = np.arange(count)
    return np.asarray(start + step * numbers + more * numbers * (numbers - 1) / 2)


def _girths(people: Bodies, lead: str, sizes: Floats) -> dict[str, Floats]:
    found = {lead: sizes}
    for other in GIRTHS:
        if other != lead:
            found[other] = _rounded(usual_at(people.values[lead], people.values[other], sizes)[0])
    return {girth: found[girth] for girth in GIRTHS}


def _share(girths: dict[str, Floats], people: Bodies, within: float) -> float:
    each = (near(sizes, people.values[girth], np.full(len(sizes), within)) for girth, sizes in girths.items())
    return float(by_one_size(each).mean())


def _rounded(values: Floats) -> Floats:
    return np.asarray(np.round(values / _ROUND) * _ROUND)
