"""Corners of the cutting line that a file chooses: carried on, cut across, or stepped between two widths."""

from __future__ import annotations

import numpy as np
import pytest
import shapely

from draft.bodies.bodies import Bodies
from draft.drafting.drafting import draft_plan
from draft.garment.garment import Piece
from draft.seams.allowance import cutting_line, sewing_line
from draft.seams.proof import is_proved
from tests.written import planned

RECTANGLE = """
pattern r
    allowance  10 mm
piece p
    points
        a  at 0, 0
        b  at 100 mm, 0
        c  at 100 mm, 60 mm
        d  at 0, 60 mm
    outline
        bottom  a to b  straight
        side    b to c  straight, allowance 25 mm
        top     c to d  straight
        other   d to a  straight
{corners}
    cut 1
"""


def piece(*corners: str) -> Piece:
    lines = "".join(f"        {corner}\n" for corner in corners)
    text = RECTANGLE.format(corners=f"    corners\n{lines}" if corners else "")
    nobody = Bodies(("M",), {})
    return draft_plan(planned(text), nobody).garment.piece("p")


def shape(*corners: str) -> shapely.Polygon:
    drawn = piece(*corners)
    cut = cutting_line(drawn, 0)
    assert is_proved(drawn, 0, sewing_line(drawn, 0), cut)
    return shapely.Polygon(cut[:, 0])


def test_a_corner_is_carried_on_unless_the_file_says_otherwise() -> None:
    assert shape().equals_exact(shape("a carried", "c carried"), 1e-9)
    assert shape().area == pytest.approx((100 + 10 + 25) * (60 + 20))


def test_a_corner_is_cut_across_at_the_width_of_its_allowance() -> None:
    """Of a square corner of width w the tip beyond a line at the distance w is w² (√2 - 1)²."""
    lost = shape().area - shape("a cut").area
    assert lost == pytest.approx(10**2 * (np.sqrt(2) - 1) ** 2, rel=1e-6)
    assert shape("a cut").exterior.distance(shapely.Point(0, 0)) == pytest.approx(10)


@pytest.mark.parametrize(("corner", "below"), [("b", -1), ("c", 1)])
def test_a_step_ends_the_wider_allowance_square_at_its_corner(corner: str, below: int) -> None:
    """The narrower width of 10 goes round the corner; what the wider one of 25 reaches beyond it is left off."""
    found = shape(f"{corner} stepped")
    assert shape().area - found.area == pytest.approx((25 - 10) * 10)
    y = 0 if corner == "b" else 60
    assert not found.contains(shapely.Point(112, y + 5 * below))
    assert found.contains(shapely.Point(108, y + 5 * below))
    assert found.contains(shapely.Point(112, y - 5 * below))


def test_between_equal_widths_there_is_no_step() -> None:
    assert shape("a stepped").equals_exact(shape(), 1e-9)
