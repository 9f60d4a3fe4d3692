"""Cubics fitted to parallels: true between the places where they are measured, few, and the same in any company."""

from __future__ import annotations

import numpy as np
import pytest
from chords import apart, chords
from degenerate import SEGMENTS

from draft.geometry import cubic
from draft.geometry.fitted import fitted, relative_speed
from draft.geometry.flatten import flatten
from draft.geometry.spline import hobby

QUARTER = 4 / 3 * (np.sqrt(2) - 1)
QUARTER_CIRCLE = 50 * np.array([[[1, 0], [1, QUARTER], [QUARTER, 1], [0, 1]]])


def fit(seg: np.ndarray, distance: float, tolerance: float = 0.01) -> np.ndarray:
    every = np.arange(len(seg))
    return fitted(seg, every, 0.0 * every, 0.0 * every + 1, np.full(len(seg), distance), tolerance)[1]


def test_a_thousand_edges_keep_their_distance_everywhere() -> None:
    worst, count = 0.0, 0
    for seed in range(250):
        knots = np.linspace(0, 400, 5)[:, None] * [1, 0.3] + np.random.default_rng(seed).normal(0, 18, (5, 2))
        edge = hobby(knots[None], [None] * 5)[0]
        line = chords(flatten(edge, 1e-5))
        for distance in (12.7, -12.7, 25.4, -25.4):
            if (1 + distance * cubic.curvature(edge[:, None], np.linspace(0, 1, 65)) > 0.05).all():
                found = fit(edge, distance)
                fine = cubic.point(found[:, None], np.linspace(0, 1, 33)).reshape(-1, 2)
                worst = max(worst, np.abs(apart(line, fine) - abs(distance)).max())
                count += len(found)
    assert worst < 0.01
    assert count < 250 * 4 * 4 * 1.1  # little more than the segments themselves


@pytest.mark.parametrize("distance", [12.7, -12.7])
def test_a_quarter_circle_has_another_beside_it(distance: float) -> None:
    found = fit(QUARTER_CIRCLE, distance)
    radius = cubic.norm(cubic.point(found[:, None], np.linspace(0, 1, 33)))
    assert len(found) == 1
    # Such a cubic strays from its circle by 2.7e-4 of the radius at most (well known, from memory).
    assert np.abs(radius - (50 + distance)).max() < 50 * 2.8e-4 + 0.01


def test_ends_and_directions_are_the_true_ones() -> None:
    edge = hobby(np.array([[[0, 0], [90, 60], [200, 40]]], dtype=float), [None] * 3)[0]
    found = fit(edge, 12.7)
    start = edge[0, 0] + 12.7 * cubic.right_of(cubic.start_tangent(edge[0]))
    assert np.allclose(found[0, 0], start, atol=1e-9)
    assert np.allclose(cubic.start_tangent(found[0]), cubic.start_tangent(edge[0]), atol=1e-9)
    assert np.allclose(cubic.end_tangent(found[-1]), cubic.end_tangent(edge[-1]), atol=1e-9)


def test_each_comes_out_the_same_alone_and_in_company() -> None:
    edge = hobby(np.random.default_rng(3).uniform(-90, 90, (1, 9, 2)), [None] * 9)[0]
    distance = np.linspace(-15, 15, 8)
    index, together, _ = fitted(edge, np.arange(8), np.zeros(8), np.ones(8), distance, 0.01)
    for k in range(8):
        one = np.zeros(1)
        alone = fitted(edge[k : k + 1], np.zeros(1, dtype=int), one, one + 1, distance[k : k + 1], 0.01)[1]
        assert np.array_equal(together[index == k], alone)


def test_a_finer_tolerance_takes_more_cubics() -> None:
    edge = hobby(np.array([[[0, 0], [60, 70], [20, 160]]], dtype=float), [None] * 3)[0]
    assert len(fit(edge, 12.7, 1e-5)) > len(fit(edge, 12.7, 1e-2))


@pytest.mark.parametrize("name", SEGMENTS)
@pytest.mark.parametrize("distance", [5.0, -30.0])
def test_degenerate_segments_stay_finite(name: str, distance: float) -> None:
    assert np.isfinite(fit(SEGMENTS[name][None], distance)).all()
    assert np.isfinite(relative_speed(SEGMENTS[name][None], np.linspace(0, 1, 9), np.array([distance]))).all()
