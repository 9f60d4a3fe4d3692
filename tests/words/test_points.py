"""Words that find points, against school geometry: triangles of whole numbers, circles, mirrors and turns."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from draft.base.arrays import Bools, Floats
from draft.bodies.bodies import Bodies
from draft.geometry import cubic
from draft.geometry.arc import arc
from draft.geometry.length import length
from draft.solve import evaluate
from draft.words import WORDS
from tests.written import PIECE, planned

UP, DOWN, ACROSS, INWARD = ([[0.0, 1]], [[0.0, -1]], [[1.0, 0]], [[-1.0, 0]])
PLACE = st.tuples(st.floats(-300, 300), st.floats(-300, 300)).map(lambda p: np.array([p]).round(3))
ANGLE = st.floats(-3.1, 3.1)


def found(word: str, *given_: object) -> Floats:
    """The point of a word, which must not fail."""
    result = WORDS[word].run(*(np.asarray(each, dtype=float) for each in given_))
    if isinstance(result, tuple):
        assert result[1].all()
        return result[0]
    return result


def fails(word: str, *given_: object) -> bool:
    """Whether a word fails; what it gives all the same must be finite."""
    values, fits = WORDS[word].run(*(np.asarray(each, dtype=float) for each in given_))
    assert np.isfinite(values).all()
    return not fits.any()


def between(a: object, b: object) -> Floats:
    return found("line_between", a, b)


def turned(points: Floats, angle: float, about: Floats) -> Floats:
    c, s = np.cos(angle), np.sin(angle)
    return (points - about) @ np.array([[c, s], [-s, c]]) + about


def quarter() -> Floats:
    """A quarter circle of radius 100 about the origin, from across to up."""
    path, _ = arc(np.zeros((1, 2)), np.array([[100.0, 0]]), np.array([[0.0, 100]]))
    return path


# ---- arcs struck ----------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(("side", "up"), [(UP, 24.0), (DOWN, -24.0)])
def test_two_arcs_of_a_right_triangle_strike_at_its_height(side: list[list[float]], up: float) -> None:
    # 30, 40 and 50: the height on the long side is 24, its foot 18 from the shorter leg's end
    assert np.allclose(found("strike_twice", [30], [[0, 0]], [40], [[50, 0]], side), [[18, up]])


def test_two_arcs_that_only_touch_strike_between_their_centres() -> None:
    assert np.allclose(found("strike_twice", [30], [[0, 0]], [20], [[50, 0]], UP), [[30, 0]])
    assert np.allclose(found("strike_twice", [80], [[0, 0]], [30], [[50, 0]], UP), [[80, 0]])


@pytest.mark.parametrize(
    ("first", "second", "far", "side"),
    [
        (20, 20, 50, UP),  # too short to reach
        (90, 30, 50, UP),  # one round the other
        (30, 40, 50, ACROSS),  # along the line of the centres there is no side
        (30, 30, 0, UP),  # one centre
    ],
)
def test_two_arcs_that_do_not_strike(first: float, second: float, far: float, side: list[list[float]]) -> None:
    assert fails("strike_twice", [first], [[0, 0]], [second], [[far, 0]], side)


@settings(max_examples=60)
@given(PLACE, st.floats(5, 200), st.floats(0.05, 3.09), st.floats(5, 200), ANGLE)
def test_the_place_struck_lies_at_both_distances_on_the_side_named(
    centre: Floats, first: float, corner: float, far: float, angle: float
) -> None:
    other = centre + far * np.array([[np.cos(angle), np.sin(angle)]])
    second = np.sqrt(first**2 + far**2 - 2 * first * far * np.cos(corner))  # the third side of the triangle
    side = np.array([[-np.sin(angle), np.cos(angle)]])
    at = found("strike_twice", [first], centre, [second], other, side)
    assert np.allclose(cubic.norm(at - centre), first) and np.allclose(cubic.norm(at - other), second, atol=1e-6)
    assert cubic.dot(at - centre, side)[0] > 0
    across = found("strike_twice", [first], centre, [second], other, -side)
    assert np.allclose(across, found("mirrored_over", at, between(centre, other)), atol=1e-5)


@pytest.mark.parametrize(("side", "across"), [(ACROSS, 40.0), (INWARD, -40.0), ([[0.6, 0.8]], 40.0)])
def test_an_arc_strikes_a_line_where_pythagoras_says(side: list[list[float]], across: float) -> None:
    # radius 50 about a point 30 above the line
    line = between([[-10, 0]], [[90, 0]])
    assert np.allclose(found("strike_to_line", [50], [[0, 30]], line, side), [[across, 0]])


def test_an_arc_touches_a_line_at_its_foot_and_no_nearer_arc_reaches_it() -> None:
    line = between([[0, 0]], [[30, 40]])
    foot = found("square_onto", [[50, 0]], line)
    assert np.allclose(foot, [[18, 24]])
    assert np.allclose(found("strike_to_line", [40 + 1e-9], [[50, 0]], line, UP), foot, atol=1e-3)
    assert fails("strike_to_line", [39.99], [[50, 0]], line, UP)
    assert fails("strike_to_line", [50], [[50, 0]], line, [[-0.8, 0.6]])  # square to the line there is no side
    assert fails("strike_to_line", [50], [[50, 0]], between([[0, 0]], [[0, 0]]), UP)


# ---- steps from a point ---------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("steps", "at"),
    [
        ("3 cm across", (40, 20)),
        ("3 cm across, 4 cm up", (40, 60)),
        ("3 cm across, 4 cm up, 5 cm along a to b", (70, 100)),
        ("3 cm across, 4 cm up, 5 cm along a to b, 2 cm inward", (50, 100)),
    ],
)
def test_every_step_from_a_point_is_taken(steps: str, at: tuple[float, float]) -> None:
    piece = PIECE.replace(
        "points\n", f"points\n        a at 1 cm, 2 cm\n        b at 7 cm, 10 cm\n        c from a: {steps}\n"
    )
    outcome = evaluate(planned(piece), Bodies(("one",), {}))
    assert np.allclose(outcome.trace.values["patch.c"], [at])


# ---- turned, mirrored, square ---------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("degrees", "at"), [(90, (-20, 40)), (180, (-60, 0)), (-90, (-20, -40)), (60, (0, 20 * 3**0.5)), (0, (20, 0))]
)
def test_turning_runs_from_across_towards_up(degrees: float, at: tuple[float, float]) -> None:
    assert np.allclose(found("turned_about", [[20, 0]], [[-20, 0]], [np.radians(degrees)]), [at])


@settings(max_examples=40)
@given(PLACE, PLACE, ANGLE, ANGLE)
def test_two_turns_are_one_and_keep_the_distance(point: Floats, centre: Floats, first: float, second: float) -> None:
    once = found("turned_about", point, centre, [first])
    assert np.allclose(cubic.norm(once - centre), cubic.norm(point - centre))
    twice = found("turned_about", once, centre, [second])
    assert np.allclose(twice, found("turned_about", point, centre, [first + second]), atol=1e-9)


@settings(max_examples=40)
@given(PLACE, PLACE, ANGLE)
def test_a_mirror_image_lies_square_across_as_far_away(point: Floats, start: Floats, angle: float) -> None:
    along = np.array([[np.cos(angle), np.sin(angle)]])
    line = found("line_heading", start, along)
    image, foot = found("mirrored_over", point, line), found("square_onto", point, line)
    assert np.allclose(foot, (point + image) / 2)
    assert np.allclose(cubic.dot(image - point, along), 0, atol=1e-9)
    assert np.allclose(cubic.cross(along, foot - start), 0, atol=1e-9)
    assert np.allclose(found("mirrored_over", image, line), point)


def test_a_line_without_length_has_neither_foot_nor_mirror() -> None:
    nowhere = between([[5, 5]], [[5, 5]])
    assert fails("square_onto", [[1, 2]], nowhere) and fails("mirrored_over", [[1, 2]], nowhere)


# ---- on lines and edges ---------------------------------------------------------------------------------------------


def test_places_on_a_line_by_length_by_share_and_halfway() -> None:
    line = between([[10, 10]], [[40, 50]])  # 50 long
    assert np.allclose(found("on_line", line, [10], [[10, 10]]), [[16, 18]])
    assert np.allclose(found("on_line", line, [10], [[40, 50]]), [[34, 42]])
    assert np.allclose(found("on_line", line, [-10], [[10, 10]]), [[4, 2]])
    assert np.allclose(found("share_of_line", line, [0.2], [[10, 10]]), [[16, 18]])
    assert np.allclose(found("midway", line), [[25, 30]])
    assert fails("on_line", between([[1, 1]], [[1, 1]]), [10], [[1, 1]])


@pytest.mark.parametrize(("share", "degrees"), [(0.0, 0), (1 / 3, 30), (0.5, 45), (1.0, 90)])
def test_places_on_a_quarter_circle(share: float, degrees: float) -> None:
    on_circle = 100 * np.array([[np.cos(np.radians(degrees)), np.sin(np.radians(degrees))]])
    whole = length(quarter())
    assert np.allclose(found("share_of_edge", quarter(), [share], [[100, 0]]), on_circle, atol=2e-3)
    assert np.allclose(found("share_of_edge", quarter(), [1 - share], [[0, 100]]), on_circle, atol=2e-3)
    assert np.allclose(found("on_edge", quarter(), share * whole, [[90, 5]]), on_circle, atol=2e-3)


def test_past_the_ends_of_an_edge_there_is_nothing() -> None:
    assert fails("on_edge", quarter(), [158.0], [[100, 0]]) and fails("on_edge", quarter(), [-0.1], [[100, 0]])
    assert fails("share_of_edge", quarter(), [1.01], [[100, 0]])


def test_where_lines_and_edges_meet() -> None:
    level, slope = between([[0, 60]], [[10, 60]]), between([[0, 0]], [[8, 6]])
    assert np.allclose(found("where_lines_meet", level, slope), [[80, 60]])
    assert np.allclose(found("where_edge_meets", quarter(), level), [[80, 60]], atol=2e-3)
    assert np.allclose(found("where_edge_last_meets", quarter(), slope), [[80, 60]], atol=2e-3)
    assert np.allclose(found("where_edge_meets_nearest", quarter(), level, [[0, 0]]), [[80, 60]], atol=2e-3)
    assert fails("where_lines_meet", level, between([[0, 0]], [[5, 0]]))
    assert fails("where_edge_meets", quarter(), between([[0, 101]], [[10, 101]]))
    assert fails("where_edge_meets_nearest", quarter(), between([[0, 101]], [[10, 101]]), [[0, 0]])


def test_first_last_and_nearest_of_two_meetings_of_edges() -> None:
    bar = cubic.line([[0.0, 80]], [[100.0, 20]])[:, None]  # it cuts the quarter circle twice
    # on the bar x = 100 s, y = 80 - 60 s: 13600 s^2 - 9600 s - 3600 = 0, of which only one root is positive
    s = (9600 + np.sqrt(9600**2 + 4 * 13600 * 3600)) / (2 * 13600)
    once = [[100 * s, 80 - 60 * s]]
    assert np.allclose(found("where_edges_meet", quarter(), bar), once, atol=2e-3)
    long = cubic.line([[0.0, 120]], [[120.0, 0]])[:, None]  # x + y = 120: x is 60 plus or minus the root of 1400
    away = np.sqrt(1400)
    low, high = [[60 + away, 60 - away]], [[60 - away, 60 + away]]
    assert np.allclose(found("where_edges_meet", quarter(), long), low, atol=2e-3)
    assert np.allclose(found("where_edges_last_meet", quarter(), long), high, atol=2e-3)
    assert np.allclose(found("where_edges_meet_nearest", quarter(), long, [[0, 90]]), high, atol=2e-3)
    assert fails("where_edges_meet", quarter(), cubic.line([[0.0, 0]], [[30.0, 30]])[:, None])


# ---- all of them ----------------------------------------------------------------------------------------------------

A, B, P = np.array([[0.0, 0]]), np.array([[90.0, 20]]), np.array([[40.0, 70]])
SIDE = np.array([[0.1, 1.0]]) / np.hypot(0.1, 1)


@settings(max_examples=25)
@given(ANGLE, PLACE)
@pytest.mark.parametrize(
    "find",
    [
        lambda a, b, p, way: found("strike_twice", [60], a, [70], b, way),
        lambda a, b, p, way: found("strike_to_line", [90], p, between(a, b), way[:, ::-1] * [[1, -1]]),
        lambda a, b, p, way: found("turned_about", p, a, [0.7]),
        lambda a, b, p, way: found("mirrored_over", p, between(a, b)),
        lambda a, b, p, way: found("square_onto", p, between(a, b)),
        lambda a, b, p, way: found("on_line", between(a, b), [33], b),
        lambda a, b, p, way: found("where_lines_meet", between(a, p), found("line_heading", b, way)),
        lambda a, b, p, way: found("where_edge_meets", cubic.line(a, b)[:, None], found("line_heading", p, way)),
    ],
    ids=["twice", "to_line", "turned", "mirrored", "square", "on_line", "lines_meet", "edge_meets"],
)
def test_a_drawing_turned_and_moved_gives_the_point_turned_and_moved(
    find: Callable[..., Floats], angle: float, move: Floats
) -> None:
    origin = np.zeros((1, 2))
    plain = find(A, B, P, SIDE)
    elsewhere = find(*(turned(p, angle, origin) + move for p in (A, B, P)), turned(SIDE, angle, origin))
    assert np.allclose(elsewhere, turned(plain, angle, origin) + move, atol=1e-6)


def test_each_body_has_its_own_point() -> None:
    reach = np.array([60.0, 10.0, 75.0])
    centre, other, way = (np.repeat(p, 3, axis=0) for p in (A, B, SIDE))
    values, fits = WORDS["strike_twice"].run(reach, centre, reach, other, way)
    assert fits.tolist() == [True, False, True]
    mask: Bools = fits
    assert np.allclose(cubic.norm(values - centre)[mask], reach[mask])
