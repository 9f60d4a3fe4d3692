"""Outer lines of closed paths that cross themselves: against shapely's union, wherever the path starts."""

from __future__ import annotations

from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import Polygon, union_all

from draft.geometry import cubic
from draft.geometry.flatten import flatten
from draft.geometry.spline import hobby
from draft.geometry.surround import outer_line, winding_numbers
from draft.geometry.tangle import self_crossings

HOOK = np.array([[0, 0], [100, 0], [100, 60], [40, 60], [40, -10], [20, -10], [20, 80], [0, 80]], dtype=float)
TWICE = np.array([[0, 0], [90, 0], [90, 90], [20, 90], [20, 30], [60, 30], [60, 120], [0, 120]], dtype=float)


def closed(corners: np.ndarray) -> np.ndarray:
    return cubic.line(corners, np.roll(corners, -1, axis=0))


def test_a_path_that_does_not_cross_itself_is_its_own_outer_line() -> None:
    square = closed(HOOK[[0, 1, 2, 7]])
    assert np.array_equal(outer_line(square, 1), square)


@pytest.mark.parametrize("start", range(8))
def test_cloth_covered_twice_is_inside_wherever_the_path_starts(start: int) -> None:
    for path, out in ((closed(np.roll(TWICE, start, axis=0)), 1), (closed(np.roll(TWICE[::-1], start, axis=0)), -1)):
        found = outer_line(path, out)
        expected = Polygon([(0, 0), (90, 0), (90, 90), (60, 90), (60, 120), (0, 120)])
        assert Polygon(found[:, 0]).symmetric_difference(expected).area < 1e-6
        assert np.array_equal(found[:, 3], np.roll(found[:, 0], -1, axis=0))


@pytest.mark.parametrize("start", range(8))
def test_what_is_wound_about_the_wrong_way_is_left_out(start: int) -> None:
    found = outer_line(closed(np.roll(HOOK, start, axis=0)), 1)
    assert Polygon(found[:, 0]).symmetric_difference(Polygon([(40, 0), (100, 0), (100, 60), (40, 60)])).area < 1e-6


def test_winding_numbers_of_a_square_wound_twice() -> None:
    square = np.array([[0, 0], [10, 0], [10, 10], [0, 10]], dtype=float)
    points = np.array([[5, 5], [15, 5], [-1, 5], [5, 11]], dtype=float)
    assert winding_numbers(points, np.tile(square, (2, 1))).tolist() == [2, 0, 0, 0]
    assert winding_numbers(points, square[::-1]).tolist() == [-1, 0, 0, 0]


@settings(max_examples=40, deadline=None)
@given(st.integers(0, 10_000))
def test_a_curve_around_a_middle_has_the_outline_of_its_union(seed: int) -> None:
    rng = np.random.default_rng(seed)
    angles = np.linspace(0, 4 * np.pi, 15)[:-1] + rng.uniform(-0.2, 0.2, 14)  # twice around
    knots = rng.uniform(60, 160, 14)[:, None] * np.stack([np.cos(angles), np.sin(angles)], axis=-1)
    path = hobby(knots[None], [None] * 14, closed=True)[0]
    found = outer_line(path, 1)
    assert np.array_equal(found[:, 3], np.roll(found[:, 0], -1, axis=0))
    assert not len(self_crossings(found, closed=True))
    line = flatten(path, 0.01)
    union = union_all([Polygon([(0, 0), a, b]) for a, b in pairwise(line)])
    assert Polygon(flatten(found, 0.01)).symmetric_difference(union).area < 10  # of some 30 000
