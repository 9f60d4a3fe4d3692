"""Outlines parted: along a line and not, and from corner to corner."""

from __future__ import annotations

import numpy as np
import pytest

from draft.geometry.cubic import lines_through
from draft.geometry.outline_parts import kept_runs, on_line, parted_at_corners

CORNERS = np.array([[0.0, 0.0], [200.0, 0.0], [400.0, 0.0], [400.0, 300.0], [0.0, 300.0]])
OUTLINE = lines_through(CORNERS, closed=True)
"""The second corner is none: both segments below lie in one line."""


def test_segments_on_a_line_are_found_past_its_ends_too() -> None:
    start, end = np.array([50.0, 0.005]), np.array([100.0, 0.005])
    assert on_line(OUTLINE, start, end).tolist() == [True, True, False, False, False]


@pytest.mark.parametrize(
    ("keep", "runs"),
    [
        ([1, 1, 1, 1, 1], [[0, 1, 2, 3, 4]]),
        ([0, 0, 0, 0, 0], []),
        ([0, 0, 1, 1, 1], [[2, 3, 4]]),
        ([1, 0, 0, 1, 1], [[3, 4, 0]]),
        ([1, 0, 1, 0, 0], [[0], [2]]),
    ],
)
def test_what_is_kept_comes_as_unbroken_runs(keep: list[int], runs: list[list[int]]) -> None:
    found = kept_runs(OUTLINE, np.array(keep, dtype=bool))
    assert [run.tolist() for run in found] == [OUTLINE[run].tolist() for run in runs]


def test_an_outline_is_parted_at_its_corners() -> None:
    found = parted_at_corners(OUTLINE, CORNERS[[0, 2, 3, 4]] + 3.0, reach=10.0)
    assert found is not None and [len(path) for path in found] == [2, 1, 1, 1]
    assert np.concatenate(found).tolist() == OUTLINE.tolist()


def test_of_one_corner_comes_the_whole_outline_from_there() -> None:
    found = parted_at_corners(OUTLINE, CORNERS[3:4], reach=10.0)
    assert found is not None and found[0].tolist() == np.roll(OUTLINE, -3, axis=0).tolist()


def test_corners_far_away_or_out_of_order_are_not_guessed() -> None:
    assert parted_at_corners(OUTLINE, CORNERS + 50.0, reach=10.0) is None
    assert parted_at_corners(OUTLINE, CORNERS[[0, 3, 2]], reach=10.0) is None
