"""Darts on figures whose waist is hardly smaller than the hip: wide enough to be sewn, or none at all."""

from __future__ import annotations

import numpy as np
import pytest

from draft.drafting.checked import draft_and_check
from draft.paper.booklet.order import sewing_order
from tests.asking import asked

GIRTHS = ("bust_girth=100cm", "stature=165cm")
LEAST = 4.0  # mm, the narrowest dart that is worth sewing (common practice)


@pytest.mark.parametrize("name", ["ropewalk", "boatyard", "lockside"])
@pytest.mark.parametrize("waist", [99, 96, 92, 88])
def test_no_dart_is_too_narrow_to_sew(name: str, waist: int) -> None:
    found = draft_and_check(asked(name, answers=(*GIRTHS, f"waist_girth={waist}cm", "hip_girth=99cm")))
    widths = [one.width[0] for piece in found.garment.pieces for one in (*piece.takeups, *piece.inner_darts)]
    assert all(width == 0 or width >= LEAST for width in np.round(widths, 6))


def test_where_a_dart_vanishes_its_step_does() -> None:
    for waist, steps in ((98, 0), (80, 2)):
        found = draft_and_check(asked("ropewalk", answers=(*GIRTHS, f"waist_girth={waist}cm", "hip_girth=99cm")))
        assert sum(step.sort == "takeups" for step in sewing_order(found.garment)) == steps
