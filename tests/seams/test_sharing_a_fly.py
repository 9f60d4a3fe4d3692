"""The two edges of a fly are one edge of a pair: one piece is sewn to the left one, another to the right one."""

from __future__ import annotations

import numpy as np

from draft.seams.middles import behind_a_slit
from draft.seams.sharing import both_sides
from draft.seams.walk import seam_ends, walk_seams
from tests.asking import bundled


def test_facing_and_shield_have_one_front_each() -> None:
    garment = bundled("boatyard").garment
    joins = {join.name: join for join in garment.joins}
    for name in ("fly_facing", "fly_shield"):
        first, second = both_sides(garment, joins[name])
        assert (first.copies, second.copies) == (1, 1)
    walked = {one.join.name: one for one in walk_seams(garment)}
    assert np.abs(walked["fly_facing"].difference).max() < 1e-6


def test_a_neckline_goes_on_over_the_middle_and_is_not_shared() -> None:
    assert behind_a_slit(bundled("ropewalk").garment) == {}
    assert set(behind_a_slit(bundled("boatyard").garment)) == {"fly_facing", "fly_shield"}


def test_no_outline_crosses_the_foot_of_the_fly() -> None:
    found = {(end.join.name, end.at_start) for end in seam_ends(bundled("boatyard").garment)}
    assert ("fly_facing", False) not in found and ("inseam", False) in found
