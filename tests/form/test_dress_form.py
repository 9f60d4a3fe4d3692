"""Forms of surveyed, charted and odd bodies: the tape reads what was measured, and the rest is as surveys have it."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
import shapely

from draft.base.resources import folder
from draft.bodies.bodies import Bodies
from draft.bodies.chart import read_chart
from draft.bodies.wearers import CHILDREN
from draft.form.dress_form import ROW, Form, form_of
from draft.form.silhouette import extents
from tests.form.made_up import body, form
from tests.outside.drawn_men import drawn_men
from tests.outside.drawn_women import drawn_women

LEVELS = ("bust", "under_bust", "waist", "top_hip", "hip", "neck")
WITHIN = 0.1  # mm


def _made(bodies: Bodies) -> Form:
    found = form_of(bodies)
    assert found is not None
    return found


def _hull(found: Form, level: str, k: int) -> float:
    half = found.halves[k, ROW[level]]
    return float(shapely.MultiPoint(np.concatenate([half, half * [-1, 1]])).convex_hull.length)


def _people() -> list[tuple[str, Bodies]]:
    women, men = drawn_women(), replace(drawn_men(), wearer="man")
    charts = [("chart of women", read_chart(folder("pieces") / "women.csv"))]
    charts += [("chart of men", replace(read_chart(folder("pieces") / "men.csv"), wearer="man"))]
    ribs = {**women.values, "under_bust_girth": women.values["bust_girth"] * 0.8}
    high = {**women.values, "high_bust_girth": women.values["bust_girth"] * 0.94}
    more = [("with ribs", replace(women, values=ribs)), ("with high bust", replace(women, values=high))]
    return [("women", women), ("men", men), *charts, *more]


@pytest.mark.parametrize("name,bodies", _people(), ids=lambda it: it if isinstance(it, str) else "")
def test_every_girth_that_was_measured_is_what_another_tape_reads(name: str, bodies: Bodies) -> None:
    found = _made(bodies)
    levels = {level: found.measured[f"{level}_girth"] for level in LEVELS}
    if "high_bust_girth" in bodies.values:
        levels["armpit"] = found.measured["high_bust_girth"]
    for level, wanted in levels.items():
        read = np.array([_hull(found, level, k) for k in range(len(bodies))])
        assert np.abs(read - wanted).max() < WITHIN, level
    if "shoulder_girth" in bodies.values:
        assert np.abs(found.over_arms() - bodies.values["shoulder_girth"]).max() < WITHIN
    assert np.allclose(found.arm.girths()[:, 1], found.measured["upper_arm_girth"])


def test_the_back_waist_length_lies_along_the_back() -> None:
    bodies = drawn_women()
    found = _made(bodies)
    off = [_down_the_back(found, k) - float(bodies.values["back_waist_length"][k]) for k in range(len(bodies))]
    assert abs(np.mean(off)) < 5 and np.abs(off).max() < 10  # mm: the blades bulge beyond the two chords


def _down_the_back(found: Form, body: int) -> float:
    """A taut tape from the nape, over the middle of the back, to the waist: by the hull of the profile."""
    rows = slice(ROW["waist"], ROW["side_neck"] + 1)
    profile = np.stack([found.halves[body, rows, -1, 1], found.rows[body, rows]], axis=1)
    hull = shapely.MultiPoint(profile).convex_hull
    return float(hull.length - np.hypot(*(profile[-1] - profile[0])))


def test_shoulders_over_the_arms_are_as_broad_as_surveyed_ones() -> None:
    """Neither this tape nor its like was used where no shoulder girth is given: bideltoid breadths place the arms."""
    bodies = drawn_women()
    without = {name: values for name, values in bodies.values.items() if name != "shoulder_girth"}
    off = _made(replace(bodies, values=without)).over_arms() - bodies.values["shoulder_girth"]
    assert abs(off.mean()) < 20 and off.std() < 45
    man = form("man", bust_girth=106, waist_girth=91.1, hip_girth=102, stature=175.7)
    assert man.over_arms()[0] == pytest.approx(1179, abs=20)  # the mean of 2,042 men (ANSUR II)


def test_heights_and_breadths_that_were_not_built_in_are_the_survey_s() -> None:
    """Means of 996 women (ANSUR II, odd numbers), cm: acromion 133.5, biacromial 36.6, nape to navel 42.7, hip 83.4."""
    found = form(bust_girth=94.6, waist_girth=79.2, hip_girth=102.2, stature=162.9)
    assert found.heights.of("shoulder")[0] == pytest.approx(1335, abs=20)
    assert 2 * found.heights.tip[0] == pytest.approx(366, abs=15)
    assert found.heights.of("hip")[0] == pytest.approx(834, abs=25)
    assert _down_the_back(found, 0) + 20 == pytest.approx(427, abs=15)


def test_depths_are_surveyed_depths() -> None:
    """Means of the same women, cm: chest depth 24.7, and of 2,042 men 25.4."""
    woman = form(bust_girth=94.6, waist_girth=78.5, hip_girth=102.2, stature=162.9)
    man = form("man", bust_girth=106, waist_girth=91.1, hip_girth=102, stature=175.7)
    for found, deep in ((woman, 247), (man, 254)):
        assert np.ptp(extents(found, 0, "side")[ROW["bust"]]) == pytest.approx(deep, abs=2)


def test_a_fuller_bust_stands_farther_forward_and_the_ribs_stay() -> None:
    small, full = form(bust_girth=90, under_bust_girth=78), form(bust_girth=104, under_bust_girth=78)
    assert full.bust.forward[0] > small.bust.forward[0] + 15
    assert full.girth("under_bust")[0] == pytest.approx(780, abs=WITHIN)


def test_a_body_is_as_it_is_alone() -> None:
    bodies = drawn_women(5)
    all_of_them = _made(bodies)
    for k, name in enumerate(bodies.names):
        alone = _made(bodies.select([name]))
        assert np.allclose(alone.halves[0], all_of_them.halves[k], atol=1e-3)
        assert np.allclose(alone.arm.start[0], all_of_them.arm.start[k], atol=1e-3)


def test_an_erect_body_has_its_neck_higher_and_a_stooping_one_lower() -> None:
    erect, usual, stooping = form(front_waist_length=46), form(), form(front_waist_length=42)
    over = [found.heights.of("side_neck")[0] - found.heights.nape[0] for found in (erect, usual, stooping)]
    assert over[0] > over[1] + 5 and over[2] < over[1] - 5


@pytest.mark.parametrize("long", [43.0, 44.0, 45.5])
def test_the_front_waist_length_lies_over_the_bust_point(long: float) -> None:
    found = form(front_waist_length=long)
    neck, bust = (found.halves[0, ROW[level]] for level in ("side_neck", "bust"))
    heights = [found.heights.of(level)[0] for level in ("side_neck", "bust", "waist")]
    side = np.array([neck[:, 0].max(), (neck[0, 1] + neck[-1, 1]) / 2, heights[0]])
    point = np.array([*bust[np.argmin(bust[:, 1])], heights[1]])
    assert np.linalg.norm(side - point) + heights[1] - heights[2] == pytest.approx(long * 10, abs=5)


def test_rows_rise_and_stay_finite_in_odd_bodies() -> None:
    odd = [
        body(bust_girth=62, waist_girth=52, hip_girth=66, stature=125),
        body(bust_girth=175, waist_girth=185, hip_girth=180, stature=150),
        body(bust_girth=90, under_bust_girth=95, waist_girth=100, hip_girth=90, stature=160),
        body(bust_girth=90, bust_depth=44, armpit_depth=29, back_waist_length=30, waist_girth=70, hip_girth=90),
        body("man", bust_girth=80, waist_girth=140, hip_girth=100, stature=215),
    ]
    for bodies in odd:
        found = _made(bodies)
        assert np.isfinite(found.halves).all() and (np.diff(found.rows) > 0).all()
        assert found.girth("bust")[0] == pytest.approx(bodies.values["bust_girth"][0], abs=WITHIN)
        assert found.cautions[0]


def test_what_is_carried_on_or_estimated_is_told() -> None:
    assert any("estimated on the form: under bust girth" in caution for caution in form().cautions[0])
    far = form(hip_girth=150).cautions[0]
    assert any("few people of this hip girth were measured" in caution for caution in far)


def test_a_hip_alone_makes_a_form_and_a_child_none() -> None:
    found = _made(body(hip_girth=101.0))
    assert found.girth("hip")[0] == pytest.approx(1010, abs=WITHIN)
    assert found.girth("waist")[0] == pytest.approx(776, abs=15)  # the middle of surveyed women with this hip
    assert form_of(body("child", hip_girth=80.0)) is None
    assert form_of(replace(body(hip_girth=80.0), wearer=""), CHILDREN) is None
    assert form_of(body(stature=164.0)) is None


def test_of_many_bodies_each_is_made_of_what_it_has() -> None:
    values = {"hip_girth": np.array([1010.0, np.nan, np.nan]), "bust_girth": np.array([np.nan, 900.0, np.nan])}
    found = _made(Bodies(("a", "b", "c"), values))
    assert found.girth("hip")[0] == pytest.approx(1010, abs=WITHIN)
    assert found.girth("bust")[1] == pytest.approx(900, abs=WITHIN)
    assert np.isfinite(found.halves).all() and "bust girth" in found.cautions[2][0]


def test_an_arm_keeps_its_length_at_any_angle() -> None:
    found = form(outer_arm_length=55)
    for down in (0.0, 45.0, 90.0):
        ends = found.arm.placed(0, np.radians(down))
        assert np.hypot(*(ends[-1] - ends[0])[[0, 2]]) == pytest.approx(found.arm.along[0, -1])
        assert ends[0, 2] - ends[-1, 2] == pytest.approx(found.arm.along[0, -1] * np.sin(np.radians(down)))


@pytest.mark.parametrize("level", ["waist", "hip"])
def test_a_belly_and_a_seat_that_were_measured_lie_before_and_behind_the_side_lines(level: str) -> None:
    usual = form()
    girth = float(usual.girth(level)[0])
    for share in (0.46, 0.55):
        found = form(**{f"front_{level}_width": girth * share / 10})
        half = found.halves[0, ROW[level]]
        widest = int(np.argmax(half[:, 0]))
        front = 2 * np.linalg.norm(np.diff(half[: widest + 1], axis=0), axis=1).sum()
        assert front == pytest.approx(girth * share, rel=0.01)
        assert found.girth(level)[0] == pytest.approx(girth, abs=0.2)
        own, plain = (one.halves[0, ROW[level]] for one in (found, usual))
        assert own[-1, 1] == pytest.approx(plain[-1, 1]) and own[:, 0].max() == pytest.approx(plain[:, 0].max())
        assert (own[widest, 1] > plain[int(np.argmax(plain[:, 0])), 1]) == (share > 0.5)  # the side lies farther back
