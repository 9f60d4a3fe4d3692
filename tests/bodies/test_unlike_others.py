"""A slip among the main measures is told of, and no body that a survey has."""

from __future__ import annotations

import numpy as np
import pytest

from draft.bodies.bodies import Bodies
from draft.bodies.population import people_of
from draft.bodies.unlike_others import unlike_others
from draft.bodies.wearers import CHILDREN, MEN, WOMEN

GIVEN = ("bust_girth", "waist_girth", "hip_girth", "stature")


def _person(*centimetres: float) -> Bodies:
    return Bodies(("she",), {name: np.array([10.0 * one]) for name, one in zip(GIVEN, centimetres, strict=False)})


@pytest.mark.parametrize(
    ("body", "name"),
    [((110, 60, 62, 165), "hip_girth"), ((110, 58, 70, 150), "bust_girth"), ((81, 140, 95, 160), "waist_girth")],
)
def test_a_slip_is_told_of(body: tuple[float, ...], name: str) -> None:
    assert unlike_others(_person(*body), WOMEN)[0] == name


@pytest.mark.parametrize(
    "body",
    [
        (98, 83, 104, 168),
        (150, 165, 150, 165),
        (140, 178, 140, 160),
        (120, 135, 110, 160),
        (79, 60, 110, 160),
        (94, 62),
    ],
)
def test_bodies_that_there_are_are_not(body: tuple[float, ...]) -> None:
    """Apple, pear and very full figures: the waists of 158 to 178 cm that a survey of heavy people has."""
    assert unlike_others(_person(*body), WOMEN) == ()


@pytest.mark.parametrize(("name", "wearers"), [("women", WOMEN), ("men", MEN)])
def test_nobody_of_the_population_is(name: str, wearers: object) -> None:
    people = people_of(name, 400)
    for k in range(len(people)):
        one = Bodies((people.names[k],), {girth: column[k : k + 1] for girth, column in people.values.items()})
        assert unlike_others(one, wearers) == (), k  # type: ignore[arg-type]


def test_of_children_and_of_one_measure_nothing_is_known() -> None:
    assert unlike_others(_person(110, 60, 62, 165), CHILDREN) == () and unlike_others(_person(110), WOMEN) == ()
