"""Nearest places: closed forms, scipy's minimiser, shapely's distance to a dense polyline, places on the edge."""

from __future__ import annotations

import numpy as np
import pytest
from degenerate import PATHS
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import minimize_scalar
from shapely import LineString, Point

from draft.geometry import cubic
from draft.geometry.arc import arc
from draft.geometry.length import length, point_at, segment_lengths, tangent_at
from draft.geometry.nearest import nearest_place
from draft.geometry.spline import hobby


def wandering(seed: int, knots: int = 5) -> np.ndarray:
    steps = np.random.default_rng(seed).uniform([30, -90], [150, 90], (1, knots, 2))
    return hobby(np.cumsum(steps, axis=1), [None] * knots)


def corners() -> np.ndarray:
    """Three straight sides of a rectangle, 400 and 300 mm long."""
    a, b, c, d = [[0.0, 0]], [[400.0, 0]], [[400.0, 300]], [[0.0, 300]]
    return np.stack([cubic.line(a, b), cubic.line(b, c), cubic.line(c, d)], axis=1)


@pytest.mark.parametrize(
    ("to", "along", "off"),
    [
        ((395, 0), 395, 0),  # less than half a chord before a joint
        ((400, 5), 405, 0),
        ((400, 0), 400, 0),
        ((200, -7), 200, 7),
        ((-3, -4), 0, 5),
        ((-30, 340), 1100, 50),
        ((403, -4), 400, 5),
        ((150, 149), 150, 149),
    ],
)
def test_on_straight_sides(to: tuple[float, float], along: float, off: float) -> None:
    at, miss = nearest_place(corners(), np.array([to], dtype=float))
    assert at[0] == pytest.approx(along, abs=1e-9) and miss[0] == pytest.approx(off, abs=1e-9)


@settings(max_examples=40)
@given(st.floats(0.01, 1.55), st.floats(1, 150))
def test_from_a_point_beside_a_circle_it_lies_on_the_same_spoke(angle: float, radius: float) -> None:
    path, _ = arc(np.zeros((1, 2)), np.array([[80.0, 0.0]]), np.array([[0.0, 80.0]]))
    at, miss = nearest_place(path, radius * np.array([[np.cos(angle), np.sin(angle)]]))
    assert miss[0] == pytest.approx(abs(radius - 80), abs=1e-3)
    assert at[0] == pytest.approx(80 * angle, abs=0.05)


@settings(max_examples=60, deadline=None)
@given(st.integers(0, 10_000), st.floats(0, 1))
def test_a_place_on_the_edge_is_found_where_it_is(seed: int, share: float) -> None:
    path = wandering(seed)
    wanted = share * length(path)
    at, miss = nearest_place(path, point_at(path, wanted))
    assert miss[0] < 1e-6
    assert at[0] == pytest.approx(wanted[0], abs=1e-4)


def test_just_before_and_behind_every_joint() -> None:
    path = wandering(8, 7)
    for joint in np.cumsum(segment_lengths(path)[0])[:-1]:
        for step in (-3.0, -0.2, -1e-3, 0.0, 1e-3, 0.2, 3.0):
            at, miss = nearest_place(path, point_at(path, joint + step))
            assert miss[0] < 1e-6 and at[0] == pytest.approx(joint + step, abs=1e-5)


@settings(max_examples=40, deadline=None)
@given(st.integers(0, 10_000))
def test_no_dense_polyline_comes_nearer(seed: int) -> None:
    path = wandering(seed)
    to = np.random.default_rng(seed + 1).uniform([-100, -300], [700, 300], (1, 2))
    at, miss = nearest_place(path, to)
    fine = LineString(cubic.point(path[0][:, None], np.linspace(0, 1, 2001)[None]).reshape(-1, 2))
    off = fine.distance(Point(to[0]))
    assert miss[0] == pytest.approx(off, abs=1e-3)
    assert cubic.norm(point_at(path, at) - to)[0] == pytest.approx(miss[0], abs=1e-6)


@pytest.mark.parametrize("to", [(50, 60), (130, -40), (200, 90), (120, 20)])
def test_scipy_finds_no_better_place_on_one_segment(to: tuple[float, float]) -> None:
    seg = np.array([[0, 0], [80, 120], [160, -90], [260, 30]], dtype=float)

    def off(t: float) -> float:
        return float(cubic.norm(cubic.point(seg, t) - np.array(to)))

    eighths = [(k / 8, k / 8 + 0.125) for k in range(8)]
    least = min(minimize_scalar(off, bounds=bounds, method="bounded").fun for bounds in eighths)
    assert nearest_place(seg[None, None], np.array([to], dtype=float))[1][0] <= least + 1e-9


def test_the_way_to_an_inner_place_is_square_to_the_edge() -> None:
    path = wandering(21)
    to = point_at(path, 0.4 * length(path)) + 9 * cubic.right_of(tangent_at(path, 0.4 * length(path)))
    at, miss = nearest_place(path, to)
    assert miss[0] <= 9 + 1e-9
    assert abs(cubic.dot(tangent_at(path, at), to - point_at(path, at))[0]) < 1e-6 * max(miss[0], 1)


def test_of_two_sides_a_stitch_apart_the_right_one_is_taken() -> None:
    # a slot 6 mm wide and 400 mm deep: the samples of the sides lie further apart than the sides
    a, b, c, d = [[0.0, 0]], [[0.0, 400]], [[6.0, 400]], [[6.0, 0]]
    path = np.stack([cubic.line(a, b), cubic.line(b, c), cubic.line(c, d)], axis=1)
    for up in (8.0, 100.0, 391.7):
        assert nearest_place(path, np.array([[0.5, up]]))[0][0] == pytest.approx(up)
        assert nearest_place(path, np.array([[5.5, up]]))[0][0] == pytest.approx(806 - up)


def test_degenerate_edges_give_finite_places() -> None:
    for to in ((0, 0), (17, 3), (1e5, -1e5)):
        at, miss = nearest_place(PATHS, np.tile(np.array(to, dtype=float), (len(PATHS), 1)))
        assert np.isfinite(at).all() and np.isfinite(miss).all()
        assert (at >= 0).all() and (at <= length(PATHS) + 1e-6).all()


def test_a_body_alone_is_the_same_as_in_a_crowd() -> None:
    path = hobby(np.random.default_rng(3).uniform(-200, 200, (15, 5, 2)), [None] * 5)
    to = np.random.default_rng(4).uniform(-200, 200, (15, 2))
    everyone = nearest_place(path, to)
    for k in range(15):
        alone = nearest_place(path[k : k + 1], to[k : k + 1])
        assert all(np.array_equal(one[0], every[k]) for one, every in zip(alone, everyone, strict=True))
