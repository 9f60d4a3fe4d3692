"""What lies between several lines: each is cut along where the outline lies once the one before it is cut."""

from __future__ import annotations

import numpy as np
import pytest

from draft.geometry.area import outline_areas
from tests.plan.test_moves import drafted


@pytest.mark.parametrize("between", ["level and inner", "inner and level"])
def test_lines_may_be_named_in_any_order(between: str) -> None:
    lines = (
        "block whole from front\n    moves\n        lay front mirrored as left, centre on centre\n"
        "    points\n        out   on left_side: 5 cm from left_waist_side\n        top   on shoulder: 4 cm from neck\n"
        "        low   on waist: 5 cm from waist_side\n"
        "    lines\n        level  neck to out   straight\n        inner  top to low   straight\n"
        f"piece strip from whole, between {between}\n    cut 1\n"
    )
    strip = drafted(lines).garment.piece("strip")
    assert {edge.name for edge in strip.edges} == {"level", "shoulder", "inner", "waist", "left_waist", "left_side"}
    area = abs(float(outline_areas(np.concatenate([edge.segments for edge in strip.edges], axis=1))[0]))
    assert 40_000 < area < 120_000
