"""The table of measures: the standard's clauses, and limits that catch slips between inches and centimetres."""

from __future__ import annotations

import re

import numpy as np
import pytest

from draft.base.units import MM_PER_INCH, Kind, read_quantity
from draft.bodies.bodies import Bodies, body_notes
from draft.bodies.measures import MEASURES, unknown_measure

# ISO 8559-1:2017, clauses as read.
CLAUSES = {
    "neck_girth": "5.3.2",
    "neck_base_girth": "5.3.3",
    "bust_girth": "5.3.4",
    "under_bust_girth": "5.3.8",
    "waist_girth": "5.3.10",
    "top_hip_girth": "5.3.12",
    "hip_girth": "5.3.13",
    "upper_arm_girth": "5.3.16",
    "wrist_girth": "5.3.19",
    "across_back_shoulder_width": "5.4.3",
    "back_waist_length": "5.4.5",
    "back_neck_point_to_wrist": "5.4.17",
    "outer_arm_length": "5.7.8",
}
NAMES = sorted(MEASURES)


def test_clauses_are_those_of_the_standard() -> None:
    assert {m.name: m.clause for m in MEASURES.values() if m.clause} == CLAUSES


@pytest.mark.parametrize("name", NAMES)
def test_a_measure_can_be_taken_and_written(name: str) -> None:
    measure = MEASURES[name]
    assert re.fullmatch(r"[a-z]+(_[a-z]+)*", name)
    assert len(measure.how) > 20 and not measure.how.endswith(".")
    example = read_quantity(measure.example)
    assert example.kind is measure.kind and measure.low < example.value < measure.high


@pytest.mark.parametrize("factor", [1 / 2.54, 2.54, 10, 0.1, -1], ids=["in as cm", "cm as in", "x10", "/10", "minus"])
def test_a_slip_on_any_size_of_the_chart_is_refused(women: Bodies, factor: float) -> None:
    for name, values in women.values.items():
        if MEASURES[name].kind is not Kind.LENGTH:
            continue
        slipped = values * factor
        for k in np.flatnonzero((slipped >= MEASURES[name].low) & (slipped <= MEASURES[name].high)):
            one = Bodies(("Ines",), {n: v[k : k + 1] for n, v in women.values.items()} | {name: slipped[k : k + 1]})
            assert body_notes(one, [name]), name


def test_nine_metres_is_no_measure_of_a_body() -> None:
    assert all(measure.high < 9000 for measure in MEASURES.values() if measure.kind is Kind.LENGTH)


def test_real_women_and_the_chart_lie_within_the_limits(women: Bodies, bdims: Bodies) -> None:
    assert len(women) == 7 and len(bdims) == 260
    assert bdims.values.keys() >= women.values.keys()
    assert body_notes(women, women.values) == body_notes(bdims, bdims.values) == []


def test_an_unknown_measure_gets_the_nearest_name() -> None:
    assert unknown_measure("bust girth").hints == ("try `bust_girth`",)
    assert unknown_measure("waist_grith").hints == ("try `waist_girth`",)
    assert unknown_measure("hips").hints == ("try `hip_girth`",)
    assert unknown_measure("zzz").hints == ()
    assert len(unknown_measure("x" * 10**6).message) < 80


@pytest.mark.parametrize(
    ("said", "meant"),
    [
        ("thigh_circumference", "thigh_girth"),
        ("head circ", "head_girth"),
        ("inseam", "inside_leg_length"),
        ("bicep", "upper_arm_girth"),
        ("total_crotch_length", "crotch_length"),
        ("nape_to_waist", "back_waist_length"),
        ("height", "stature"),
    ],
)
def test_what_others_call_a_measure_leads_to_its_name(said: str, meant: str) -> None:
    assert unknown_measure(said).hints == (f"try `{meant}`",)


def test_an_inch_reading_is_offered() -> None:
    body = Bodies(("Ines",), {"bust_girth": np.array([360.0])})
    (note,) = body_notes(body, ["bust_girth"])
    assert note.message == "`bust_girth` is 36 cm for Ines, outside 60 cm to 180 cm"
    assert note.hints == ("did you mean 36 in?",)


@pytest.mark.parametrize(
    ("mm", "meant"),
    [(36 * MM_PER_INCH / 2.54, "36 in"), (98 * MM_PER_INCH, "98 cm"), (98, "98 cm"), (9800, "980 mm"), (-980, "98 cm")],
)
def test_the_likely_slip_is_named(mm: float, meant: str) -> None:
    (note,) = body_notes(Bodies(("Ines",), {"bust_girth": np.array([mm])}), [])
    assert note.hints == (f"did you mean {meant}?",)


def test_a_figure_with_no_likely_reading_is_measured_again() -> None:
    (note,) = body_notes(Bodies(("Ines",), {"bust_girth": np.array([1e300])}), [])
    assert note.hints[0].startswith("measure again: around the fullest")
