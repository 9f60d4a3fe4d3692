"""Several unknowns: giving way one after another, or settled together."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from draft.solve import evaluate
from tests.solve.test_one_unknown import solve
from tests.written import people, planned

PLANE = """
piece plane
    points
        o at 0, 0
        p at x, y
        q at 10 cm, 0
    outline
        one   o to q straight
        two   q to p straight
        three p to o straight
    cut 1
"""
"""A point at x and y, which the relations of a block settle."""

IN_TURN = """
solve
    first   from 0 cm to 5 cm
    second  from 0 cm to 8 cm, nearest 2 cm
    third   from 0 cm to 10 cm
    so that bust_girth + first + second + third at least 100 cm
"""


def test_the_first_gives_way_before_the_second_and_that_before_the_third() -> None:
    bust = [98.5, 95.0, 90.0, 84.0, 70.0]
    chosen, margins, drawn = solve(IN_TURN, bust_girth=bust)
    np.testing.assert_allclose(chosen["first"] / 10, [0, 3, 5, 5, 5], atol=1e-7)
    np.testing.assert_allclose(chosen["second"] / 10, [2, 2, 5, 8, 8], atol=1e-7)
    np.testing.assert_allclose(chosen["third"] / 10, [0, 0, 0, 3, 10], atol=1e-7)
    assert drawn.tolist() == [True, True, True, True, False]
    assert margins[0][4] == pytest.approx(-70.0)


def test_all_relations_of_a_block_are_kept_at_once() -> None:
    lines = """
solve
    depth from 0 cm to 20 cm
    so that depth at least bust_girth / 10
    so that depth at least 8 cm
    so that depth at most 12 cm
"""
    chosen, _, drawn = solve(lines, bust_girth=[70.0, 100.0, 130.0])
    np.testing.assert_allclose(chosen["depth"][:2], [80.0, 100.0], atol=1e-6)
    assert drawn.tolist() == [True, True, False]
    assert 120.0 - 1e-6 <= chosen["depth"][2] <= 130.0 + 1e-6  # between the two that it cannot both keep


def test_two_equations_give_both_unknowns() -> None:
    lines = """
solve
    x from 0 cm to 80 cm
    y from 0 cm to 80 cm
    so that x + y equals bust_girth
    so that x - y equals 10 cm
"""
    chosen, margins, drawn = solve(lines, bust_girth=[90.0, 60.0])
    np.testing.assert_allclose(chosen["x"], [500.0, 350.0], atol=1e-5)
    np.testing.assert_allclose(chosen["y"], [400.0, 250.0], atol=1e-5)
    assert drawn.all() and max(np.abs(m).max() for m in margins) < 1e-3


def test_unknowns_reach_all_of_their_ranges_wherever_they_are_wanted() -> None:
    lines = """
solve
    x from 5 cm to 80 cm, nearest 60 cm
    y from 0 cm to 40 cm, nearest 40 cm
    so that x + y equals bust_girth
    so that x - y equals 50 cm
"""
    chosen, _, drawn = solve(lines, bust_girth=[100.0, 60.0])
    np.testing.assert_allclose(chosen["x"], [750.0, 550.0], atol=1e-3)
    np.testing.assert_allclose(chosen["y"], [250.0, 50.0], atol=1e-3)
    assert drawn.all()


def test_what_is_missed_by_little_more_than_a_micrometre_is_settled_too() -> None:
    lines = """
solve
    x from 0 cm to 80 cm, nearest 50.00012 cm
    y from 0 cm to 80 cm, nearest 20 cm
    so that x equals 50 cm
    so that y equals 20 cm
"""
    chosen, _, drawn = solve(lines)
    assert chosen["x"][0] == pytest.approx(500.0, abs=1e-3) and chosen["y"][0] == pytest.approx(200.0, abs=1e-3)
    assert drawn.all()


def test_one_unknown_under_two_relations_is_settled_for_each_of_several_bodies() -> None:
    lines = """
solve
    depth from 0 cm to 20 cm
    so that depth equals bust_girth / 10
    so that depth at least 9 cm
"""
    chosen, _, drawn = solve(lines, bust_girth=[90.0, 100.0, 130.0])
    np.testing.assert_allclose(chosen["depth"], [90.0, 100.0, 130.0], atol=1e-3)
    assert drawn.all()


def test_a_circle_and_a_line_meet_where_they_meet() -> None:
    lines = f"""{PLANE}
solve
    x from 0 cm to 50 cm
    y from 0 cm to 50 cm
    so that length of plane.o to plane.p equals 25 cm
    so that y equals 3 / 4 * x
"""
    chosen, _, drawn = solve(lines)
    assert (chosen["x"][0], chosen["y"][0]) == pytest.approx((200.0, 150.0), abs=1e-3)
    assert drawn.all()


def test_an_equation_beside_an_inequality() -> None:
    lines = """
solve
    x from 0 cm to 80 cm
    y from 0 cm to 80 cm
    so that x + y equals 50 cm
    so that x at least 30 cm
"""
    chosen, _, drawn = solve(lines)
    assert chosen["x"][0] + chosen["y"][0] == pytest.approx(500.0, abs=1e-3)
    assert chosen["x"][0] >= 300.0 - 1e-3
    assert drawn.all()


def test_equations_that_contradict_one_another_are_not_met() -> None:
    lines = """
solve
    x from 0 cm to 80 cm
    y from 0 cm to 80 cm
    so that x + y equals 50 cm
    so that x + y equals 52 cm
"""
    _, margins, drawn = solve(lines)
    assert not drawn.any()
    assert sum(margin[0] for margin in margins) == pytest.approx(-20.0, abs=0.1)


def test_what_adds_nothing_and_what_nothing_settles_is_remarked() -> None:
    lines = """
solve
    x from 0 cm to 80 cm
    y from 0 cm to 80 cm, nearest 7 cm
    so that x equals 50 cm
    so that 2 * x + 0 * y equals 100 cm
"""
    outcome = evaluate(planned(f"body\n    bust_girth\n{lines}"), people(bust_girth=[90.0]))
    assert outcome.drafted.all()
    assert outcome.chosen["y"][0] == pytest.approx(70.0)
    assert [span.text for span, _ in outcome.remarks] == ["2 * x + 0 * y equals 100 cm", "y"]


def test_a_relation_that_says_another_once_more_is_remarked() -> None:
    lines = """
solve
    x from 0 cm to 80 cm
    y from 0 cm to 70 cm
    so that x + y / 3 equals 50 cm
    so that 3 * x + y equals 150 cm
"""
    outcome = evaluate(planned(f"body\n    bust_girth\n{lines}"), people(bust_girth=[90.0]))
    assert outcome.drafted.all()
    assert [span.text for span, _ in outcome.remarks] == ["3 * x + y equals 150 cm"]


share = st.floats(0.05, 0.95)
weight = st.floats(-2, 2).map(lambda value: round(value, 2))


@settings(max_examples=25, deadline=None)
@given(st.lists(weight, min_size=9, max_size=9), st.lists(share, min_size=3, max_size=3))
def test_three_straight_equations_are_solved(cells: list[float], shares: list[float]) -> None:
    matrix = np.array(cells).reshape(3, 3)
    if abs(np.linalg.det(matrix)) < 0.3:
        return
    root = np.array(shares) * 50
    wanted = matrix @ root
    rows = "".join(
        f"    so that {_sum(row)} equals {_signed(value)}\n" for row, value in zip(matrix, wanted, strict=True)
    )
    unknowns = "".join(f"    {name} from 0 cm to 50 cm\n" for name in "xyz")
    chosen, margins, drawn = solve(f"solve\n{unknowns}{rows}")
    assert drawn.all()
    np.testing.assert_allclose([chosen[name][0] / 10 for name in "xyz"], root, atol=1e-3)
    assert max(np.abs(margin).max() for margin in margins) <= 1e-3


def _sum(row: np.ndarray) -> str:
    return " + ".join(
        f"(0 - {-weight}) * {name}" if weight < 0 else f"{weight} * {name}"
        for weight, name in zip(row, "xyz", strict=True)
    )


def _signed(value: float) -> str:
    return f"{value:.6f} cm" if value >= 0 else f"0 cm - {-value:.6f} cm"


CIRCLE = f"""{PLANE}
solve
    x from 0 cm to 50 cm, nearest 30 cm
    y from 0 cm to 50 cm, nearest 40 cm
    so that length of plane.o to plane.p equals 25 cm
"""


def test_of_many_answers_the_nearest_to_what_is_wanted_is_taken() -> None:
    chosen, _, drawn = solve(CIRCLE)
    assert (chosen["x"][0], chosen["y"][0]) == pytest.approx((150.0, 200.0), abs=1e-2)
    assert drawn.all()


def test_a_relation_with_room_to_spare_moves_nothing_and_one_without_holds_back() -> None:
    chosen, _, drawn = solve(f"{CIRCLE}    so that y at most bust_girth\n", bust_girth=[90.0, 15.0, 7.0])
    np.testing.assert_allclose(chosen["x"], [150.0, 200.0, 240.0], atol=1e-2)
    np.testing.assert_allclose(chosen["y"], [200.0, 150.0, 70.0], atol=1e-2)
    assert drawn.all()


@pytest.mark.parametrize("first", ["slight", "left"])
def test_an_unknown_that_hardly_matters_stays_where_it_is_wanted(first: str) -> None:
    """Two equations settle the two others; a metre of what is slight does as much as a millimetre of the others."""
    rows = {
        "slight": "    slight from 0 cm to 8 cm, nearest 0 cm\n",
        "left": "    left from 0 cm to 80 cm, nearest 20 cm\n    right from 0 cm to 80 cm, nearest 20 cm\n",
    }
    order = rows.pop(first) + "".join(rows.values())
    lines = f"""
solve
{order}    so that left + right + slight / 1000 equals bust_girth
    so that left - right + slight / 1000 equals 10 cm
    so that left + slight at least 5 cm
"""
    chosen, _, drawn = solve(lines, bust_girth=[90.0, 60.0])
    assert drawn.all() and np.all(chosen["slight"] < 0.01)
    np.testing.assert_allclose(chosen["left"], [500.0, 350.0], atol=1e-4)
    np.testing.assert_allclose(chosen["right"], [400.0, 250.0], atol=1e-4)


def test_what_is_asked_for_is_shared_by_how_much_each_unknown_does_for_it() -> None:
    """By Lagrange, of ranges of one width: each moves by so much as it matters, here 3 to 1 to 0."""
    lines = """
solve
    much   from 0 cm to 40 cm, nearest 10 cm
    some   from 0 cm to 40 cm, nearest 10 cm
    none   from 0 cm to 40 cm, nearest 33 cm
    so that 3 * much + some equals bust_girth
    so that none at least 5 cm
"""
    chosen, _, drawn = solve(lines, bust_girth=[60.0, 145.0])
    np.testing.assert_allclose(chosen["much"], [160.0, 400.0], atol=1e-3)
    np.testing.assert_allclose(chosen["some"], [120.0, 250.0], atol=1e-3)
    np.testing.assert_allclose(chosen["none"], [330.0, 330.0], atol=1e-3)
    assert drawn.all()


@settings(max_examples=25, deadline=None)
@given(st.lists(weight, min_size=3, max_size=3), st.lists(share, min_size=6, max_size=6))
def test_no_other_answer_is_nearer(row: list[float], shares: list[float]) -> None:
    """Against points of the plane that were drawn by chance, those beyond a range or a limit left out."""
    if max(np.abs(row)) < 0.2:
        return
    wanted, root = np.array(shares[:3]) * 50, np.array(shares[3:]) * 50
    wish = [f"{value:.6f} cm" for value in wanted]
    unknowns = "".join(f"    {name} from 0 cm to 50 cm, nearest {at}\n" for name, at in zip("xyz", wish, strict=True))
    lines = f"solve\n{unknowns}    so that {_sum(np.array(row))} equals {_signed(float(np.dot(row, root)))}\n"
    chosen, _, drawn = solve(f"{lines}    so that x at least {root[0]:.6f} cm\n")
    found = np.array([chosen[name][0] / 10 for name in "xyz"])
    others = np.random.default_rng(1).uniform(-50, 50, (500, 3))
    others = root + others - np.outer(others @ row, row) / np.dot(row, row)
    inside = np.all((others >= 0) & (others <= 50), axis=1) & (others[:, 0] >= root[0])
    nearest = min([*np.linalg.norm(others[inside] - wanted, axis=1), float(np.linalg.norm(root - wanted))])
    assert drawn.all() and np.linalg.norm(found - wanted) <= nearest + 1e-3
