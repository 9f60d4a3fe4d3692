"""Cubic segments: values against the polynomial itself and against fontTools, and always finite."""

from __future__ import annotations

import numpy as np
import pytest
from degenerate import PATHS, SEGMENTS
from fontTools.misc.bezierTools import calcCubicBounds, splitCubicAtT
from hypothesis import given, settings
from hypothesis import strategies as st
from hypothesis.extra.numpy import arrays

from draft.geometry import cubic

COORDINATE = st.floats(-500, 500).map(lambda x: round(x, 3))
SEGMENT = arrays(float, (4, 2), elements=COORDINATE)
PLACE = st.floats(0, 1)


def test_a_line_has_even_speed_and_handles_at_thirds() -> None:
    seg = cubic.line([0, 0], [30, 60])
    assert np.allclose(seg, [[0, 0], [10, 20], [20, 40], [30, 60]], atol=1e-12)
    assert np.allclose(cubic.derivative(seg, np.linspace(0, 1, 5)), [30, 60], atol=1e-12)
    assert cubic.is_straight(seg)


def test_a_line_is_drawn_for_every_body() -> None:
    assert cubic.line(np.zeros((5, 2)), [1.0, 0.0]).shape == (5, 4, 2)


@settings(max_examples=40)
@given(SEGMENT, PLACE)
def test_derivatives_agree_with_the_polynomial(seg: np.ndarray, t: float) -> None:
    a, b, c, d = seg
    powers = np.stack([d - 3 * c + 3 * b - a, 3 * (c - 2 * b + a), 3 * (b - a), a])
    for axis in (0, 1):
        polynomial = np.poly1d(powers[:, axis])
        assert cubic.point(seg, t)[axis] == pytest.approx(polynomial(t), abs=1e-9)
        assert cubic.derivative(seg, t)[axis] == pytest.approx(polynomial.deriv()(t), abs=1e-9)
        assert cubic.second_derivative(seg, t)[axis] == pytest.approx(polynomial.deriv(2)(t), abs=1e-9)


@settings(max_examples=40)
@given(SEGMENT, PLACE)
def test_both_parts_of_a_split_are_those_of_fonttools(seg: np.ndarray, t: float) -> None:
    parts = splitCubicAtT(*map(tuple, seg), 0.5)
    assert np.allclose(cubic.split(seg, 0.5), parts, atol=1e-9)
    before, after = cubic.split(seg, t)
    assert np.allclose(cubic.point(before, 0.5), cubic.point(seg, t / 2), atol=1e-9)
    assert np.allclose(cubic.point(after, 0.5), cubic.point(seg, (1 + t) / 2), atol=1e-9)


@settings(max_examples=40)
@given(SEGMENT)
def test_the_box_is_that_of_fonttools(seg: np.ndarray) -> None:
    (low, high), published = cubic.bounds(seg[None]), calcCubicBounds(*map(tuple, seg))
    assert np.allclose([*low, *high], published, atol=1e-6)


def test_the_box_of_a_path_covers_all_its_segments_for_each_body() -> None:
    path = np.stack([cubic.line([0, 0], [10, 5]), cubic.line([10, 5], [-3, 20])])
    boxes = cubic.bounds(np.stack([path, path + np.array([100, 0])]))
    assert np.allclose(boxes, [[[-3, 0], [10, 20]], [[97, 0], [110, 20]]])


@settings(max_examples=40)
@given(arrays(float, (2, 3, 4, 2), elements=COORDINATE))
def test_reversing_twice_gives_the_path_back(path: np.ndarray) -> None:
    assert np.array_equal(cubic.reverse(cubic.reverse(path)), path)
    assert np.array_equal(cubic.reverse(path)[:, 0, 0], path[:, -1, 3])
    assert np.allclose(cubic.end_tangent(cubic.reverse(path)), -cubic.start_tangent(path)[:, ::-1], atol=1e-12)


def test_tangents_look_past_handles_that_lie_on_their_point() -> None:
    early, late = SEGMENTS["first handle on its point"], SEGMENTS["last handle on its point"]
    assert np.allclose(cubic.start_tangent(early), np.array([2, 3]) / np.sqrt(13))
    assert np.allclose(cubic.end_tangent(late), [1, 0])
    assert np.allclose(cubic.start_tangent(SEGMENTS["three points in one"]), [1, 0])
    assert np.array_equal(cubic.start_tangent(SEGMENTS["zero length"]), [0, 0])


def test_a_quarter_circle_turns_left_at_its_own_curvature() -> None:
    handle = 4 / 3 * (np.sqrt(2) - 1)  # the usual cubic for a quarter circle; within 0.03 % of its radius
    arc = 50 * np.array([[1, 0], [1, handle], [handle, 1], [0, 1]])
    bend = cubic.curvature(arc, np.linspace(0, 1, 9))
    assert np.allclose(bend, 1 / 50, rtol=0.03)
    assert np.allclose(cubic.curvature(arc * [-1, 1], np.linspace(0, 1, 9)), -bend)


def test_straight_is_told_from_curved() -> None:
    straight = {name for name, seg in SEGMENTS.items() if cubic.is_straight(seg)}
    assert straight == {
        "zero length",
        "straight",
        "straight without handles",
        "folded back",
        "three points in one",
    }
    assert not cubic.is_straight(np.array([[0, 0], [10, 1e-3], [20, 0], [30, 0]]))


@pytest.mark.parametrize("name", SEGMENTS)
def test_degenerate_segments_give_finite_results(name: str) -> None:
    seg, t = SEGMENTS[name], np.linspace(0, 1, 11)
    results = [
        *(f(seg, t) for f in (cubic.point, cubic.derivative, cubic.second_derivative, cubic.curvature)),
        *(f(seg) for f in (cubic.start_tangent, cubic.end_tangent)),
        *cubic.split(seg, 0.3),
        cubic.bounds(seg[None]),
    ]
    assert all(np.isfinite(result).all() for result in results)


def test_a_body_alone_is_the_same_as_in_a_crowd() -> None:
    everyone = cubic.bounds(PATHS)
    for k in range(len(PATHS)):
        assert np.array_equal(cubic.bounds(PATHS[k : k + 1])[0], everyone[k])
