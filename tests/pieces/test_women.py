"""Every bundled pattern for women, drafted for women nobody had in mind: 260 of a study, and 200 drawn from a survey.

Each is drafted, each can be put on and worn in the cloth that the pattern is meant for, and each seam walks.
"""

from __future__ import annotations

import numpy as np
import pytest

from draft.bodies.bodies import Bodies
from draft.bodies.wearers import WOMEN
from draft.plan.library import find
from tests.outside.drawn_women import MEANS, drawn_women
from tests.outside.women import real_women
from tests.pieces.bundled import PATTERNS
from tests.pieces.wearing import assert_all_can_wear
from tests.written import make_plan


@pytest.mark.parametrize("name", PATTERNS)
@pytest.mark.parametrize("women", [real_women(), drawn_women()], ids=["real", "drawn"])
def test_every_woman_can_wear_it_and_its_seams_walk(name: str, women: Bodies) -> None:
    plan = make_plan(find(name))
    if plan.wearers is not WOMEN:
        pytest.skip("not for women")
    assert_all_can_wear(plan, women)


def test_the_women_that_are_drawn_are_as_various_as_those_of_the_survey() -> None:
    """Means within four standard errors of 200; bust and hip go together about as they do there (0.80)."""
    women = drawn_women()
    for name, mean in MEANS.items():
        values = women.values[name] / 10
        assert abs(values.mean() - mean) < 4 * values.std() / np.sqrt(len(women)), name
    together = np.corrcoef(women.values["bust_girth"], women.values["hip_girth"])[0, 1]
    assert 0.7 < together < 0.9
