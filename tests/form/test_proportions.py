"""A regression gives the mean of what it was found from at the means of what it leans on: no figure is miscopied."""

from __future__ import annotations

import numpy as np
import pytest

from draft.base.arrays import Floats
from draft.bodies.formula import GIVEN, Formula
from draft.form.dress_form import ROW, form_of
from draft.form.proportions import MEN, WOMEN, Proportions
from draft.form.silhouette import extents
from tests.form.made_up import body, form

# Means of the survey's odd half (ANSUR II, 2012), cm: the navel's girth, then what each formula is for
SURVEYED = [
    (WOMEN, 86.0, (24.72, 29.99, 21.29, 35.43, 23.28, 44.99, 139.58)),
    (MEN, 94.2, (25.44, 32.68, 23.86, 34.55, 24.61, 51.04, 151.80)),
]


def _at(of: Proportions, formula: Formula, waist: float) -> float:
    values: dict[str, Floats] = {name: np.array([10 * mean]) for name, mean in zip(GIVEN, of.means, strict=True)}
    return float(of.in_mm(formula, values | {"waist_girth": np.array([10 * waist])})[0])


@pytest.mark.parametrize("of,navel,means", SURVEYED, ids=["women", "men"])
def test_formulas_go_through_the_means(of: Proportions, navel: float, means: tuple[float, ...]) -> None:
    at_natural = (of.chest_depth, of.hip_breadth, of.hip_depth, of.shoulder_breadth, of.nape_height)
    wanted = (means[0], means[3], means[4], means[5], means[6])
    for formula, mean in zip(at_natural, wanted, strict=True):
        assert _at(of, formula, of.means[1]) == pytest.approx(10 * mean, abs=2.0)
    for formula, mean in ((of.waist_breadth, means[1]), (of.waist_depth, means[2])):
        assert _at(of, formula, navel) == pytest.approx(10 * mean, abs=2.0)


@pytest.mark.parametrize("wearer,of", [("woman", WOMEN), ("man", MEN)])
def test_what_is_not_known_of_the_four_is_the_middle(wearer: str, of: Proportions) -> None:
    for known, mean in zip(GIVEN[:3], of.means, strict=False):
        found = form_of(body(wearer, **{known: mean}))
        assert found is not None
        for name, other in zip(GIVEN, of.means, strict=True):
            assert found.measured[name][0] == pytest.approx(10 * other, abs=0.01)


def test_covariances_are_those_of_a_body() -> None:
    for of in (WOMEN, MEN):
        spread = np.array(of.covariances)
        assert np.array_equal(spread, spread.T) and (np.linalg.eigvalsh(spread) > 0).all()


def test_the_outline_is_a_body_s() -> None:
    """From in front it is slim at the waist and falls from neck to shoulder; from the side the back is hollow there."""
    for found in (form(), form("man", bust_girth=98.0, waist_girth=84.0, hip_girth=97.0, stature=176.0)):
        broad = np.ptp(extents(found, 0, "front"), axis=1)
        assert broad[ROW["waist"]] < broad[ROW["bust"]] and broad[ROW["waist"]] < broad[ROW["hip"]]
        over = broad[ROW["shoulder"] : ROW["neck"] + 1]
        assert (np.diff(over) < 0).all()
        middle = (broad[ROW["shoulder"]] + broad[ROW["side_neck"]]) / 2
        assert broad[ROW["collar"]] == pytest.approx(middle, abs=15)
        back = extents(found, 0, "side")[:, 1]
        assert 15 < max(back[ROW["hip"]], back[ROW["armpit"]]) - back[ROW["waist"]] < 40
        assert found.heights.of("collar")[0] * 2 == pytest.approx(
            found.heights.of("shoulder")[0] + found.heights.of("side_neck")[0]
        )


def test_who_is_full_in_front_is_less_hollow_behind() -> None:
    slim, full = form(waist_girth=70.0, hip_girth=104.0), form(waist_girth=112.0, hip_girth=108.0)
    hollow = [-float(found.heights.back[0, 3]) for found in (slim, full)]
    assert hollow[0] > 32 and hollow[1] == pytest.approx(8.0)
