"""Which corners come together when a garment is sewn, and whether edges follow one another."""

from __future__ import annotations

from itertools import permutations, product

import pytest

from draft.garment.garment import SidePart
from draft.seams.following import SewnCorners, part_ends, reversed_side, side_ends
from tests.seams.test_walk import garment, panel

HALVES = panel("front", "20 cm", more="FOLD cut 1") + panel("back", "20 cm", more="FOLD cut 1")
BAND = panel("band", "40 cm", "5 cm")


def test_each_end_of_a_seam_comes_to_its_like_and_not_crosswise() -> None:
    sewn = SewnCorners(garment(HALVES + "\njoin\n    sides front.side to back.side"))
    low, high = 1, 2  # where `side` begins and ends
    assert sewn.together(("front", low), ("back", low)) and sewn.together(("front", high), ("back", high))
    assert not sewn.together(("front", low), ("back", high)) and not sewn.together(("front", low), ("front", high))


@pytest.mark.parametrize("join", ["band.hem to front.hem", "front.hem to band.hem"])
def test_both_ends_of_a_whole_band_come_to_where_the_half_begins(join: str) -> None:
    sewn = SewnCorners(garment(HALVES + BAND + f"\njoin\n    hem {join}"))
    assert sewn.together(("band", 0), ("front", 0)) and sewn.together(("band", 1), ("front", 0))
    assert not sewn.together(("band", 1), ("front", 1))


def test_a_side_run_the_other_way_begins_where_it_ended() -> None:
    made = garment(HALVES)
    side = (SidePart("front", "hem"), SidePart("front", "side"), SidePart("front", "left", reverse=True))
    assert part_ends(made, side[2]) == (("front", 0), ("front", 3))
    assert side_ends(made, side) == (("front", 0), ("front", 3))
    assert side_ends(made, reversed_side(side)) == (("front", 3), ("front", 0))


def test_three_parts_are_brought_in_order_however_they_are_given() -> None:
    sewn = SewnCorners(garment(panel("one", "20 cm")))
    rights = [tuple(SidePart("one", name) for name in ("hem", "side", "top"))]
    rights.append(reversed_side(rights[0]))
    for order, ways in product(permutations(rights[0]), product((False, True), repeat=3)):
        given = tuple(SidePart(part.piece, part.edge, way) for part, way in zip(order, ways, strict=True))
        assert sewn.in_order(given) in rights
    assert sewn.in_order((SidePart("one", "hem"), SidePart("one", "top"))) is None
