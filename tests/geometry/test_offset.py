"""Parallels: at their distance everywhere, in agreement with shapely's, without loops, in few segments."""

from __future__ import annotations

import numpy as np
import pytest
from chords import hausdorff
from degenerate import SEGMENTS
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from shapely import LineString, get_coordinates, points
from shapely import distance as apart

from draft.geometry import cubic
from draft.geometry.corner import LIMIT
from draft.geometry.flatten import flatten
from draft.geometry.offset import offset
from draft.geometry.spline import hobby
from draft.geometry.tangle import self_crossings

ALLOWANCE, HEM = 12.7, 25.4  # 1/2 in and 1 in
QUARTER = 4 / 3 * (np.sqrt(2) - 1)


def edge(seed: int) -> np.ndarray:
    """A plausible edge `(4, 4, 2)`: it wanders, but not as tightly as a hem is wide."""
    rng = np.random.default_rng(seed)
    knots = np.linspace(0, 400, 5)[:, None] * [1, 0.3] + rng.normal(0, 18, (5, 2))
    return hobby(knots[None], [None] * 5)[0]


def polyline(path: np.ndarray, tolerance: float = 1e-4) -> LineString:
    return LineString(flatten(path, tolerance))


def off_distance(path: np.ndarray, source: np.ndarray, distance: float) -> np.ndarray:
    """How far each of many points of a parallel lies from its due distance, positive too far."""
    fine = cubic.point(path[:, None], np.linspace(0, 1, 25)[None]).reshape(-1, 2)
    return apart(polyline(source), points(fine)) - abs(distance)


@pytest.mark.parametrize("distance", [ALLOWANCE, -ALLOWANCE, HEM, -HEM])
@settings(max_examples=15, deadline=None)
@given(seed=st.integers(0, 10_000))
def test_the_parallel_keeps_its_distance(distance: float, seed: int) -> None:
    source = edge(seed)
    assert np.abs(off_distance(offset(source, distance), source, distance)).max() < 0.011


@pytest.mark.parametrize("distance", [ALLOWANCE, -ALLOWANCE, HEM, -HEM])
@settings(max_examples=15, deadline=None)
@given(seed=st.integers(0, 10_000))
def test_the_parallel_is_that_of_shapely(distance: float, seed: int) -> None:
    source = edge(seed)
    # To the left is positive there. Before it offsets it straightens hollows by a hundredth of the distance (GEOS's
    # simplify factor, from memory), which sets the bound here; the distance itself is measured above, exactly.
    theirs = polyline(source, 1e-5).offset_curve(-distance, quad_segs=64)
    ours = flatten(offset(source, distance), 1e-4)
    assert hausdorff(ours, get_coordinates(theirs)) < 0.01 * abs(distance)


@pytest.mark.parametrize("tolerance", [0.1, 0.01, 0.001])
def test_a_finer_tolerance_is_kept_too(tolerance: float) -> None:
    source = edge(7)
    assert np.abs(off_distance(offset(source, HEM, tolerance), source, HEM)).max() <= 1.1 * tolerance


def test_a_parallel_takes_few_segments() -> None:
    counts = [len(offset(edge(seed), ALLOWANCE)) for seed in range(20)]
    assert np.mean(counts) <= 4.5  # of four segments each


def test_the_parallel_lies_to_the_right_of_travel() -> None:
    straight = cubic.line([[0, 0]], [[0, 100]])
    assert np.allclose(offset(straight, 10), cubic.line([[10, 0]], [[10, 100]]), atol=1e-12)


def test_a_circle_grows_and_shrinks_by_its_allowance() -> None:
    arc = 50 * np.array([[[1, 0], [1, QUARTER], [QUARTER, 1], [0, 1]]])  # within 0.014 mm of its circle
    for distance in (ALLOWANCE, -ALLOWANCE):
        radius = cubic.norm(cubic.point(offset(arc, distance)[:, None], np.linspace(0, 1, 20)[None]))
        assert np.abs(radius - (50 + distance)).max() < 0.03


def test_no_distance_gives_the_path_itself() -> None:
    assert np.array_equal(offset(edge(3), 0.0), edge(3))


def test_a_bend_tighter_than_its_allowance_is_cut_where_the_parallel_crosses_itself() -> None:
    # A right angle rounded at 5 mm, 12.7 mm inside: the parallels of its two straights, and nothing of the bend.
    path = np.stack([
        cubic.line([0, 0], [95, 0]),
        np.array([[95, 0], [95 + 5 * QUARTER, 0], [100, 5 - 5 * QUARTER], [100, 5]]),
        cubic.line([100, 5], [100, 100]),
    ])  # fmt: skip
    inside = offset(path, -ALLOWANCE)
    corner = 100 - ALLOWANCE
    assert np.allclose(inside[:, [0, 3]], [[[0, 12.7], [corner, 12.7]], [[corner, 12.7], [corner, 100]]], atol=0.02)


@settings(max_examples=30, deadline=None)
@given(st.integers(0, 10_000), st.sampled_from([ALLOWANCE, -ALLOWANCE, HEM, -HEM]))
def test_a_parallel_of_a_wild_curve_is_finite_and_does_not_cross_itself(seed: int, distance: float) -> None:
    source = hobby(np.random.default_rng(seed).uniform(-90, 90, (1, 4, 2)), [None] * 4)[0]
    assume(polyline(source).is_simple)
    found = offset(source, distance)
    assert np.isfinite(found).all()
    assert len(self_crossings(found)) == 0


@pytest.mark.parametrize("degrees", [20, 38, 60, 90, 120, 170])
def test_a_corner_inside_a_path_is_carried_on_until_its_limit(degrees: float) -> None:
    turn = np.radians(180 - degrees)
    path = np.stack([cubic.line([-100, 0], [0, 0]), cubic.line([0, 0], [100 * np.cos(turn), 100 * np.sin(turn)])])
    found = offset(path, ALLOWANCE)
    spike = ALLOWANCE / np.sin(np.radians(degrees / 2))
    inner = cubic.norm(found[1:, 0])
    if spike <= LIMIT * ALLOWANCE:
        assert len(found) == 2 and inner == pytest.approx([spike], abs=1e-6)
    else:
        outwards = cubic.unit(found[1, 0] + found[1, 3])
        assert len(found) == 3
        assert cubic.dot(outwards, found[1, [0, 3]]) == pytest.approx(LIMIT * ALLOWANCE, abs=1e-6)


@pytest.mark.parametrize("name", SEGMENTS)
@pytest.mark.parametrize("distance", [5.0, -5.0, 30.0, -30.0])
def test_degenerate_segments_have_finite_parallels(name: str, distance: float) -> None:
    found = offset(SEGMENTS[name][None], distance)
    assert np.isfinite(found).all()
    assert len(found) == 0 if name == "zero length" else len(found) > 0
