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


def test_at_a_corner_where_the_outline_runs_on_it_is_parted_at_the_nearest_place() -> None:
    beside = np.array([[0.0, 0.0], [300.0, 12.0], [400.0, 0.0], [400.0, 300.0], [0.0, 300.0]])
    found = parted_at_corners(OUTLINE, beside, reach=20.0, smooth=np.array([False, True, False, False, False]))
    assert found is not None and [len(path) for path in found] == [2, 1, 1, 1, 1]
    assert found[1][0, 0] == pytest.approx([300.0, 0.0], abs=1e-6)
    assert [path[0, 0].tolist() for path in found[1:]] == [path[-1, 3].tolist() for path in found[:-1]]


def test_corners_that_would_have_the_same_turn_share_those_that_are_there_in_order() -> None:
    """A narrow hem: the turns at both of its ends are near both of its corners, and one is a little sharper."""
    narrow = lines_through([(0.0, 0.0), (40.0, 3.0), (40.0, 300.0), (0.0, 300.0)], closed=True)
    corners = np.array([[2.0, 20.0], [38.0, 20.0], [38.0, 298.0], [2.0, 298.0]])
    found = parted_at_corners(narrow, corners, reach=60.0)
    assert found is not None and [path[0, 0].tolist() for path in found] == [[0, 0], [40, 3], [40, 300], [0, 300]]


def test_a_corner_that_its_allowance_closes_over_is_as_far_in_as_the_outline_goes() -> None:
    slit = lines_through(
        [(0.0, 0.0), (190.0, 0.0), (200.0, 90.0), (210.0, 0.0), (400.0, 0.0), (200.0, 400.0)], closed=True
    )
    corners = np.array([[10.0, 10.0], [180.0, 10.0], [200.0, 150.0], [220.0, 10.0], [390.0, 10.0], [200.0, 390.0]])
    found = parted_at_corners(slit, corners, reach=30.0)
    assert found is not None and [path[0, 0].tolist() for path in found][2] == [200.0, 90.0]
