"""How far apart two lines lie: closed forms, and shapely's Hausdorff distance of dense polylines."""

from __future__ import annotations

import numpy as np
import pytest
import shapely
from chords import hausdorff
from degenerate import PATHS
from hypothesis import given, settings
from hypothesis import strategies as st

from draft.geometry import cubic
from draft.geometry.apart import _AT_ONCE, PLACES, _first_farthest, _from_chords, _off, _worst, farthest
from draft.geometry.arc import arc
from draft.geometry.flatten import sample
from draft.geometry.spline import hobby


def wandering(seed: int, bodies: int = 1) -> np.ndarray:
    steps = np.random.default_rng(seed).uniform([30, -90], [150, 90], (bodies, 5, 2))
    return hobby(np.cumsum(steps, axis=1), [None] * 5)


def test_a_line_lies_nowhere_from_itself_however_it_is_cut_or_run() -> None:
    path = wandering(1, 4)
    first, second = cubic.split(path, np.full(path.shape[:2], 0.4))
    cut = np.stack([first, second], axis=2).reshape(4, -1, 4, 2)
    for same in (path, cubic.reverse(path), cut):
        assert (farthest(path, same)[0] < 1e-6).all()


def test_a_line_moved_aside_or_longer_by_as_much() -> None:
    path = cubic.line([[0, 0]], [[300, 0]])[:, None]
    off, at = farthest(path, path + np.array([0.0, 7.0]))
    assert off[0] == pytest.approx(7)
    longer = cubic.line([[0, 0]], [[312, 5]])[:, None]
    off, at = farthest(path, longer)
    assert off[0] == pytest.approx(13) and np.allclose(at, [[312, 5]])  # the end of the longer one is the place


def test_two_circles_about_one_centre() -> None:
    at = np.zeros((1, 2))
    small, large = (arc(at, np.array([[r, 0.0]]), np.array([[0.0, r]]))[0] for r in (100.0, 108.0))
    assert farthest(small, large)[0][0] == pytest.approx(8, abs=5e-3)


@settings(max_examples=30, deadline=None)
@given(st.integers(0, 10_000))
def test_it_is_shapelys_distance_of_dense_polylines(seed: int) -> None:
    a, b = wandering(seed), wandering(seed + 20_000)
    lines = [cubic.point(path[0][:, None], np.linspace(0, 1, 301)[None]).reshape(-1, 2) for path in (a, b)]
    theirs = hausdorff(*lines, finer=20)
    off, at = farthest(a, b)
    assert off[0] == pytest.approx(theirs, abs=0.05)
    assert min(shapely.LineString(line).distance(shapely.Point(at[0])) for line in lines) < 0.05
    assert np.allclose(farthest(b, a)[0], off)


def test_degenerate_lines_are_finite_distances_apart() -> None:
    off, at = farthest(PATHS, PATHS[::-1])
    assert np.isfinite(off).all() and np.isfinite(at).all()


def test_of_places_as_far_off_the_first_is_taken_whatever_is_rounded_off() -> None:
    path = cubic.line([[0, 0]], [[300, 0]])[:, None]
    for seed in range(20):
        noise = np.random.default_rng(seed).normal(0, 1e-12, (2, *path.shape))
        _, at = farthest(path + noise[0], path + np.array([0.0, 7.0]) + noise[1])
        assert np.allclose(at, [[0, 0]], atol=1e-9)


@settings(max_examples=30, deadline=None)
@given(st.integers(0, 10_000), st.sampled_from([1e-7, 0.01, 1.0, 30.0]))
def test_what_is_not_measured_would_not_have_changed_the_place(seed: int, apart: float) -> None:
    path = wandering(seed, 3)
    other = path + np.random.default_rng(seed).normal(0, apart, path.shape)
    line, beyond = sample(path, PLACES), sample(other, PLACES)
    begin, along = beyond[:, None, :-1], np.diff(beyond, axis=1)[:, None]
    gaps = ((line[:, :, None] - beyond[:, None]) ** 2).sum(axis=-1).min(axis=2)
    every = _from_chords(line[:, :, None], begin, along).min(axis=-1)
    assert np.array_equal(_worst(line, beyond, gaps), _first_farthest(every))
    near = line[:, 40:60]
    assert np.array_equal(_off(near, beyond), every[:, 40:60])


def test_a_body_alone_is_the_same_as_in_a_crowd_too_large_to_be_looked_at_at_once() -> None:
    a, b = wandering(3, 90), wandering(4, 90)
    assert 90 * (PLACES * a.shape[1]) ** 2 > 2 * _AT_ONCE
    off, at = farthest(a, b)
    for k in range(90):
        alone, place = farthest(a[k : k + 1], b[k : k + 1])
        assert alone[0] == off[k] and np.array_equal(place[0], at[k])
