"""Which way words are read along a line is settled by the line, not by what a machine rounds off."""

from __future__ import annotations

import pytest

from draft.paper.piece.surface import Surface


@pytest.mark.parametrize("quarters", [0, 1, 2, 3])
@pytest.mark.parametrize("angle", [-180.0, -90.0, 0.0, 90.0, 180.0, 270.0])
def test_a_hair_to_either_side_is_read_alike(quarters: int, angle: float) -> None:
    surface = Surface(quarters)
    wanted = surface.readable(angle)
    assert abs(wanted - surface.upright) <= 90
    assert {surface.readable(angle + hair) for hair in (-1e-8, -1e-13, 1e-13, 1e-8)} == {wanted}
