"""Polylines stay within their tolerance, on the curve, and end where it ends."""

from __future__ import annotations

import numpy as np
import pytest
from degenerate import PATHS, SEGMENTS
from hypothesis import given, settings
from hypothesis import strategies as st
from hypothesis.extra.numpy import arrays
from shapely import LineString, points
from shapely import distance as apart

from draft.geometry import cubic
from draft.geometry.flatten import flatten, sample

SEGMENT = arrays(float, (2, 4, 2), elements=st.floats(-300, 300).map(lambda x: round(x, 2)))


@settings(max_examples=40, deadline=None)
@given(SEGMENT, st.sampled_from([0.5, 0.05, 0.005]))
def test_no_point_of_the_curve_is_further_off_than_the_tolerance(path: np.ndarray, tolerance: float) -> None:
    path[1, 0] = path[0, 3]
    line = flatten(path, tolerance)
    fine = cubic.point(path[:, None], np.linspace(0, 1, 997)[None]).reshape(-1, 2)
    assert apart(LineString(line), points(fine)).max() <= tolerance + 1e-9
    assert np.array_equal(line[0], path[0, 0])
    assert np.allclose(line[-1], path[-1, 3], atol=1e-12)


def test_a_straight_segment_stays_in_one_piece() -> None:
    assert len(flatten(cubic.line([[0, 0]], [[500, 3]]))) == 2
    assert len(flatten(np.zeros((0, 4, 2)))) == 0


@pytest.mark.parametrize("name", SEGMENTS)
def test_degenerate_segments_give_finite_polylines(name: str) -> None:
    assert np.isfinite(flatten(SEGMENTS[name][None], 0.01)).all()


def test_samples_lie_on_every_body_at_even_parameters() -> None:
    path = np.concatenate([PATHS, PATHS + 7], axis=1)
    found = sample(path, 5)
    assert found.shape == (len(path), 11, 2)
    assert np.array_equal(found[:, 0], path[:, 0, 0])
    assert np.allclose(found[:, 3], cubic.point(path[:, 0], np.full(len(path), 0.6)))
    assert np.allclose(found[:, -1], path[:, 1, 3])
