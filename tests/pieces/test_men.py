"""Every bundled pattern for men, drafted for 200 men drawn from a survey: each can put it on, and each seam walks."""

from __future__ import annotations

import numpy as np
import pytest

from draft.bodies.wearers import MEN
from draft.plan.library import find
from tests.outside.drawn_men import MEANS, drawn_men
from tests.pieces.bundled import PATTERNS
from tests.pieces.wearing import assert_all_can_wear
from tests.written import make_plan

FOR_MEN = tuple(name for name in PATTERNS if make_plan(find(name)).wearers is MEN)


def test_there_are_patterns_for_men() -> None:
    assert "boatyard" in FOR_MEN


@pytest.mark.parametrize("name", FOR_MEN)
def test_every_man_can_wear_it_and_its_seams_walk(name: str) -> None:
    assert_all_can_wear(make_plan(find(name)), drawn_men())


def test_the_men_that_are_drawn_are_as_various_as_those_of_the_survey() -> None:
    """Means within four standard errors of 200; waist and hip go together about as they do there (0.89)."""
    men = drawn_men()
    for name, mean in MEANS.items():
        values = men.values[name] / 10
        assert abs(values.mean() - mean) < 4 * values.std() / np.sqrt(len(men)), name
    together = np.corrcoef(men.values["waist_girth"], men.values["hip_girth"])[0, 1]
    assert 0.84 < together < 0.94
