"""A short part of a long piece is drawn large, with its thick lines whole and in their place."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from draft.geometry.cubic import lines_through
from draft.paper.booklet.close_up import close_up
from draft.paper.booklet.set_blocks import SIDE, TALLEST, Block
from draft.paper.drawing.drawing import Path, Stroke, rectangle

SEAM, THIN = Stroke(0.85), Stroke(0.2)


def _leg(at: float, long: float, wide: float = 15.0, high: float = 46.0) -> Block:
    """A long piece with a thick line that begins `at` mm from its top."""
    piece = Path((rectangle(0.0, 0.0, wide, high),), THIN, "#dedede", closed=True)
    return Block((piece, Path((lines_through([(5.0, at), (5.0, at + long)]),), SEAM)), high)


@given(at=st.floats(0.0, 36.0), long=st.floats(2.0, 10.0))
def test_the_part_about_a_short_line_fills_its_place(at: float, long: float) -> None:
    whole = _leg(at, long)
    near = close_up(whole, (SEAM,))
    drawn = [item for item in near.items if isinstance(item, Path)]
    (thick,) = [item for item in drawn if item.stroke == SEAM]
    scale = float(np.ptp(thick.runs[0][..., 1])) / long
    assert scale > 1.5
    assert thick.runs[0][0, 0, 0] == pytest.approx(5.0 * scale)  # nothing is moved to a side
    for item in drawn:
        low, high = item.box()
        assert low.min() > -0.5 and high[0] <= SIDE + 0.5 and high[1] <= min(TALLEST, near.height) + 0.5
    assert drawn[0].fill == "#dedede" and drawn[0].stroke is None  # the ground has no line where it is cut off


def test_a_long_line_and_a_broad_piece_are_left_whole() -> None:
    for block in (_leg(2.0, 40.0), _leg(2.0, 5.0, wide=40.0), Block(_leg(2.0, 5.0).items[:1], 46.0)):
        assert close_up(block, (SEAM,)) is block
