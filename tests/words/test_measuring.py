"""Words that measure what is drawn: lengths, runs, parts of edges and angles, against circles and triangles."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from draft.base.arrays import Floats
from draft.drafting.drafting import draft_plan
from draft.geometry.arc import arc
from draft.geometry.length import length
from draft.words import WORDS
from tests.written import people, planned


def line(a: object, b: object) -> Floats:
    found = WORDS["line_between"].run(np.asarray(a, dtype=float), np.asarray(b, dtype=float))
    assert not isinstance(found, tuple)
    return found


def quarter() -> Floats:
    path, _ = arc(np.zeros((1, 2)), np.array([[100.0, 0]]), np.array([[0.0, 100]]))
    return path


def on_circle(degrees: float, radius: float = 100.0) -> Floats:
    return radius * np.array([[np.cos(np.radians(degrees)), np.sin(np.radians(degrees))]])


def test_the_length_of_a_line_and_of_a_quarter_circle() -> None:
    assert np.allclose(WORDS["length_of_line"].run(line([[1, 1]], [[31, 41]])), 50)
    assert np.allclose(WORDS["length_of"].run(quarter()), 50 * np.pi, atol=1e-3)


@pytest.mark.parametrize(
    ("way", "run"), [((1, 0), 30), ((0, 1), 40), ((0, -1), -40), ((0.6, 0.8), 50), ((0.8, -0.6), 0)]
)
def test_a_run_is_how_far_it_goes_that_way(way: tuple[float, float], run: float) -> None:
    found = WORDS["run_of"].run(line([[1, 1]], [[31, 41]]), np.array([way]))
    assert np.allclose(found, run)


@settings(max_examples=40)
@given(st.floats(0, 90), st.floats(0, 90))
def test_a_part_of_a_quarter_circle_is_as_long_as_its_angle(first: float, last: float) -> None:
    found, fits = WORDS["part_of"].run(quarter(), on_circle(first), on_circle(last))
    assert fits.all()
    assert length(found)[0] == pytest.approx(100 * np.radians(abs(last - first)), abs=0.02)


def test_a_part_runs_from_the_first_point_named_to_the_last() -> None:
    found, _ = WORDS["part_of"].run(quarter(), on_circle(60), on_circle(20))
    assert np.allclose(found[0, 0, 0], on_circle(60), atol=2e-3) and np.allclose(
        found[0, -1, 3], on_circle(20), atol=2e-3
    )


def test_a_point_beside_the_edge_ends_no_part_of_it() -> None:
    for beside in (on_circle(40, 100.1), on_circle(40, 99.9), on_circle(-1)):
        _, fits = WORDS["part_of"].run(quarter(), on_circle(10), beside)
        assert not fits.any()
    _, fits = WORDS["part_of"].run(quarter(), on_circle(10, 100.04), on_circle(20))
    assert fits.all()


@settings(max_examples=40)
@given(st.floats(0, 180), st.floats(-180, 180), st.floats(0.1, 500))
def test_the_angle_between_two_lines_is_from_0_to_180(angle: float, turn: float, far: float) -> None:
    a = line([[3, 4]], np.array([[3, 4]]) + on_circle(turn))
    b = line([[-50, 9]], np.array([[-50, 9]]) + on_circle(turn + angle, far))
    found, fits = WORDS["angle_between"].run(a, b)
    assert fits.all() and np.degrees(found[0]) == pytest.approx(angle, abs=1e-5)


def test_a_line_without_length_has_no_angle() -> None:
    found, fits = WORDS["angle_between"].run(line([[0, 0]], [[1, 0]]), line([[2, 2]], [[2, 2]]))
    assert not fits.any() and np.isfinite(found).all()


def test_an_edge_that_follows_the_middle_of_another_begins_and_ends_on_it() -> None:
    plan = planned(
        """
        body
            bust_girth

        piece yoke
            points
                a at 0, 0
                b at bust_girth / 8, 3 cm
                c at bust_girth / 4, 2 cm
                d at bust_girth / 4 + 2 cm, 12 cm
                e at 0, 12 cm
            outline
                low   a to c
                    straight to b
                    curve
                side  c to d straight
                top   d to e straight
                left  e to a straight
            cut 1

        piece facing
            points
                p on yoke.low: 20 % from yoke.a
                q on yoke.low: 70 % from yoke.a
                r from q: 4 cm up
                s from p: 4 cm up
            outline
                low    p to q following yoke.low
                end    q to r straight
                top    r to s straight
                start  s to p straight
            cut 1
        """
    )
    drafted = draft_plan(plan, people(bust_girth=[80, 120]))
    yoke, facing = (drafted.garment.piece(name) for name in ("yoke", "facing"))
    low = facing.edge("low").segments
    assert np.allclose(low[:, 0, 0], facing.edge("start").segments[:, -1, 3], atol=1e-6)
    assert np.allclose(low[:, -1, 3], facing.edge("end").segments[:, 0, 0], atol=1e-6)
    assert np.abs(low[:, 1:, 0] - low[:, :-1, 3]).max() < 1e-9
    assert np.allclose(length(low), length(yoke.edge("low").segments) / 2, atol=1e-4)


def test_each_of_several_edges_turns_by_its_own_angle() -> None:
    ends = np.concatenate([on_circle(90), on_circle(30), 3 * on_circle(60)])
    starts = np.array([[100.0, 0], [100.0, 0], [300.0, 0]])
    edges, _ = arc(np.zeros((3, 2)), starts, ends)
    assert np.degrees(WORDS["turned_along"].run(edges)) == pytest.approx([90, 30, 60], abs=0.01)
