"""Main girths that nobody took: the doubt that is told holds on people whom the figures are not of."""

from __future__ import annotations

import numpy as np
import pytest

from draft.bodies.bodies import Bodies
from draft.bodies.guessed_girths import tried_both_ways, with_guesses
from draft.bodies.wearers import CHILDREN, MEN, WOMEN, Wearers
from tests.outside.women import men, real_women

TAKEN = ("bust_girth", "waist_girth", "hip_girth", "stature")


def _men() -> dict[str, np.ndarray]:
    study = men()
    columns = {"bust_girth": "che_gi", "waist_girth": "wai_gi", "hip_girth": "hip_gi", "stature": "hgt"}
    return {name: study[column] * 10 for name, column in columns.items()}


@pytest.mark.parametrize("known", [("bust_girth",), ("hip_girth",), ("bust_girth", "hip_girth", "stature")])
@pytest.mark.parametrize("wearers", [WOMEN, MEN])
def test_nineteen_of_twenty_of_another_study_lie_within(wearers: Wearers, known: tuple[str, ...]) -> None:
    """bdims: 260 women and 247 men, mostly slimmer than the survey; 0.88 allows for so few and where tapes lay."""
    people = real_women().values if wearers is WOMEN else _men()
    bodies = Bodies(tuple(map(str, range(len(people["stature"])))), {name: people[name] for name in known})
    whole, guesses = with_guesses(bodies, wearers)
    assert {one.name for one in guesses} == set(TAKEN) - set(known)
    for one in guesses:
        assert one.spread is not None
        within = np.abs(whole.values[one.name] - people[one.name]) <= one.spread
        assert within.mean() >= 0.88, one.name


def test_nothing_is_guessed_from_a_height_or_for_children() -> None:
    assert with_guesses(Bodies(("a",), {"stature": np.array([1650.0])}), WOMEN)[1] == ()
    assert with_guesses(Bodies(("a",), {"bust_girth": np.array([650.0])}), CHILDREN)[1] == ()


def test_both_ends_of_each_guess_stand_behind_the_body() -> None:
    whole, guesses = with_guesses(Bodies(("a",), {"bust_girth": np.array([980.0])}), WOMEN)
    tried = tried_both_ways(whole, guesses)
    assert len(tried) == 7 and np.all(tried.values["bust_girth"] == 980)
    waist = tried.values["waist_girth"]
    assert waist[1] < waist[0] < waist[2] and np.all(waist[3:] == waist[0])
