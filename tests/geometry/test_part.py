"""Parts of a path: as long as asked for, on the path all along, in one piece, and backwards where they fall."""

from __future__ import annotations

import numpy as np
import pytest
from degenerate import PATHS
from fontTools.misc.bezierTools import splitCubicAtT
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.geometry import LineString
from shapely.ops import substring

from draft.geometry import cubic
from draft.geometry.length import length, locate, point_at, tangent_at
from draft.geometry.part import part_along
from draft.geometry.spline import hobby

SHARE = st.floats(0, 1)


def wandering(bodies: int, seed: int) -> np.ndarray:
    steps = np.random.default_rng(seed).uniform([30, -90], [150, 90], (bodies, 6, 2))
    return hobby(np.cumsum(steps, axis=1), [None] * 6)


@settings(max_examples=50, deadline=None)
@given(st.integers(0, 1000), SHARE, SHARE)
def test_it_has_the_length_and_the_ends_asked_for(seed: int, a: float, b: float) -> None:
    path = wandering(3, seed)
    first, last = a * length(path), b * length(path)
    found = part_along(path, first, last)
    assert found.shape == path.shape
    assert np.allclose(length(found), np.abs(last - first), atol=1e-5)
    assert np.allclose(found[:, 0, 0], point_at(path, first), atol=1e-6)
    assert np.allclose(found[:, -1, 3], point_at(path, last), atol=1e-6)


@settings(max_examples=50, deadline=None)
@given(st.integers(0, 1000), SHARE, SHARE)
def test_it_is_one_unbroken_line(seed: int, a: float, b: float) -> None:
    path = wandering(3, seed)
    found = part_along(path, a * length(path), b * length(path))
    assert np.abs(found[:, 1:, 0] - found[:, :-1, 3]).max() < 1e-9


@settings(max_examples=30, deadline=None)
@given(st.integers(0, 1000), SHARE, SHARE, SHARE)
def test_its_places_are_the_places_of_the_path(seed: int, a: float, b: float, share: float) -> None:
    path = wandering(1, seed)
    first, last = a * length(path), b * length(path)
    found = part_along(path, first, last)
    at = first + share * (last - first)
    assert np.allclose(point_at(found, share * length(found)), point_at(path, at), atol=1e-4)


def test_run_backwards_it_arrives_from_the_other_side() -> None:
    path = wandering(1, 5)
    on, back = (
        part_along(path, np.array([40.0]), np.array([180.0])),
        part_along(path, np.array([180.0]), np.array([40.0])),
    )
    assert np.allclose(cubic.reverse(on), back)
    assert np.allclose(tangent_at(back, 70.0), -tangent_at(path, 110.0), atol=1e-6)


def test_two_parts_make_the_whole() -> None:
    path = wandering(4, 9)
    whole = length(path)
    for share in (0.0, 0.2, 0.613, 1.0):
        first, second = part_along(path, 0 * whole, share * whole), part_along(path, share * whole, whole)
        assert np.allclose(length(first) + length(second), whole, atol=1e-6)
        assert np.allclose(first[:, -1, 3], second[:, 0, 0], atol=1e-9)
    assert np.allclose(part_along(path, 0 * whole, whole), path, atol=1e-9)


def test_nothing_between_two_places_is_a_point() -> None:
    path = wandering(2, 3)
    found = part_along(path, np.array([77.0, 0.0]), np.array([77.0, 0.0]))
    assert np.allclose(found, point_at(path, np.array([77.0, 0.0]))[:, None, None], atol=1e-9)


def test_places_beyond_the_ends_are_the_ends() -> None:
    path = wandering(2, 3)
    assert np.allclose(part_along(path, np.full(2, -50.0), length(path) + 50), path, atol=1e-6)


def test_within_one_segment_it_is_fonttools_split() -> None:
    seg = np.array([[0, 0], [60, 90], [160, -30], [220, 20]], dtype=float)
    path = seg[None, None]
    found = part_along(path, np.array([50.0]), np.array([150.0]))
    t = [float(locate(path, at)[1][0]) for at in (50.0, 150.0)]
    _, theirs, _ = splitCubicAtT(*map(tuple, seg), *t)
    assert np.allclose(found[0, 0], theirs, atol=1e-6)


def test_it_is_shapelys_substring_of_a_dense_polyline() -> None:
    path = wandering(1, 11)
    fine = LineString(cubic.point(path[0][:, None], np.linspace(0, 1, 4001)[None]).reshape(-1, 2))
    found = part_along(path, np.array([60.0]), np.array([310.0]))
    ours = LineString(cubic.point(found[0][:, None], np.linspace(0, 1, 4001)[None]).reshape(-1, 2))
    assert ours.hausdorff_distance(substring(fine, 60.0, 310.0)) < 0.05


def test_degenerate_paths_stay_finite_and_whole() -> None:
    whole = length(PATHS)
    for a, b in ((0.0, 1.0), (0.2, 0.7), (0.9, 0.1), (0.5, 0.5)):
        found = part_along(PATHS, a * whole, b * whole)
        assert np.isfinite(found).all()
    path = np.concatenate([PATHS, PATHS + (PATHS[:, :, 3:] - PATHS[:, :, :1])], axis=1)
    found = part_along(path, 0.3 * length(path), 0.8 * length(path))
    assert np.abs(found[:, 1:, 0] - found[:, :-1, 3]).max() < 1e-9


@pytest.mark.parametrize("k", range(4))
def test_a_body_alone_has_the_same_part(k: int) -> None:
    path = wandering(4, 30)
    first, last = np.array([10.0, 200, 33, 0]), np.array([200.0, 10, 34, 300])
    alone = part_along(path[k : k + 1], first[k : k + 1], last[k : k + 1])
    assert np.array_equal(alone[0], part_along(path, first, last)[k])
