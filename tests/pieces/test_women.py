"""Every bundled pattern for women, drafted for women nobody had in mind: 260 of a study, and 200 drawn from a survey.

Each is drafted, each can be put on and worn in the cloth that the pattern is meant for, and each seam walks.
"""

from __future__ import annotations

import numpy as np
import pytest

from draft.bodies.bodies import Bodies
from draft.bodies.estimates import completed
from draft.bodies.wearers import WOMEN
from draft.drafting.drafting import drawn
from draft.fit.verdicts import verdicts
from tests.outside.drawn_women import MEANS, drawn_women
from tests.outside.women import real_women
from tests.pieces.shapes import SHAPES, plan_of
from tests.pieces.wearing import reasons, some_of, together, whole

FOR_WOMEN = [shape for shape in SHAPES if plan_of(*shape).wearers is WOMEN]
NOT_FOR_ALL = {
    ("hooded", "neck_finish", "band"): "the neckband, to pass over the head and hair: ",
    ("marlpit", "neckline", "crew"): "the neckband, to pass over the head and hair: ",
    ("marlpit", "neckline", "boat"): "does not hold: the neckline stays on the shoulders, ",
    ("ropewalk", "back_slit", "no"): "does not hold: there is room to walk, ",
    ("roundhouse", "circle", "quarter"): "does not hold: the skirt goes over the hip, ",
}
"""Shapes that are not for everybody, and what is told: a close neck in jersey that stretches by 40 %, a neck as wide
as narrow shoulders, a straight skirt without a slit, a narrow one over a hip that the waist does not foretell."""


every_woman = pytest.mark.parametrize("women", [real_women(), drawn_women()], ids=["real", "drawn"])


@pytest.mark.parametrize("name", [name for name, style, _ in FOR_WOMEN if not style])
@every_woman
def test_every_woman_can_wear_every_pattern_and_its_seams_walk(name: str, women: Bodies) -> None:
    _all_wear((name, "", ""), women)


@pytest.mark.parametrize("shape", [shape for shape in FOR_WOMEN if shape[1]], ids=" ".join)
def test_a_quarter_of_the_women_can_wear_each_other_shape(shape: tuple[str, str, str]) -> None:
    """Other women for each shape."""
    plan = plan_of(*shape)
    some = (some_of(whole(plan, women), 4, " ".join(shape)) for women in (real_women(), drawn_women()))
    _all_wear(shape, together(*some))


@pytest.mark.slow
@pytest.mark.parametrize("shape", FOR_WOMEN, ids=lambda shape: " ".join(shape).strip())
@every_woman
def test_every_woman_can_wear_every_shape_and_its_seams_walk(shape: tuple[str, str, str], women: Bodies) -> None:
    _all_wear(shape, women)


def _all_wear(shape: tuple[str, str, str], women: Bodies) -> None:
    refused = reasons(plan_of(*shape), women)
    known = NOT_FOR_ALL.get(shape)
    assert [reason for reason in refused if not (known and reason.startswith(known))] == []


def test_a_quarter_of_a_circle_is_refused_to_those_alone_whose_hips_have_no_room_in_it() -> None:
    """20 cm below a waist with 1 cm of ease a quarter circle is longer by pi / 2 times 20 cm."""
    plan, women = plan_of("roundhouse", "circle", "quarter"), real_women()
    refused = verdicts(*drawn(plan, completed(women, plan.measures, plan.known, plan.wearers)[0])).unworn != ""
    room = women.values["waist_girth"] + 10 + np.pi / 2 * 200
    assert np.array_equal(refused, room < women.values["hip_girth"] + 20)


def test_the_women_that_are_drawn_are_as_various_as_those_of_the_survey() -> None:
    """Means within four standard errors of 200; bust and hip go together about as they do there (0.80)."""
    women = drawn_women()
    for name, mean in MEANS.items():
        values = women.values[name] / 10
        assert abs(values.mean() - mean) < 4 * values.std() / np.sqrt(len(women)), name
    together = np.corrcoef(women.values["bust_girth"], women.values["hip_girth"])[0, 1]
    assert 0.7 < together < 0.9
