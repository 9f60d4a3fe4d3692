"""Lengths: against closed forms, scipy's adaptive quadrature and fontTools' recursive method."""

from __future__ import annotations

import time

import numpy as np
import pytest
from degenerate import PATHS, SEGMENTS
from fontTools.misc.bezierTools import calcCubicArcLength
from hypothesis import given, settings
from hypothesis import strategies as st
from hypothesis.extra.numpy import arrays
from scipy.integrate import quad

from draft.geometry import cubic
from draft.geometry.length import length, length_to, locate, point_at, segment_lengths, tangent_at
from draft.geometry.spline import hobby

COORDINATE = st.floats(-400, 400).map(lambda x: round(x, 2))


def edges(bodies: int, seed: int = 0) -> np.ndarray:
    """Plausible edges `(bodies, 8, 4, 2)`: a neckline, an overarm, an underarm, all in one wandering curve."""
    rng = np.random.default_rng(seed)
    across = np.linspace(0, 700, 9)[:, None] * [1, 0.2]
    knots = across + rng.normal(0, 25, (bodies, 9, 2))
    return hobby(knots, [None] * 9)


def adaptive(seg: np.ndarray) -> float:
    """scipy's QUADPACK on the speed, in four parts."""
    parts = [quad(lambda t: float(cubic.norm(cubic.derivative(seg, t))), k / 4, k / 4 + 0.25) for k in range(4)]
    return sum(value for value, _ in parts)


def test_a_straight_line_is_as_long_as_it_is() -> None:
    assert length(cubic.line([[0, 0]], [[300, 400]])[:, None]) == pytest.approx(500, abs=1e-10)


def test_a_parabola_has_its_closed_form() -> None:
    # y = x^2 / 100 from 0 to 100: asinh(2) / 4 + sqrt(5) / 2 of 100 mm
    parabola = np.array([[0, 0], [100 / 3, 0], [200 / 3, 100 / 3], [100, 100]])
    assert length(parabola[None, None])[0] == pytest.approx(100 * (np.arcsinh(2) / 4 + np.sqrt(5) / 2), abs=1e-6)


def test_plausible_edges_agree_with_adaptive_quadrature() -> None:
    path = edges(6)
    ours = segment_lengths(path)
    theirs = np.array([[adaptive(seg) for seg in body] for body in path])
    assert np.abs(ours - theirs).max() < 1e-6


def test_plausible_edges_agree_with_fonttools() -> None:
    path = edges(6, seed=3)
    theirs = np.array([[calcCubicArcLength(*map(tuple, seg), tolerance=1e-7) for seg in body] for body in path])
    assert np.abs(segment_lengths(path) - theirs).max() < 1e-4


@pytest.mark.parametrize(
    ("name", "splits", "near"), [(n, 4, 0.2) for n in SEGMENTS] + [(n, 64, 1e-3) for n in SEGMENTS]
)
def test_degenerate_segments_have_their_length(name: str, splits: int, near: float) -> None:
    seg = SEGMENTS[name]
    fine = cubic.point(seg, np.linspace(0, 1, 200_001))
    polyline = cubic.norm(np.diff(fine, axis=0)).sum()
    assert segment_lengths(seg[None, None], splits)[0, 0] == pytest.approx(polyline, abs=near)


@settings(max_examples=40)
@given(arrays(float, (4, 3, 4, 2), elements=COORDINATE), st.floats(0.01, 20))
def test_length_grows_with_the_drawing_and_is_the_same_backwards(path: np.ndarray, size: float) -> None:
    whole = length(path)
    assert np.allclose(length(path * size), whole * size, rtol=1e-12, atol=1e-9)
    assert np.allclose(length(cubic.reverse(path)), whole, rtol=1e-12, atol=1e-9)
    assert np.allclose(length(path * [-1, 1]), whole, rtol=1e-12, atol=1e-9)


def test_both_parts_of_a_split_add_up() -> None:
    path = edges(20)
    first, second = cubic.split(path, np.full(path.shape[:2], 0.37))
    assert np.allclose(segment_lengths(first) + segment_lengths(second), segment_lengths(path), atol=1e-6)
    assert np.allclose(segment_lengths(first), length_to(path, np.full(path.shape[:2], 0.37)), atol=1e-6)


@settings(max_examples=40)
@given(st.floats(0, 1), st.integers(0, 99))
def test_a_place_found_lies_at_its_distance(share: float, seed: int) -> None:
    path = edges(5, seed)
    wanted = share * length(path)
    index, t = locate(path, wanted)
    before = np.where(np.arange(8) < index[:, None], segment_lengths(path), 0).sum(axis=1)
    assert np.allclose(before + length_to(path[np.arange(5), index], t), wanted, atol=1e-8)


def test_places_beyond_the_ends_are_the_ends() -> None:
    path = edges(4)
    first, last = cubic.ends(path)
    assert np.allclose(point_at(path, -5.0), first, atol=1e-9)
    assert np.allclose(point_at(path, length(path) + 5), last, atol=1e-6)
    assert np.allclose(point_at(path, 0.0), first, atol=1e-9)
    assert np.allclose(point_at(path, length(path)), last, atol=1e-6)


def test_a_joint_between_segments_is_found_from_its_distance() -> None:
    path = edges(4)
    assert np.allclose(point_at(path, segment_lengths(path)[:, :3].sum(axis=1)), path[:, 3, 0], atol=1e-6)


def test_the_direction_at_a_distance_is_that_of_a_chord_around_it() -> None:
    path, step = edges(10), 1e-3
    wanted = 0.61 * length(path)
    chord = point_at(path, wanted + step) - point_at(path, wanted - step)
    assert np.allclose(tangent_at(path, wanted), cubic.unit(chord), atol=1e-5)


def test_the_direction_at_a_handle_on_its_point_is_the_curves_own() -> None:
    early, late = SEGMENTS["first handle on its point"], SEGMENTS["last handle on its point"]
    path = np.stack([early, late])[:, None]
    assert np.allclose(tangent_at(path, 0.0)[0], cubic.start_tangent(early), atol=1e-3)
    assert np.allclose(tangent_at(path, length(path))[1], cubic.end_tangent(late), atol=1e-3)


def test_degenerate_paths_give_finite_places() -> None:
    for share in (0.0, 0.3, 0.5, 1.0):
        wanted = share * length(PATHS)
        index, t = locate(PATHS, wanted)
        assert (index == 0).all() and ((t >= 0) & (t <= 1)).all()
        assert np.isfinite(point_at(PATHS, wanted)).all() and np.isfinite(tangent_at(PATHS, wanted)).all()


def test_a_segment_without_length_is_passed_over() -> None:
    still = np.full((1, 4, 2), [10.0, 0.0])
    path = np.stack([cubic.line([[0, 0]], [[10, 0]]), still, cubic.line([[10, 0]], [[10, 30]])], axis=1)
    assert length(path) == pytest.approx(40, abs=1e-10)
    assert np.allclose(point_at(path, 25.0), [[10, 15]])
    assert np.allclose(tangent_at(path, 25.0), [[0, 1]])


def test_a_body_alone_is_the_same_as_in_a_crowd() -> None:
    path = edges(30)
    wanted = 0.4 * length(path)
    for k in range(30):
        alone = path[k : k + 1]
        assert np.array_equal(length(alone), length(path)[k : k + 1])
        assert np.array_equal(point_at(alone, wanted[k : k + 1])[0], point_at(path, wanted)[k])


def test_a_thousand_bodies_take_no_time_to_speak_of() -> None:
    path = edges(1000)
    start = time.process_time()
    segment_lengths(path)
    assert time.process_time() - start < 0.25  # some 10 ms; the rest is for a slow machine
