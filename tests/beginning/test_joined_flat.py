"""Strokes that enclose nothing are loose, however widely ends are joined, and no strokes break the joining."""

from __future__ import annotations

import numpy as np
from hypothesis import given, settings
from hypothesis import strategies as st

from draft.base.arrays import Floats
from draft.beginning.joined import joined


def polyline(*points: tuple[float, float]) -> Floats:
    """Straight segments `(S, 4, 2)` through points."""
    ends = np.array(points, dtype=float)
    steps = np.linspace(0, 1, 4)[None, :, None]
    return np.asarray(ends[:-1, None] * (1 - steps) + ends[1:, None] * steps)


def test_a_heap_that_each_stroke_would_be_walked_there_and_back_is_loose() -> None:
    """A metre is no gap to be closed: both ends of everything lie within it."""
    line, ring = polyline((10, -10), (200, -30), (10, -250)), polyline((24, -290), (240, -290), (240, -350), (24, -290))
    found = joined([line, ring], 1000.0)
    assert len(found.closed) + found.loose == 1  # the heap of both is a run
    (closed,) = joined([line, ring], 0.1).closed
    assert set(closed.of) == {1}


@settings(deadline=None, max_examples=150)
@given(
    st.lists(st.lists(st.tuples(st.integers(0, 6), st.integers(0, 6)), min_size=2, max_size=4), max_size=7),
    st.sampled_from((0.01, 1.5, 3.0, 1000.0)),
)
def test_any_strokes_are_joined_or_loose(strokes: list[list[tuple[int, int]]], tolerance: float) -> None:
    found = joined([polyline(*points) for points in strokes], tolerance)
    assert all(len(one.path) == len(one.of) for one in found.closed)
    assert all(0 <= k < len(strokes) for one in found.closed for k in one.of)
