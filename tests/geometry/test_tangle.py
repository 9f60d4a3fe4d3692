"""Crossings of curves: against shapely on dense polylines, and loops cut out where they close."""

from __future__ import annotations

import numpy as np
import pytest
from degenerate import SEGMENTS
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import LineString, Point

from draft.geometry import cubic
from draft.geometry.flatten import flatten
from draft.geometry.spline import hobby
from draft.geometry.tangle import crossings, part_from, place_point, self_crossings, without_loops


def wander(seed: int, knots: int = 4) -> np.ndarray:
    return hobby(np.random.default_rng(seed).uniform(-150, 150, (1, knots, 2)), [None] * knots)[0]


@settings(max_examples=40, deadline=None)
@given(st.integers(0, 10_000))
def test_two_curves_cross_where_their_polylines_do(seed: int) -> None:
    a, b = wander(seed), wander(seed + 20_000)
    found = crossings(a, b)
    on_a, on_b = (np.array([place_point(path, x) for x in found[:, k]]) for k, path in enumerate((a, b)))
    assert np.allclose(on_a, on_b, atol=1e-5)
    cuts = LineString(flatten(a, 1e-4)).intersection(LineString(flatten(b, 1e-4)))
    theirs = [] if cuts.is_empty else [g for g in getattr(cuts, "geoms", [cuts]) if isinstance(g, Point)]
    for place in theirs:
        assert np.hypot(*(on_a - [place.x, place.y]).T).min() < 0.05
    assert len(found) >= len(theirs)


def test_an_end_that_lies_on_the_other_curve_crosses_it() -> None:
    along, upright = cubic.line([[0, 0]], [[90, 0]]), cubic.line([[30, 0]], [[30, 50]])
    assert np.allclose(crossings(along, upright), [[1 / 3, 0]], atol=1e-9)
    assert np.allclose(crossings(upright, along), [[0, 1 / 3]], atol=1e-9)


def test_neighbours_do_not_cross_at_their_joint() -> None:
    square = cubic.line([[0, 0], [9, 0], [9, 9], [0, 9]], [[9, 0], [9, 9], [0, 9], [0, 0]])
    assert len(self_crossings(square, closed=True)) == 0
    assert len(self_crossings(wander(1, 3))) == 0


def test_a_path_that_crosses_itself_loses_its_loop() -> None:
    corners = np.array([[0, 0], [100, 0], [100, 60], [40, 60], [40, -50]], dtype=float)
    path = cubic.line(corners[:-1], corners[1:])
    assert np.allclose(self_crossings(path), [[0.4, 3 + 60 / 110]], atol=1e-9)
    rest = without_loops(path, np.inf)
    assert np.allclose(rest[:, [0, 3]], [[[0, 0], [40, 0]], [[40, 0], [40, -50]]], atol=1e-9)


@settings(max_examples=40, deadline=None)
@given(st.integers(0, 10_000), st.floats(0, 3), st.floats(0, 3))
def test_a_part_of_a_path_runs_between_its_places(seed: int, start: float, end: float) -> None:
    path = wander(seed)
    part = part_from(path, start, end)
    if start == end:
        assert len(part) == 0
    else:
        assert np.allclose(part[0, 0], place_point(path, start), atol=1e-9)
        assert np.allclose(part[-1, 3], place_point(path, end), atol=1e-9)
        assert len(part) <= int(max(start, end)) - int(min(start, end)) + 1
        assert np.array_equal(part[1:, 0], part[:-1, 3])


@pytest.mark.parametrize("name", SEGMENTS)
def test_degenerate_segments_have_finite_crossings(name: str) -> None:
    seg = SEGMENTS[name][None]
    for other in SEGMENTS.values():
        assert np.isfinite(crossings(seg, other[None])).all()
    assert np.isfinite(without_loops(np.concatenate([seg, cubic.line(seg[:, 3], [[7, -90]])]), np.inf)).all()
