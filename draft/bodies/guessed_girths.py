"""The main girths and the height of somebody who knows only some of them: what such people have, and the doubt of it.

They are taken as jointly normal with the means and covariances of `population.py`: given some, the others lie about
their regression on those, as far as the rest of their variance says.
"""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from draft.base.arrays import Floats
from draft.base.naming import and_list, plain
from draft.base.units import Kind
from draft.bodies.bodies import Bodies
from draft.bodies.estimates import SPREADS, Estimate
from draft.bodies.formula import GIVEN
from draft.bodies.measures import MEASURES
from draft.bodies.population import POPULATIONS, moments
from draft.bodies.wearers import Wearers, wearers_called

GIRTHS = GIVEN[:3]
"""One of these at least has to be known: a height alone says of no garment which size it takes."""


def with_guesses(person: Bodies, wearers: Wearers) -> tuple[Bodies, tuple[Estimate, ...]]:
    """The bodies with what nobody took of bust, waist, hip and height, and what was put in for it.

    Nothing is put in where no girth is known, or for those of whom no figures are, such as children.
    """
    of = POPULATIONS.get((wearers_called(person.wearer) or wearers).name)
    known = [k for k, name in enumerate(GIVEN) if name in person.values]
    lacking = [k for k in range(len(GIVEN)) if k not in known]
    if of is None or not lacking or not {GIVEN[k] for k in known}.intersection(GIRTHS):
        return person, ()
    values = np.stack([person.values[GIVEN[k]] for k in known], axis=-1)
    found, spread = _conditional(values, known, lacking, *moments(of))
    source = f"{of.told}, of whom such a {and_list([plain(GIVEN[k]).removesuffix(' girth') for k in known])} was taken"
    everybody = np.ones(len(person), dtype=bool)
    guesses = []
    for at, k in enumerate(lacking):
        measure = MEASURES[GIVEN[k]]
        taken = np.clip(found[:, at], measure.low, measure.high)
        doubt = np.full(len(person), SPREADS * spread[at])
        guesses.append(Estimate(measure.name, taken, doubt, source, everybody, Kind.LENGTH))
    return replace(person, values=dict(person.values) | {one.name: one.values for one in guesses}), tuple(guesses)


def tried_both_ways(person: Bodies, guesses: tuple[Estimate, ...]) -> Bodies:
    """One body, and behind it the same with each guess at either end of its doubt: `1 + 2 * guesses` bodies."""
    count = 1 + 2 * len(guesses)
    values = {name: np.repeat(column[:1], count) for name, column in person.values.items()}
    for k, guess in enumerate(guesses):
        if guess.spread is not None:
            ends = guess.values[0] + np.array([-1, 1]) * guess.spread[0]
            values[guess.name][1 + 2 * k : 3 + 2 * k] = np.clip(ends, *_limits(guess.name))
    names = (person.names[0], *(f"{person.names[0]} {k}" for k in range(1, count)))
    return replace(person, names=names, values=values)


def _limits(name: str) -> tuple[float, float]:
    return MEASURES[name].low, MEASURES[name].high


def _conditional(
    values: Floats, known: list[int], lacking: list[int], means: Floats, covariances: Floats
) -> tuple[Floats, Floats]:
    """What is lacking `(bodies, lacking)`, and one standard deviation of each `(lacking,)`, all in mm."""
    slopes = np.linalg.solve(covariances[np.ix_(known, known)], covariances[np.ix_(known, lacking)])
    rest = covariances[np.ix_(lacking, lacking)] - covariances[np.ix_(lacking, known)] @ slopes
    return means[lacking] + (values - means[known]) @ slopes, np.sqrt(np.diagonal(rest))
