"""Figures described in words, a row each: what is said of each body moves its own estimates, those alike at once."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

import numpy as np

from draft.base.arrays import Ints
from draft.base.notes import Problems
from draft.bodies.bodies import Bodies
from draft.bodies.estimates import Estimate
from draft.bodies.said import read_figure, with_figure


def with_figures(bodies: Bodies, figures: Sequence[str], estimates: tuple[Estimate, ...], faults: list[str]) -> Bodies:
    """The bodies with their estimates moved by what is said of them; what cannot be said goes to `faults`.

    What was measured of a body stays as it is.
    """
    values = {one.name: bodies.values[one.name].copy() for one in estimates}
    for text, rows in _alike(figures):
        try:
            said = read_figure(text)
        except Problems as problems:
            for k in rows.tolist():
                faults[k] = faults[k] or problems.notes[0].message
            continue
        of_them = tuple(_of(one, rows) for one in estimates if one.where[rows].any())
        for one in with_figure(bodies.at(rows), said, of_them)[1]:
            values[one.name][rows] = np.where(one.where, one.values, values[one.name][rows])
    return replace(bodies, values={**bodies.values, **values})


def _alike(figures: Sequence[str]) -> Iterator[tuple[str, Ints]]:
    """Each text with the rows that have it."""
    rows: dict[str, list[int]] = {}
    for k, text in enumerate(figures):
        if text:
            rows.setdefault(text, []).append(k)
    for text, some in rows.items():
        yield text, np.array(some)


def _of(estimate: Estimate, rows: Ints) -> Estimate:
    spread = None if estimate.spread is None else estimate.spread[rows]
    return replace(estimate, values=estimate.values[rows], spread=spread, where=estimate.where[rows])
