"""Strips of interfacing cut across the cloth: together as long as they were, and no part wider than the cloth."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from draft.cloth.batches import Shelf
from draft.cloth.bolt import Cloth
from draft.cloth.cut_pieces import made
from draft.cloth.needs import Size
from draft.laying.in_booklet import Bolts, cloth_plan
from draft.laying.strips_across import in_parts, is_strip
from draft.paper.drawing.wording import Wording
from tests.asking import bundled


def _rectangle(wide: float, high: float) -> np.ndarray:
    return np.array([[0.0, 0.0], [wide, 0.0], [wide, high], [0.0, high]])


@given(wide=st.floats(20.0, 160.0), times=st.floats(4.1, 30.0), count=st.integers(1, 3))
def test_parts_are_as_long_together_and_fit_across(wide: float, times: float, count: int) -> None:
    strip = made(1, "band", "M", count, _rectangle(wide, wide * times), "right side up")
    cloth = Cloth(900.0)
    assert is_strip(strip)
    ((part,),) = [size.cut_pieces for size in in_parts([Size("M", (strip,), Shelf())], cloth)]
    assert part.width <= cloth.usable + 0.01 and part.height == pytest.approx(wide)
    assert part.width * part.count == pytest.approx(strip.height * count)


def test_what_is_broad_is_left_as_it_is() -> None:
    facing = made(1, "facing", "M", 1, _rectangle(200.0, 900.0))
    assert in_parts([Size("M", (facing,), Shelf())], Cloth(900.0)) == []


def test_the_waistband_of_the_trousers_takes_a_third_of_the_interfacing() -> None:
    garment = bundled("boatyard", "M").to_cut
    plan = cloth_plan(garment, {cloth.name: [900.0 if "inter" in cloth.name else 1500.0] for cloth in garment.cloths},
                      Bolts({}), Wording())  # fmt: skip
    amounts = {(one.name, one.laid): one.lengths[0] for one in plan.amounts}
    (whole,) = [mm for (name, laid), mm in amounts.items() if "inter" in name and not laid]
    (parts,) = [mm for (name, laid), mm in amounts.items() if laid == "pieced"]
    assert parts < whole / 3
