"""Parallels: at their distance everywhere, in agreement with shapely's, in few segments."""

from __future__ import annotations

import numpy as np
import pytest
from degenerate import SEGMENTS
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import LineString, MultiLineString, get_coordinates, get_parts, points
from shapely import distance as apart

from draft.geometry import cubic
from draft.geometry.flatten import flatten
from draft.geometry.parallel import TOLERANCE, parallel, smooth_runs
from draft.geometry.spline import hobby

ALLOWANCE, HEM = 12.7, 25.4  # 1/2 in and 1 in
QUARTER = 4 / 3 * (np.sqrt(2) - 1)


def edge(seed: int) -> np.ndarray:
    """A plausible edge `(4, 4, 2)`: it wanders, but not as tightly as a hem is wide."""
    rng = np.random.default_rng(seed)
    knots = np.linspace(0, 400, 5)[:, None] * [1, 0.3] + rng.normal(0, 18, (5, 2))
    return hobby(knots[None], [None] * 5)[0]


def beside(path: np.ndarray, distance: float, tolerance: float = TOLERANCE) -> np.ndarray:
    """The parallel of a smooth path."""
    (run,) = smooth_runs(path)
    return parallel(run, distance, tolerance).path


def polyline(path: np.ndarray, tolerance: float = 1e-4) -> LineString:
    return LineString(flatten(path, tolerance))


def off_distance(path: np.ndarray, source: np.ndarray, distance: float) -> np.ndarray:
    """How far each of many points of a parallel lies from its due distance, positive too far."""
    fine = cubic.point(path[:, None], np.linspace(0, 1, 25)[None]).reshape(-1, 2)
    return apart(polyline(source), points(fine)) - abs(distance)


MOTE = 1.0  # mm


@pytest.mark.parametrize("distance", [ALLOWANCE, -ALLOWANCE, HEM, -HEM])
@settings(max_examples=15, deadline=None)
@given(seed=st.integers(0, 10_000))
def test_the_parallel_keeps_its_distance(distance: float, seed: int) -> None:
    source = edge(seed)
    assert np.abs(off_distance(beside(source, distance), source, distance)).max() < 0.011


@pytest.mark.parametrize("distance", [ALLOWANCE, -ALLOWANCE, HEM, -HEM])
@settings(max_examples=15, deadline=None)
@given(seed=st.integers(0, 10_000))
def test_the_parallel_is_that_of_shapely(distance: float, seed: int) -> None:
    source = edge(seed)
    # To the left is positive there. Before it offsets it straightens hollows by a hundredth of the distance (GEOS's
    # simplify factor, from memory), which sets the bound here; the distance itself is measured above, exactly.
    # Now and then it leaves a mote on the other side, beside the line.
    found = get_parts(polyline(source, 1e-5).offset_curve(-distance, quad_segs=64))
    theirs = [part for part in found if part.length > MOTE]
    ours = flatten(beside(source, distance), 1e-4)
    # It also leaves gaps in tight hollows: so all of its line lies on ours, and nearly all of ours on its.
    assert apart(points(get_coordinates(theirs)), LineString(ours)).max() < 0.01 * abs(distance)
    assert np.quantile(apart(points(ours), MultiLineString(theirs)), 0.95) < 0.01 * abs(distance)


@pytest.mark.parametrize("tolerance", [0.1, 0.01, 0.001])
def test_a_finer_tolerance_is_kept_too(tolerance: float) -> None:
    source = edge(7)
    assert np.abs(off_distance(beside(source, HEM, tolerance), source, HEM)).max() <= 1.1 * tolerance


def test_a_parallel_takes_few_segments() -> None:
    counts = [len(beside(edge(seed), ALLOWANCE)) for seed in range(20)]
    assert np.mean(counts) <= 4.5  # of four segments each


def test_the_parallel_lies_to_the_right_of_travel() -> None:
    straight = cubic.line([[0, 0]], [[0, 100]])
    assert np.allclose(beside(straight, 10), cubic.line([[10, 0]], [[10, 100]]), atol=1e-12)


def test_a_circle_grows_and_shrinks_by_its_allowance() -> None:
    arc = 50 * np.array([[[1, 0], [1, QUARTER], [QUARTER, 1], [0, 1]]])  # within 0.014 mm of its circle
    for distance in (ALLOWANCE, -ALLOWANCE):
        radius = cubic.norm(cubic.point(beside(arc, distance)[:, None], np.linspace(0, 1, 20)[None]))
        assert np.abs(radius - (50 + distance)).max() < 0.03


def test_no_distance_gives_the_path_itself() -> None:
    assert np.array_equal(beside(edge(3), 0.0), edge(3))


def test_in_a_bend_tighter_than_its_distance_it_runs_backwards_between_two_cusps() -> None:
    """A right angle rounded at 5 mm, 12.7 mm inside: the bend's own parallel lies 7.7 mm beyond its middle."""
    bend = np.array([[95, 0], [95 + 5 * QUARTER, 0], [100, 5 - 5 * QUARTER], [100, 5]])
    path = np.stack([cubic.line([0, 0], [95, 0]), bend, cubic.line([100, 5], [100, 100])])
    inside = beside(path, -ALLOWANCE)
    assert np.allclose(inside[[0, -1]][:, [0, 3]], [[[0, 12.7], [95, 12.7]], [[87.3, 5], [87.3, 100]]], atol=0.02)
    assert np.allclose(cubic.norm(inside[1:-1, [0, 3]] - [95, 5]), ALLOWANCE - 5, atol=0.02)


@pytest.mark.parametrize("name", SEGMENTS)
@pytest.mark.parametrize("distance", [5.0, -5.0, 30.0, -30.0])
def test_degenerate_segments_have_finite_parallels(name: str, distance: float) -> None:
    runs = smooth_runs(SEGMENTS[name][None])
    assert len(runs) == (0 if name == "zero length" else 1)
    assert all(np.isfinite(parallel(run, distance).path).all() for run in runs)


def test_what_rounding_left_at_the_start_of_a_line_has_no_parallel_of_its_own() -> None:
    """Where one line was cut at another a mote may stay; its parallel would be halved again and again."""
    start = np.array([62.0, -240.0])
    mote = start + np.array([[0, 0], [3e-14, 2e-14], [-2e-14, -3e-14], [3e-14, 0]])
    rest = cubic.line(start, [80, -486])
    path = np.stack([mote, rest])
    assert np.array_equal(beside(path, -ALLOWANCE), beside(rest[None], -ALLOWANCE))
