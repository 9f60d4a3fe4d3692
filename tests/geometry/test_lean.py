"""How far paths lie along a direction: all the way, not at all, and the mean over a bend."""

from __future__ import annotations

import numpy as np
import pytest

from draft.geometry.arc import arc
from draft.geometry.cubic import lines_through
from draft.geometry.lean import mean_square_along

UP, ACROSS = np.array([[0.0, 1.0]]), np.array([[1.0, 0.0]])


def test_a_straight_line_has_the_square_of_its_cosine() -> None:
    slant = lines_through([(0.0, 0.0), (30.0, 40.0)])[None]
    assert mean_square_along(slant, ACROSS) == pytest.approx([0.36])
    assert mean_square_along(slant, UP) == pytest.approx([0.64])


def test_a_quarter_of_a_circle_lies_half_along_both() -> None:
    quarter, _ = arc(np.zeros((1, 2)), np.array([[100.0, 0.0]]), np.array([[0.0, 100.0]]))
    assert mean_square_along(quarter, UP) == pytest.approx([0.5], abs=1e-3)
    assert mean_square_along(quarter, ACROSS) == pytest.approx([0.5], abs=1e-3)


def test_long_segments_count_for_more_and_a_path_without_length_for_nothing() -> None:
    bent = lines_through([(0.0, 0.0), (300.0, 0.0), (300.0, 100.0)])
    nothing = np.zeros_like(bent)
    assert mean_square_along(np.stack([bent, nothing]), np.repeat(ACROSS, 2, axis=0)) == pytest.approx([0.75, 0.0])
