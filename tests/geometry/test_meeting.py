"""Where edges meet: closed forms, shapely's crossings of dense polylines, over joints, and masks where they do not."""

from __future__ import annotations

from itertools import pairwise

import numpy as np
import pytest
from degenerate import PATHS
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from shapely import LineString

from draft.geometry import cubic
from draft.geometry.arc import arc
from draft.geometry.crossing import edge_meets_line
from draft.geometry.flatten import sample
from draft.geometry.meeting import PLACES, _chords, _crossing, edges_meet, line_path
from draft.geometry.nearest import nearest_place
from draft.geometry.spline import hobby


def straight(*points: tuple[float, float]) -> np.ndarray:
    at = np.array(points, dtype=float)
    return cubic.line(at[:-1], at[1:])[None]


def circle(radius: float, x: float = 0.0) -> np.ndarray:
    """The upper half of a circle about a point on the axis, from right to left, in two quarters."""
    centre, top = np.array([[x, 0.0]]), np.array([[x, radius]])
    right, left = centre + np.array([radius, 0.0]), centre - np.array([radius, 0.0])
    return np.concatenate([arc(centre, right, top)[0], arc(centre, top, left)[0]], axis=1)


def wandering(seed: int) -> np.ndarray:
    steps = np.random.default_rng(seed).uniform([20, -140], [150, 140], (1, 6, 2))
    return hobby(np.cumsum(steps, axis=1), [None] * 6)


def test_two_straight_edges_meet_where_their_lines_do() -> None:
    found, ok = edges_meet(straight((0, 0), (300, 300)), straight((0, 100), (300, 100)))
    assert ok.all() and np.allclose(found, [[100, 100]], atol=1e-9)


def test_two_circles_meet_where_algebra_says() -> None:
    # radii 100 and 80, centres 120 apart: x = (120^2 + 100^2 - 80^2) / 240 = 75
    found, ok = edges_meet(circle(100), circle(80, 120.0))
    assert ok.all() and np.allclose(found, [[75, np.sqrt(100**2 - 75**2)]], atol=2e-3)


def test_at_a_joint_of_both_edges() -> None:
    joint = (100, 50)
    one, other = straight((0, 0), joint, (200, 0)), straight((100, 200), joint, (100, -100))
    found, ok = edges_meet(one, other)
    assert ok.all() and np.allclose(found, [joint], atol=1e-9)


@pytest.mark.parametrize("short", [0.01, 1.0, 2.5])
def test_just_before_a_corner_beyond_which_the_other_runs_beside_the_edge(short: float) -> None:
    found, ok = edges_meet(straight((-100, 0), (100, 0)), straight((0, -50), (0, short), (90, short)))
    assert ok.all() and np.allclose(found, [[0, 0]], atol=1e-9)


@pytest.mark.parametrize("x", [99.99, 99.9999999, 100.0, 100.0000001, 100.01])
def test_beside_a_joint_the_other_segment_is_reached(x: float) -> None:
    path = hobby(np.array([[[0, 0], [100, 60], [200, 0]]], dtype=float), [None] * 3)
    found, ok = edges_meet(path, straight((x, -50), (x, 150)))
    assert ok.all() and found[0, 0] == pytest.approx(x, abs=1e-6)
    assert nearest_place(path, found)[1][0] < 1e-6


def test_the_first_along_the_edge_or_the_one_nearest_to_a_point() -> None:
    wave = hobby(np.array([[[0, 0], [50, 40], [100, 0], [150, -40], [200, 0], [250, 40]]], dtype=float), [None] * 6)
    level = straight((-10, 1), (300, 1))
    first, ok = edges_meet(wave, level)
    last, also = edges_meet(cubic.reverse(wave), level)
    middle, too = edges_meet(wave, level, np.array([[90.0, 10.0]]))
    assert ok.all() and also.all() and too.all()
    assert first[0, 0] < 10 and last[0, 0] > 190 and 90 < middle[0, 0] < 110
    assert np.allclose([first[0, 1], last[0, 1], middle[0, 1]], 1, atol=1e-6)


@settings(max_examples=60, deadline=None)
@given(st.integers(0, 10_000))
def test_it_is_the_first_crossing_of_two_dense_polylines(seed: int) -> None:
    a, b = wandering(seed), wandering(seed + 50_000) + np.array([0.0, 30.0])
    lines = [LineString(cubic.point(p[0][:, None], np.linspace(0, 1, 801)[None]).reshape(-1, 2)) for p in (a, b)]
    cut = lines[0].intersection(lines[1])
    places = sorted(lines[0].project(point) for point in getattr(cut, "geoms", [cut])) if not cut.is_empty else []
    assume(all(b - a > 5 for a, b in pairwise(places)))  # nearer ones may count as one
    found, ok = edges_meet(a, b)
    assert ok[0] == bool(places)
    if places:
        assert nearest_place(a, found)[0][0] == pytest.approx(places[0], abs=0.05)
        assert nearest_place(a, found)[1][0] < 1e-6 and nearest_place(b, found)[1][0] < 1e-6


@settings(max_examples=40, deadline=None)
@given(st.integers(0, 10_000), st.floats(-1.4, 1.4))
def test_a_line_as_an_edge_meets_where_the_line_itself_does(seed: int, angle: float) -> None:
    path, p = wandering(seed), np.array([[150.0, 20.0]])
    d = np.array([[np.cos(angle), np.sin(angle)]])
    exact, _, there = edge_meets_line(path, p, d)
    found, ok = edges_meet(path, line_path(p, d), exact)
    if ok.all():
        assert there.all()
        assert np.abs(cubic.cross(d, found - p)).max() < 1e-5
    if there.all() and ok.all():
        assert np.allclose(found, exact, atol=1e-4)


def test_edges_that_stay_apart_do_not_meet() -> None:
    found, ok = edges_meet(straight((0, 0), (100, 0)), straight((0, 5), (100, 5)))
    assert not ok.any() and np.isfinite(found).all()
    _, short = edges_meet(straight((0, 0), (100, 0)), straight((50, 50), (50, 0.01)))
    assert not short.any()


def test_an_edge_that_ends_on_another_meets_it() -> None:
    found, ok = edges_meet(straight((0, 0), (100, 0)), straight((40, 50), (40, 0)))
    assert ok.all() and np.allclose(found, [[40, 0]], atol=1e-9)


def test_degenerate_edges_are_finite_or_masked() -> None:
    other = np.broadcast_to(straight((-100, 2), (100, 3)), (len(PATHS), 1, 4, 2))
    for near in (None, np.zeros((len(PATHS), 2))):
        found, ok = edges_meet(PATHS, other, near)
        assert np.isfinite(found).all()
        assert np.all(nearest_place(PATHS, found)[1][ok] < 1e-6) and np.all(nearest_place(other, found)[1][ok] < 1e-6)


def test_a_body_alone_is_the_same_as_in_a_crowd() -> None:
    rng = np.random.default_rng(6)
    a, b = (hobby(rng.uniform(-200, 200, (15, 4, 2)), [None] * 4) for _ in range(2))
    found, ok = edges_meet(a, b)
    assert ok.sum() > 3
    for k in range(15):
        alone, met = edges_meet(a[k : k + 1], b[k : k + 1])
        assert np.array_equal(alone[0], found[k]) and met[0] == ok[k]


@settings(max_examples=40, deadline=None)
@given(st.integers(0, 10_000), st.booleans())
def test_no_crossing_of_chords_is_passed_over(seed: int, close_by: bool) -> None:
    a = np.concatenate([wandering(seed + k) for k in range(5)])
    moved = np.random.default_rng(seed).normal(0, 0.5, a.shape)
    b = a + moved if close_by else np.concatenate([wandering(seed + 70_000 + k)[:, :3] for k in range(5)])
    one, other = sample(a, PLACES), sample(b, PLACES)
    bodies, k, m = (places.ravel() for places in np.indices((5, one.shape[1] - 1, other.shape[1] - 1)))
    all_of_them = _chords(one, other, bodies, k, m)[0]
    wanted = set(zip(*(places[all_of_them].tolist() for places in (bodies, k, m)), strict=True))
    assert set(zip(*(places.tolist() for places in _crossing(one, other)), strict=True)) == wanted
