"""A measure that hardly anybody has beside her others: mostly a slip in taking, typing or copying it.

The main girths and the height are held to what the others of one person make of them, on the population of
`population.py`, whose long tails are those of logarithms. Nothing is refused: bodies differ.
"""

from __future__ import annotations

import numpy as np

from draft.bodies.bodies import Bodies
from draft.bodies.formula import GIVEN
from draft.bodies.population import POPULATIONS, moments, of_logarithms
from draft.bodies.wearers import Wearers, wearers_called

FAR = 6.0
"""Deviations from what the others make of it. Of ANSUR II the farthest of 996 women lies 3.6 off, of 2,042 men 4.1."""


def unlike_others(person: Bodies, wearers: Wearers) -> tuple[str, ...]:
    """The names of those of the first body's main measures that hardly anybody has beside the others, farthest first.

    None where fewer than two were taken, or for those of whom no figures are, such as children.
    """
    of = POPULATIONS.get((wearers_called(person.wearer) or wearers).name)
    known = [k for k, name in enumerate(GIVEN) if name in person.values]
    if of is None or len(known) < 2:
        return ()
    centre, spread = of_logarithms(*moments(of))
    off = np.log([float(person.values[GIVEN[k]][0]) for k in known]) - centre[known]
    precision = np.linalg.inv(spread[np.ix_(known, known)])
    far = np.abs(precision @ off) / np.sqrt(np.diagonal(precision))
    return tuple(GIVEN[known[k]] for k in np.argsort(-far) if far[k] > FAR)
