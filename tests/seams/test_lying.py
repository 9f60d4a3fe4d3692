"""Both sides of a join along one whole seam, opened out: what is marked on one is marked where it meets the other."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from draft.checks import notches_meet
from draft.seams.lying import Copies, Lying, lying
from draft.seams.sharing import both_sides
from tests.asking import bundled
from tests.seams.test_notches import distances
from tests.seams.test_walk import garment, panel

ROUND = panel("skirt", "25 cm", more="FOLD cut 2") + panel("band", "100 cm", "5 cm")
SIDES = "\njoin\n    sides skirt.side to skirt.side\n    ends band.side to band.left reversed\n"


def shares(found: list[np.ndarray]) -> list[float]:
    return sorted(round(float(at[0]), 9) for at in found)


def test_quarters_of_a_band_meet_the_folds_and_the_side_seams_of_a_panel_cut_twice() -> None:
    made = garment(ROUND + SIDES + "    waist band.hem to skirt.hem, quarters")
    assert distances(made, "band", "hem") == [[250.0, 1], [500.0, 1], [750.0, 1]]
    assert distances(made, "skirt", "hem") == []  # 250 mm from the fold to the side: its ends are the quarters
    turned = garment(ROUND + SIDES + "    waist skirt.hem to band.hem, quarters")
    assert distances(turned, "band", "hem") == [[250.0, 1], [500.0, 1], [750.0, 1]]


def test_a_notch_of_a_band_is_there_wherever_a_copy_of_the_panel_has_it() -> None:
    made = garment(ROUND + SIDES + "    waist band.hem to skirt.hem, notch at 10 cm")
    assert distances(made, "skirt", "hem") == [[100.0, 1]]
    assert distances(made, "band", "hem") == [[100.0, 1], [400.0, 1], [600.0, 1], [900.0, 1]]


def test_both_halves_of_a_fold_have_the_notch_and_so_has_the_whole() -> None:
    text = panel("front", "50 cm", more="FOLD cut 1") + panel("band", "100 cm", "5 cm")
    made = garment(text + "\njoin\n    low front.hem to band.hem")
    assert distances(garment(text + "\njoin\n    low band.hem to front.hem, notch at 30 cm"), "band", "hem") == [
        [300.0, 1],
        [700.0, 1],
    ]
    assert lying(made, made.joins[0]) == Lying(Copies(2), Copies(1))


def test_quarters_of_two_halves_on_the_fold_are_those_of_the_whole() -> None:
    text = panel("front", "20 cm", more="FOLD cut 1") + panel("facing", "20 cm", "6 cm", more="FOLD cut 1")
    made = garment(text + "\njoin\n    low front.hem to facing.hem, quarters")
    assert distances(made, "front", "hem") == distances(made, "facing", "hem") == [[100.0, 1]]


def test_gores_that_are_sewn_in_a_row_lie_the_same_way() -> None:
    text = panel("gore", "20 cm", more="cut 4") + panel("band", "80 cm", "5 cm")
    made = garment(
        text + "\njoin\n    seams gore.side to gore.left reversed\n    low band.hem to gore.hem, notch at 5 cm"
    )
    assert distances(made, "gore", "hem") == [[50.0, 1]]
    assert distances(made, "band", "hem") == [[50.0, 1], [250.0, 1], [450.0, 1], [650.0, 1]]


@settings(max_examples=100, deadline=None)
@given(st.floats(0.0, 1.0), st.integers(1, 4), st.integers(1, 4), st.booleans(), st.booleans())
def test_what_is_marked_on_either_side_meets_a_mark(
    share: float, one: int, other: int, one_way: bool, other_way: bool
) -> None:
    lie = Lying(Copies(one, one_way), Copies(other, other_way))
    first, second = lie.meeting(np.array([share]))
    assert any(abs(float(at[0]) - share) < 1e-6 for at in first)
    places = [
        shares([p for at in found for p in side.on_seam(at)])
        for side, found in zip((lie.first, lie.second), (first, second), strict=True)
    ]
    for marked, against in (places, places[::-1]):
        for place in marked:
            # the end of a copy is its own mark: there one copy begins and another ends
            ends = [k / n for n in (one, other) for k in range(n + 1)]
            assert min(abs(place - at) for at in [*against, *ends]) < 1e-5


def test_two_fronts_that_differ_have_a_side_of_the_back_each() -> None:
    text = panel("back", "20 cm", more="FOLD cut 1") + panel("left", "25 cm") + panel("right", "20 cm")
    made = garment(text + "\njoin\n    one left.side to back.side\n    two right.side to back.side")
    assert [[side.copies for side in both_sides(made, join)] for join in made.joins] == [[1, 1], [1, 1]]
    alone = garment(text + "\njoin\n    one left.side to back.side")
    assert [side.copies for side in both_sides(alone, alone.joins[0])] == [1, 2]


def test_a_band_and_a_facing_round_two_halves_have_both_of_them() -> None:
    text = panel("front", "20 cm", more="FOLD cut 1") + panel("band", "40 cm") + panel("facing", "40 cm")
    made = garment(text + "\njoin\n    one band.hem to front.hem reversed\n    two facing.hem to front.hem reversed")
    assert [[side.copies for side in both_sides(made, join)] for join in made.joins] == [[1, 2], [1, 2]]


def test_a_side_goes_along_both_halves_of_one_edge() -> None:
    text = panel("back", "20 cm", more="FOLD cut 1") + panel("left", "25 cm") + panel("right", "20 cm")
    text += panel("collar", "85 cm", "8 cm")
    made = garment(text + "\njoin\n    seat collar.hem to left.hem then back.hem reversed then back.hem then right.hem")
    first, second = both_sides(made, made.joins[0])
    assert (first.copies, second.copies) == (1, 1)
    np.testing.assert_allclose(second.whole, 850.0)


@pytest.mark.parametrize("name", ["marlpit", "tidemill", "ropewalk", "hooded"])
def test_all_notches_of_the_bundled_patterns_meet(name: str) -> None:
    assert notches_meet.check(bundled(name).garment) == []
