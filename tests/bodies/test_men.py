"""The bundled chart of men, invented for this project, against what was published about men's bodies.

Its waist is the natural waist, which is smaller than the survey's navel waist.
"""

from __future__ import annotations

import numpy as np
import pytest

from draft.base.resources import folder
from draft.bodies.bodies import Bodies
from draft.bodies.chart import read_chart
from draft.bodies.estimates import estimate
from draft.bodies.formula import GIVEN
from draft.bodies.wearers import MEN

Chart = dict[str, np.ndarray]

EN_13402_3 = {
    "XS": (78, 86),
    "S": (86, 94),
    "M": (94, 102),
    "L": (102, 110),
    "XL": (110, 118),
    "2XL": (118, 129),
    "3XL": (129, 141),
}
"""Chest girths of the letter codes of EN 13402-3 (its XXL is called 2XL here). From memory."""

LEVEL = ("crotch_depth", "inside_leg_length", "waist_height", "shoulder_slope")
OTHERS = ("shoulder_slope", "head_girth")
"""Rows that follow from no other measure."""

CHEST = np.array([90.0, 98, 106, 114, 122])
MEDIANS = {
    "waist_girth": np.array([73.9, 81.5, 91.5, 99.9, 108.5]),
    "hip_girth": np.array([89.9, 96.0, 101.8, 107.4, 113.8]),
    "crotch_length": np.array([61.7, 63.4, 66.1, 68.7, 71.8]),
    "thigh_girth": np.array([52.5, 57.5, 61.9, 65.6, 69.8]),
    "heel_girth": np.array([33.0, 33.5, 34.2, 35.2, 36.3]),
    "neck_base_girth": np.array([40.5, 41.8, 43.3, 45.3, 46.5]),
    "shoulder_length": np.array([15.0, 14.7, 15.0, 15.1, 15.5]),
    "wrist_girth": np.array([16.6, 17.0, 17.5, 18.0, 18.5]),
    "outer_arm_length": np.array([58.2, 59.1, 59.1, 60.0, 60.2]),
}
"""US Army anthropometric survey of 2012 (ANSUR II), 2,042 men: medians within 2 cm of each chest girth, corrected as in
`tests/outside/drawn_men.py`."""

MISSED = {
    "waist_girth": 5.0,  # what a waist or a hip guessed from the chest misses by; a chart is no tighter
    "hip_girth": 5.0,
    "crotch_length": 2.0,
    "thigh_girth": 2.6,
    "heel_girth": 1.1,
    "neck_base_girth": 1.72,
    "shoulder_length": 0.98,
    "wrist_girth": 0.72,
    "outer_arm_length": 1.9,
}
"""cm: what the formulas of the estimates miss single men by."""


@pytest.fixture(scope="module")
def men() -> Bodies:
    return read_chart(folder("pieces") / "men.csv")


@pytest.fixture(scope="module")
def chart(men: Bodies) -> Chart:
    """The chart in cm, angles aside."""
    return {name: values / 10 for name, values in men.values.items() if name != "shoulder_slope"}


def test_seven_sizes_have_chests_within_the_letter_codes(chart: Chart, men: Bodies) -> None:
    assert men.names == tuple(EN_13402_3)
    for chest, (low, high) in zip(chart["bust_girth"], EN_13402_3.values(), strict=True):
        assert abs(chest - (low + high) / 2) <= 0.5  # the middle, to a round figure


def test_every_row_grows_by_steps_that_never_shrink(chart: Chart) -> None:
    for name, row in chart.items():
        steps = np.diff(row)
        assert np.all(steps == 0) if name in LEVEL else np.all(steps > 0), name
        assert np.all(np.diff(steps) > -1e-9), name


def test_rows_are_what_the_estimates_make_of_the_sizes(men: Bodies) -> None:
    """Within 5 mm of the formulas for men, which were fitted on the survey; rounded to steps that never shrink."""
    given = Bodies(men.names, {name: men.values[name] for name in GIVEN})
    for name in men.values.keys() - {*GIVEN, *OTHERS}:
        found = estimate(given, name, wearers=MEN)
        assert found and np.abs(found.values - men.values[name]).max() < 5.0, name


@pytest.mark.parametrize("name", sorted(MEDIANS))
def test_rows_follow_the_medians_of_the_survey(chart: Chart, name: str) -> None:
    at = np.interp(CHEST, chart["bust_girth"], chart[name])
    assert np.all(np.abs(at - MEDIANS[name]) < MISSED[name])  # soldiers' chests are strong, and their waists slim


def test_fuller_figures_are_straighter_and_every_size_is_a_body(chart: Chart) -> None:
    drop = chart["hip_girth"] - chart["waist_girth"]
    assert np.all(np.diff(drop) < 0) and np.all((drop > -5) & (drop < 20))
    assert np.all(chart["knee_girth"] < chart["thigh_girth"]) and np.all(chart["ankle_girth"] < chart["heel_girth"])
    assert np.all(chart["crotch_depth"] + chart["inside_leg_length"] - chart["waist_height"] < 0.6)
