"""Arcs: against the circle itself, the length of its sweep, and masks where there is no arc."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from draft.geometry import cubic
from draft.geometry.arc import PARTS, arc, are_opposite
from draft.geometry.fairness import fairness
from draft.geometry.length import length, point_at, tangent_at


def on_circle(centre: np.ndarray, radius: float, angle: float) -> np.ndarray:
    return centre + radius * np.array([[np.cos(angle), np.sin(angle)]])


@settings(max_examples=60)
@given(st.floats(1, 2000), st.floats(-3.1, 3.1), st.floats(0.01, 3.1), st.booleans())
def test_an_arc_keeps_its_distance_and_has_the_length_of_its_sweep(
    radius: float, start: float, sweep: float, left: bool
) -> None:
    centre = np.array([[12.0, -40.0]])
    turn = sweep if left else -sweep
    first, last = on_circle(centre, radius, start), on_circle(centre, radius, start + turn)
    path, fits = arc(centre, first, last)
    assert fits.all() and path.shape == (1, PARTS, 4, 2)
    fine = cubic.point(path[:, :, None], np.linspace(0, 1, 33)).reshape(-1, 2)
    assert np.abs(cubic.norm(fine - centre) - radius).max() < 1e-5 * radius
    assert length(path)[0] == pytest.approx(radius * sweep, rel=1e-5)
    way = (1 if left else -1) * np.array([[-(first - centre)[0, 1], (first - centre)[0, 0]]])
    assert np.allclose(tangent_at(path, 0.0), cubic.unit(way), atol=1e-9)


def test_an_arc_begins_and_ends_exactly_where_it_is_asked_to() -> None:
    centre, first, last = np.zeros((1, 2)), np.array([[100.0, 0.0]]), np.array([[0.0, 100.004]])
    path, fits = arc(centre, first, last)
    assert fits.all()
    assert np.array_equal(path[0, 0, 0], first[0]) and np.array_equal(path[0, -1, 3], last[0])
    assert np.array_equal(path[0, 1:, 0], path[0, :-1, 3])


def test_its_parts_join_smoothly_and_halfway_lies_halfway_round() -> None:
    path, _ = arc(np.zeros((1, 2)), np.array([[0.0, -50.0]]), np.array([[50.0, 0.0]]))
    assert fairness(path).corner[0] < 1e-6
    middle = 50 * np.sqrt(0.5)
    assert np.allclose(point_at(path, length(path) / 2), [[middle, -middle]], atol=1e-3)


def test_the_short_way_round_is_taken() -> None:
    centre = np.zeros((2, 2))
    first = np.array([[100.0, 0.0]] * 2)
    last = np.concatenate([on_circle(np.zeros(2), 100, 3.0), on_circle(np.zeros(2), 100, -3.0)])
    path, fits = arc(centre, first, last)
    assert fits.all()
    assert np.allclose(length(path), 300, atol=0.01)
    assert path[0, 1, 3, 1] > 90 and path[1, 1, 3, 1] < -90


def test_unlike_distances_the_centre_itself_and_opposite_ends_are_no_arc() -> None:
    centre = np.zeros((5, 2))
    first = np.array([[100, 0], [0, 0], [0.005, 0], [100, 0], [100, 0]])
    last = np.array([[0, 100.02], [0, 0], [0, 0.005], [-100, 0], [-100, 1e-9]])
    path, fits = arc(centre, first, last)
    assert not fits.any()
    assert np.isfinite(path).all()
    assert are_opposite(centre, first, last).tolist() == [False, False, False, True, True]


def test_ends_that_coincide_give_an_arc_without_length() -> None:
    at = np.array([[30.0, 40.0]])
    path, fits = arc(np.zeros((1, 2)), at, at)
    assert fits.all() and length(path)[0] < 1e-9


def test_a_body_alone_has_the_same_arc() -> None:
    rng = np.random.default_rng(4)
    centre, angles = rng.uniform(-50, 50, (20, 2)), rng.uniform(-3, 3, (2, 20))
    ends = [centre + 80 * np.stack([np.cos(a), np.sin(a)], axis=-1) for a in angles]
    everyone, fits = arc(centre, *ends)
    assert fits.sum() > 15
    for k in range(20):
        alone, _ = arc(centre[k : k + 1], *(end[k : k + 1] for end in ends))
        assert np.array_equal(alone[0], everyone[k])
