"""One unknown and one relation, against what the relation's own algebra gives."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from draft.solve import evaluate
from tests.written import Figures, people, planned

CLOSE = 1e-6  # mm


def solve(lines: str, **measures: Figures) -> tuple[dict[str, np.ndarray], list[np.ndarray], np.ndarray]:
    """What a block chose, by how much its relations are met, and who is drawn."""
    bodies = people(**(measures or {"bust_girth": [90.0]}))
    needed = ", ".join(bodies.values)
    outcome = evaluate(planned(f"body\n    {needed}\n\n{lines}"), bodies)
    return outcome.chosen, [standing.margin for standing in outcome.standings], outcome.drafted


def test_equals_finds_the_leg_of_a_right_triangle() -> None:
    lines = """
piece box
    points
        a at 0, 0
        b at bust_girth / 4, 0
        c at bust_girth / 4, depth
    outline
        low   a to b straight
        side  b to c straight
        slant c to a straight
    cut 1

solve
    depth from 0 cm to 60 cm
    so that length of box.a to box.c equals 40 cm
"""
    bust = np.array([80.0, 94, 120])
    chosen, margins, drawn = solve(lines, bust_girth=bust)
    np.testing.assert_allclose(chosen["depth"], np.sqrt(400**2 - (bust * 2.5) ** 2), atol=CLOSE)
    assert drawn.all() and np.abs(margins[0]).max() < CLOSE


def test_equals_takes_the_root_nearest_to_what_is_wanted() -> None:
    """sine x = 1/2 at 30 deg and at 150 deg."""
    for wanted, root in ((0, 30), (100, 150), (180, 150)):
        lines = f"solve\n    turn from 0 deg to 180 deg, nearest {wanted} deg\n    so that sine of turn equals 50 %"
        chosen, _, drawn = solve(lines)
        assert np.degrees(chosen["turn"][0]) == pytest.approx(root, abs=1e-9)
        assert drawn.all()


@pytest.mark.parametrize("root", [1.0, 3.0, 3.25, 9.0])
def test_equals_finds_a_root_at_an_end_or_at_a_place_that_is_tried(root: float) -> None:
    chosen, _, drawn = solve(f"solve\n    depth from 1 cm to 9 cm\n    so that depth equals {root} cm")
    assert chosen["depth"][0] == pytest.approx(root * 10, abs=CLOSE)
    assert drawn.all()


@pytest.mark.parametrize("relation", ["1 equals sine of turn", "sine of turn equals 1"])
def test_equals_finds_where_its_sides_only_touch(relation: str) -> None:
    """The sine comes up to 1 at 90 deg, a place that is tried, and never past it."""
    chosen, _, drawn = solve(f"solve\n    turn from 0 deg to 180 deg\n    so that {relation}")
    assert np.degrees(chosen["turn"][0]) == pytest.approx(90, abs=1e-6)
    assert drawn.all()


def test_where_the_drawing_begins_to_fail_is_no_root() -> None:
    """The triangle on 3 cm stands 2 cm high for a side near 6.8 cm; past 7 cm the other two do not reach its tip."""
    lines = """
piece triangle
    points
        a at 0, 0
        b at 3 cm, 0
        c strike reach from a and 4 cm from b going up
    outline
        low   a to b straight
        side  b to c straight
        slant c to a straight
    cut 1

solve
    reach from 0 cm to 20 cm, nearest 20 cm
    so that run of triangle.a to triangle.c heading up equals 2 cm
"""
    chosen, _, drawn = solve(lines)
    assert chosen["reach"][0] == pytest.approx(np.hypot(30 + np.sqrt(40**2 - 20**2), 20), abs=CLOSE)
    assert drawn.all()


@pytest.mark.parametrize(("asked", "met"), [("9.00008", True), ("9.00012", False)])
def test_a_relation_is_met_to_the_micrometre(asked: str, met: bool) -> None:
    _, _, drawn = solve(f"solve\n    depth from 1 cm to 9 cm\n    so that depth equals {asked} cm")
    assert drawn[0] == met


def test_equals_that_nothing_brackets_comes_as_near_as_it_can_and_is_not_met() -> None:
    lines = "solve\n    depth from 1 cm to 9 cm\n    so that depth + bust_girth equals 100 cm"
    chosen, margins, drawn = solve(lines, bust_girth=[70.0, 95.0, 120.0])
    np.testing.assert_allclose(chosen["depth"], [90.0, 50.0, 10.0], atol=CLOSE)
    np.testing.assert_allclose(margins[0], [-210.0, 0.0, -210.0], atol=CLOSE)
    assert drawn.tolist() == [False, True, False]


def test_an_unknown_stays_where_it_is_wanted_while_that_will_do() -> None:
    lines = """
solve
    low   from 0 cm to 10 cm
    so that low + bust_girth at least 70 cm
solve
    high  from 0 cm to 10 cm, nearest 10 cm
    so that high at most bust_girth
solve
    mid   from 0 cm to 10 cm, nearest 1/3 in
    so that mid at most bust_girth
"""
    chosen, _, drawn = solve(lines)
    assert (chosen["low"][0], chosen["high"][0]) == (0.0, 100.0)
    assert chosen["mid"][0] == pytest.approx(25.4 / 3, rel=1e-15)
    assert drawn.all()


def test_an_unknown_gives_way_no_further_than_it_must_and_on_the_met_side() -> None:
    lines = """
solve
    more  from 0 cm to 20 cm
    so that bust_girth + more at least 96.2 cm
solve
    lean  from 0 deg to 40 deg, nearest 40 deg
    so that lean at most 31 deg
"""
    chosen, margins, drawn = solve(lines, bust_girth=[90.0, 95.0, 100.0])
    np.testing.assert_allclose(chosen["more"], [62.0, 12.0, 0.0], atol=CLOSE)
    np.testing.assert_allclose(np.degrees(chosen["lean"]), 31.0, atol=1e-9)
    assert min(margin.min() for margin in margins) >= 0.0
    assert drawn.all()


def test_the_ends_of_a_range_are_tried_however_near_the_wanted_value_lies() -> None:
    chosen, _, drawn = solve("solve\n    x from 0 cm to 32 cm, nearest 0.5 cm\n    so that x at most 0 cm")
    assert chosen["x"][0] == pytest.approx(0.0, abs=CLOSE)
    assert drawn.all()


def test_of_two_ways_to_give_way_the_shorter_is_taken() -> None:
    """Away from 40 deg the sine falls to a half at 30 deg; past 90 deg it would do so at 150 deg."""
    for wanted, settled in ((40, 30), (139, 150)):
        lines = f"solve\n    turn from 0 deg to 180 deg, nearest {wanted} deg\n    so that sine of turn at most 50 %"
        chosen, _, _ = solve(lines)
        assert np.degrees(chosen["turn"][0]) == pytest.approx(settled, abs=1e-9)


def test_what_cannot_be_met_stays_where_it_helps_most() -> None:
    lines = """
solve
    turn from 0 deg to 180 deg
    so that sine of turn at least 1.5
"""
    chosen, margins, drawn = solve(lines)
    assert np.degrees(chosen["turn"][0]) == pytest.approx(90.0, abs=0.1)
    assert margins[0][0] == pytest.approx(-0.5, abs=1e-5)
    assert not drawn.any()


def test_a_range_turned_about_fails_for_that_body_alone() -> None:
    lines = "solve\n    depth from bust_girth - 90 cm to 5 cm\n    so that depth at least 2 cm"
    bodies = people(bust_girth=[80.0, 100.0])
    outcome = evaluate(planned(f"body\n    bust_girth\n\n{lines}"), bodies)
    assert [fact for _, fact, _ in outcome.trace.failures] == [
        "the range is empty: its low end lies above its high end"
    ]
    assert outcome.drafted.tolist() == [True, False]
    assert outcome.chosen["depth"][0] == pytest.approx(20.0, abs=CLOSE)


def test_a_range_may_be_a_single_value() -> None:
    lines = "solve\n    depth from bust_girth - 90 cm to 5 cm\n    so that depth at least 2 cm"
    chosen, _, drawn = solve(lines, bust_girth=[95.0, 94.0])
    assert chosen["depth"].tolist() == [50.0, 40.0]
    assert drawn.all()


def test_one_block_may_lean_on_another() -> None:
    lines = """
solve
    second from 0 cm to 90 cm
    so that second equals 2 * first
solve
    first  from 0 cm to 90 cm
    so that first + 10 cm equals bust_girth / 3
"""
    chosen, _, drawn = solve(lines, bust_girth=[90.0, 120.0])
    np.testing.assert_allclose(chosen["first"], [200.0, 300.0], atol=CLOSE)
    np.testing.assert_allclose(chosen["second"], [400.0, 600.0], atol=CLOSE)
    assert drawn.all()


quantity = st.floats(-50, 50).map(lambda value: round(value, 3))


@settings(max_examples=40, deadline=None)
@given(quantity, quantity, quantity, quantity, st.floats(0.1, 3).map(lambda v: round(v, 2)), st.booleans())
def test_a_straight_relation_gives_way_as_its_algebra_says(
    a: float, b: float, wanted: float, asked: float, slope: float, at_least: bool
) -> None:
    low, high = min(a, b), max(a, b)
    assume(high - low > 0.5)
    sort = "at least" if at_least else "at most"
    lines = (
        (f"solve\n    x from {low} cm to {high} cm, nearest {wanted} cm\n    so that {slope} * x {sort} {asked} cm")
        .replace("from -", "from 0 cm - ")
        .replace("to -", "to 0 cm - ")
        .replace("nearest -", "nearest 0 cm - ")
    )
    chosen, margins, drawn = solve(lines)
    start = min(max(wanted, low), high)
    edge = asked / slope
    expected = max(start, min(edge, high)) if at_least else min(start, max(edge, low))
    assert chosen["x"][0] / 10 == pytest.approx(expected, abs=1e-6)
    assert drawn[0] == (margins[0][0] >= -1e-3)
