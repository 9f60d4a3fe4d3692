"""Meetings of lines and edges: exact cases, a dense shapely polyline, and masks where nothing meets."""

from __future__ import annotations

import numpy as np
import pytest
from degenerate import PATHS
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from hypothesis.extra.numpy import arrays
from shapely import LineString, Point

from draft.geometry import cubic
from draft.geometry.crossing import edge_meets_line, lines_meet
from draft.geometry.length import length, point_at
from draft.geometry.spline import hobby

COORDINATE = st.floats(-400, 400).map(lambda x: round(x, 2))
ANGLE = st.floats(-3.1, 3.1)
HUMP = np.array([[[0, 0], [0, 40], [60, 40], [60, 0]]], dtype=float)[None]  # highest point (30, 30)


def headed(angle: float) -> np.ndarray:
    return np.array([[np.cos(angle), np.sin(angle)]])


@settings(max_examples=50)
@given(arrays(float, (2, 2), elements=COORDINATE), ANGLE, ANGLE)
def test_two_lines_meet_on_both(points: np.ndarray, first: float, second: float) -> None:
    assume(abs(np.sin(first - second)) > 1e-3)
    d, e = headed(first), headed(second)
    found, ok = lines_meet(points[:1], 5 * d, points[1:], 0.2 * e)
    assert ok.all()
    assert np.abs(cubic.cross(d, found - points[:1])).max() < 1e-6
    assert np.abs(cubic.cross(e, found - points[1:])).max() < 1e-6


def test_parallel_lines_and_lines_without_direction_do_not_meet() -> None:
    p, q = np.array([[1.0, 2.0]] * 3), np.array([[4.0, 9.0]] * 3)
    d = np.array([[1.0, 1.0], [0.0, 0.0], [3.0, 0.0]])
    e = np.array([[-2.0, -2.0], [1.0, 0.0], [1.0, 1e-12]])
    found, ok = lines_meet(p, d, q, e)
    assert not ok.any()
    assert np.array_equal(found, p)


def test_an_edge_meets_a_line_at_its_first_crossing() -> None:
    path = np.concatenate([HUMP, HUMP + np.array([60, 0])], axis=1)
    found, distance, ok = edge_meets_line(path, np.array([[0.0, 15.0]]), np.array([[1.0, 0.0]]))
    assert ok.all() and found[0, 1] == pytest.approx(15, abs=1e-9)
    assert found[0, 0] < 10
    assert np.allclose(point_at(path, distance), found, atol=1e-6)


def test_an_edge_that_only_touches_a_line_meets_it() -> None:
    found, _, ok = edge_meets_line(HUMP, np.array([[-50.0, 30.0]]), np.array([[2.0, 0.0]]))
    assert ok.all()
    assert np.allclose(found, [[30, 30]], atol=1e-6)


def test_an_edge_that_stays_clear_of_a_line_does_not_meet_it() -> None:
    found, distance, ok = edge_meets_line(HUMP, np.array([[0.0, 30.01]]), np.array([[1.0, 0.0]]))
    assert not ok.any()
    assert np.array_equal(found, [[0, 0]]) and distance[0] == 0


def test_an_edge_that_starts_or_ends_on_a_line_meets_it_there() -> None:
    start = edge_meets_line(HUMP, np.array([[0.0, 0.0]]), np.array([[1.0, 1e-3]]))
    end = edge_meets_line(HUMP, np.array([[60.0, 0.0]]), np.array([[1.0, -1.0]]) * 1e-3)
    assert np.allclose(start[0], [[0, 0]], atol=1e-5) and start[2].all()
    assert end[2].all() and np.allclose(
        edge_meets_line(HUMP[:, :1], np.array([[60.0, 0.0]]), np.array([[0.0, 1.0]]))[0], [[60, 0]]
    )


def test_an_edge_along_a_line_meets_it_at_once() -> None:
    path = cubic.line([[3, 3]], [[90, 90]])[:, None]
    found, distance, ok = edge_meets_line(path, np.array([[0.0, 0.0]]), np.array([[1.0, 1.0]]))
    assert ok.all() and distance[0] == 0
    assert np.allclose(found, [[3, 3]])


def test_a_line_without_direction_meets_no_edge() -> None:
    found, _, ok = edge_meets_line(HUMP, np.array([[0.0, 15.0]]), np.zeros((1, 2)))
    assert not ok.any() and np.isfinite(found).all()


@settings(max_examples=40, deadline=None)
@given(st.integers(0, 10_000), ANGLE)
def test_the_first_crossing_is_that_of_a_dense_polyline(seed: int, angle: float) -> None:
    knots = np.random.default_rng(seed).uniform(-200, 200, (1, 4, 2))
    path, d = hobby(knots, [None] * 4), headed(angle)
    fine = LineString(cubic.point(path[0][:, None], np.linspace(0, 1, 2001)[None]).reshape(-1, 2))
    cut = fine.intersection(LineString([(-5000 * d)[0], (5000 * d)[0]]))
    assume(cut.is_empty or cut.geom_type in ("Point", "MultiPoint"))
    found, distance, ok = edge_meets_line(path, np.zeros((1, 2)), d)
    places = sorted(fine.project(p) for p in getattr(cut, "geoms", [cut])) if not cut.is_empty else []
    assert ok[0] or not places
    if places:
        assert np.abs(cubic.cross(d, found)).max() < 1e-6
        assert fine.project(Point(found[0])) <= places[0] + 0.05  # a touch between its points comes earlier
        assert np.allclose(point_at(path, distance), found, atol=1e-3)


def test_degenerate_edges_are_finite_or_masked() -> None:
    bodies = len(PATHS)
    for p, d in [((5, 5), (1, 0)), ((20, 0), (0, 1)), ((0, 0), (1, 0)), ((0, 0), (0, 0)), ((1e4, 1e4), (1, 0))]:
        line = (np.broadcast_to(np.array(v, dtype=float), (bodies, 2)) for v in (p, d))
        found, distance, ok = edge_meets_line(PATHS, *line)
        assert np.isfinite(found).all() and np.isfinite(distance).all()
        assert (distance <= length(PATHS) + 1e-6).all() and (distance[~ok] == 0).all()


def test_a_body_alone_is_the_same_as_in_a_crowd() -> None:
    path = hobby(np.random.default_rng(5).uniform(-200, 200, (25, 5, 2)), [None] * 5)
    p, d = np.zeros((25, 2)), np.tile(headed(0.4), (25, 1))
    everyone = edge_meets_line(path, p, d)
    assert 5 < everyone[2].sum() <= 25
    for k in range(25):
        alone = edge_meets_line(path[k : k + 1], p[:1], d[:1])
        assert all(np.array_equal(one[0], all_[k]) for one, all_ in zip(alone, everyone, strict=True))
