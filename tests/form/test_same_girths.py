"""Bodies of the same girths: the tape reads the same on all of them, and their shapes differ as surveyed ones do."""

from __future__ import annotations

import numpy as np
import pytest

from draft.form.dress_form import ROW, form_of
from draft.form.same_girths import COUNT, alike, balanced
from draft.form.silhouette import extents
from tests.form.made_up import body


def test_the_design_is_balanced() -> None:
    ways = balanced(7)
    assert np.array_equal(ways @ ways.T, COUNT * np.eye(7))
    assert (balanced(8).sum(axis=1) == 0).all()


@pytest.mark.parametrize("wearer", ["woman", "man"])
def test_all_have_the_girths_and_other_shapes(wearer: str) -> None:
    bodies = body(wearer, bust_girth=98, waist_girth=84, hip_girth=103, stature=168)
    found, own = alike(bodies), form_of(bodies)
    assert found is not None and own is not None
    for level in ("bust", "waist", "hip"):
        assert np.allclose(found.girth(level), own.girth(level)[0], atol=0.1)
    depth = [np.ptp(extents(found, k, "side")[ROW["waist"]]) for k in range(COUNT)]
    assert np.std(depth) > 6.0 and np.mean(depth) == pytest.approx(np.ptp(extents(own, 0, "side")[ROW["waist"]]), abs=4)
    side = found.heights.of("side_neck") - found.heights.nape
    assert np.std(side) == pytest.approx(7.0, abs=0.5)


def test_a_bust_level_that_was_taken_moves_less() -> None:
    usual = {"bust_girth": 94.0, "waist_girth": 77.0, "hip_girth": 101.0, "stature": 164.0}
    spreads = []
    for more in ({}, {"bust_depth": 24.0}):
        found = alike(body(**usual, **more))
        assert found is not None
        spreads.append(float(np.std(found.heights.of("bust") - found.heights.nape)))
    assert spreads[0] == pytest.approx(21.0, abs=1) and spreads[1] == pytest.approx(5.0, abs=0.5)
    assert alike(body("child", hip_girth=80.0)) is None
