"""A pattern tried on many bodies: all are drafted, all can put it on and wear it, and every seam walks."""

from __future__ import annotations

from zlib import crc32

import numpy as np

from draft.bodies.bodies import Bodies
from draft.bodies.estimates import completed
from draft.drafting.drafting import drawn
from draft.fit.verdicts import verdicts
from draft.plan.plan import Plan
from draft.seams.walk import walk_seams

SEAM = 0.05  # mm


def whole(plan: Plan, bodies: Bodies) -> Bodies:
    """The bodies with what the pattern asks for and nobody took: the estimates of its people, or its own."""
    return completed(bodies, plan.measures, plan.known, plan.wearers)[0]


def together(*groups: Bodies) -> Bodies:
    """All bodies of several groups as one array, with the measures that all of them have."""
    shared = [name for name in groups[0].values if all(name in group.values for group in groups)]
    names = tuple(name for group in groups for name in group.names)
    return Bodies(names, {name: np.concatenate([group.values[name] for group in groups]) for name in shared})


def some_of(bodies: Bodies, share: int, word: str) -> Bodies:
    """One body of so many, drawn anew for each word and always the same ones for it."""
    drawn = np.random.default_rng(crc32(word.encode())).permutation(len(bodies))[: len(bodies) // share]
    return bodies.at(np.sort(drawn).tolist())


def assert_all_can_wear(plan: Plan, bodies: Bodies) -> None:
    """Fails with the reasons why some cannot, or with the name of a seam whose sides differ."""
    assert reasons(plan, bodies) == []


def reasons(plan: Plan, bodies: Bodies) -> list[str]:
    """Why some cannot wear it, a reason for each; fails where one is not drafted, or where a seam does not walk."""
    outcome, garment = drawn(plan, whole(plan, bodies))
    found = verdicts(outcome, garment)
    assert list(found.undrafted[~found.drafted]) == []
    for seam in walk_seams(garment):
        assert np.abs(seam.difference).max() < SEAM, seam.join.name
    return list(found.unworn[~found.worn])
