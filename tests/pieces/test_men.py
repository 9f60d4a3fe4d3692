"""Every bundled pattern for men, drafted for 200 men drawn from a survey: each can put it on, and each seam walks."""

from __future__ import annotations

import numpy as np
import pytest

from draft.bodies.estimates import completed
from draft.bodies.wearers import MEN
from draft.drafting.drafting import drawn
from draft.fit.verdicts import verdicts
from draft.plan.library import find
from draft.seams.walk import walk_seams
from tests.outside.drawn_men import MEANS, drawn_men
from tests.pieces.bundled import PATTERNS
from tests.written import make_plan

SEAM = 0.05  # mm
FOR_MEN = tuple(name for name in PATTERNS if make_plan(find(name)).wearers is MEN)


def test_there_are_patterns_for_men() -> None:
    assert "boatyard" in FOR_MEN


@pytest.mark.parametrize("name", FOR_MEN)
def test_every_man_can_wear_it_and_its_seams_walk(name: str) -> None:
    plan = make_plan(find(name))
    outcome, garment = drawn(plan, completed(drawn_men(), plan.measures, plan.known, MEN)[0])
    found = verdicts(outcome, garment)
    assert list(found.undrafted[~found.drafted]) == []
    assert list(found.unworn[~found.worn]) == []
    for seam in walk_seams(garment):
        assert np.abs(seam.difference).max() < SEAM, seam.join.name


def test_the_men_that_are_drawn_are_as_various_as_those_of_the_survey() -> None:
    """Means within four standard errors of 200; waist and hip go together about as they do there (0.89)."""
    men = drawn_men()
    for name, mean in MEANS.items():
        values = men.values[name] / 10
        assert abs(values.mean() - mean) < 4 * values.std() / np.sqrt(len(men)), name
    together = np.corrcoef(men.values["waist_girth"], men.values["hip_girth"])[0, 1]
    assert 0.84 < together < 0.94
