"""The proof of a cutting line passes what is drawn rightly and refuses what is not."""

from __future__ import annotations

import numpy as np
import pytest
import shapely

from draft.garment.garment import Piece
from draft.seams.allowance import cutting_line, sewing_line
from draft.seams.around import around
from draft.seams.proof import is_proved
from tests.asking import bundled


@pytest.fixture(scope="module")
def front() -> Piece:
    return bundled("marlpit", "M").garment.piece("front")


def test_the_cutting_line_of_the_demo_is_proved(front: Piece) -> None:
    assert is_proved(front, 0, sewing_line(front, 0), cutting_line(front, 0))


def test_a_line_too_near_is_not(front: Piece) -> None:
    assert not is_proved(front, 0, sewing_line(front, 0), sewing_line(front, 0))


def test_a_line_that_leaves_part_of_the_piece_outside_is_not(front: Piece) -> None:
    assert not is_proved(front, 0, sewing_line(front, 0), cutting_line(front, 0) + np.array([40.0, 0.0]))


def test_a_line_that_crosses_itself_is_not(front: Piece) -> None:
    crossed = cutting_line(front, 0).copy()
    crossed[2, 1:3] += np.array([[900.0, 0.0], [-900.0, 0.0]])
    assert not is_proved(front, 0, sewing_line(front, 0), crossed)


def test_what_stands_in_keeps_its_distance_and_ends_on_the_fold(front: Piece) -> None:
    line = around(front, 0, sewing_line(front, 0))
    assert is_proved(front, 0, sewing_line(front, 0), line)
    assert line[:, 0, 0].min() == pytest.approx(0.0, abs=1e-6)
    usual = shapely.Polygon(cutting_line(front, 0)[:, 0])
    assert shapely.Polygon(line[:, 0]).area == pytest.approx(usual.area, rel=0.01)
