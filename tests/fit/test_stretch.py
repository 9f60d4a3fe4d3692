"""The stretch that a garment needs: by hand, on made-up measurements and bands."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from draft.checks import wearing
from draft.fabrics.properties import TO_MEASURE
from draft.fit.stretch import FURTHEST, comfortable, least, needed_stretches
from tests.fit.made_up import banded, garment, measured

JERSEY = {"stretch_across": 0.4, "stretch_down": 0.2}


def test_an_opening_must_stretch_by_what_it_lacks_of_what_it_passes() -> None:
    """A neckband of 40 cm over a head of 56 cm: 56 / 40 - 1."""
    (need,) = needed_stretches(garment(measured("neckband", [400.0], passing=[560.0]), cloth=JERSEY))
    assert need.share[0] == pytest.approx(0.4) and need.limit[0] == 0.4 and need.met.all()
    assert need.why == "the neckband, to pass over the head"
    (tight,) = needed_stretches(garment(measured("neckband", [390.0], passing=[560.0]), cloth=JERSEY))
    assert not tight.met.any()
    assert tight.missing[0] == pytest.approx(560 / 1.4 - 390)


def test_what_is_worn_uses_half_of_the_stretch_and_leaves_room_to_move() -> None:
    """Half of it from 38 % on (common practice); below, what 16 % for moving leaves of it (Kirk and Ibrahim 1966, from
    memory): 1.2 / 1.16 - 1 of 20 %."""
    stretches = np.array([0.0, 0.1, 0.16, 0.2, 0.4, 0.85, 1.2])
    assert comfortable(stretches) == pytest.approx([0, 0, 0, 1.2 / 1.16 - 1, 0.2, 0.425, 0.6])
    snug = garment(measured("bust", [800.0], over=[940.0]), cloth=JERSEY)
    tight = garment(measured("bust", [780.0], over=[940.0]), cloth=JERSEY)
    assert needed_stretches(snug)[0].met.all() and not needed_stretches(tight)[0].met.any()


def test_everyday_close_wear_is_possible() -> None:
    """Knit tops are worn up to 10 % smaller than the body in cloth of 40 % and more, and 8 cm smaller in jersey with
    elastane that stretches by 85 % (common practice); cloth that stretches by 15 % is cut no smaller."""
    for body, mine, stretch, worn in ((1000, 900, 0.4, True), (940, 860, 0.85, True), (940, 930, 0.15, False)):
        top = garment(measured("bust", [float(mine)], over=[float(body)]), cloth={"stretch_across": stretch})
        assert needed_stretches(top)[0].met.all() == worn


def test_a_body_that_cloth_just_goes_over_asks_for_such_cloth_and_no_more() -> None:
    """Twice what it is stretched by; beyond what any cloth does, for the furthest that there is."""
    top = garment(measured("bust", [900.0, 400.0], over=[1000.0, 1000.0]))
    across, _ = least(top, needed_stretches(top))
    assert across.share[0] == pytest.approx(max(2 / 9, (10 / 9) * 1.16 - 1), abs=0.011)
    assert across.share[1] == FURTHEST


@pytest.mark.parametrize(("across", "given"), [(1.0, 0.4), (0.0, 0.2), (0.25, 0.25)])
def test_cloth_gives_by_the_way_that_it_lies(across: float, given: float) -> None:
    (need,) = needed_stretches(garment(measured("cuff", [200.0], passing=[220.0], across=across), cloth=JERSEY))
    assert need.given[0] == pytest.approx(given)


def test_the_least_stretch_is_told_for_both_ways_with_its_reason() -> None:
    top = garment(
        measured("neckband", [400.0, 500.0], passing=[560.0, 560.0]),
        measured("bust", [1000.0, 780.0], over=[940.0, 940.0]),
        measured("cuff", [200.0, 250.0], passing=[220.0, 220.0], across=0.1),
        cloth=JERSEY,
    )
    found = needed_stretches(top)
    across, down = least(top, found)
    assert across.share[0] == pytest.approx(0.4) and found[across.asking[0]].where == "neckband"
    assert down.share == pytest.approx([0.1, 0.0]) and found[down.asking[0]].where == "cuff" and down.asking[1] == -1
    # 780 over 940 is 20.5 % while worn, half of the stretch that it takes: more than the neck asks
    assert found[across.asking[1]].where == "bust" and across.share[1] == pytest.approx(0.41, abs=0.01)


@settings(max_examples=50, deadline=None)
@given(st.floats(300, 1200), st.floats(300, 1200), st.floats(0, 1.5))
def test_with_the_least_stretch_everything_is_met_and_with_less_it_is_not(
    mine: float, body: float, share: float
) -> None:
    def made(stretch: float) -> bool:
        top = garment(
            measured("bust", [mine], over=[body], passing=[body * share + 1]), cloth={"stretch_across": stretch}
        )
        return all(need.met.all() for need in needed_stretches(top))

    bare = garment(measured("bust", [mine], over=[body], passing=[body * share + 1]))
    asked = float(least(bare, needed_stretches(bare))[0].share[0])
    if asked < 2.4:  # the cloth that stretches furthest
        assert made(asked + 0.011)  # the classes are read off a table of whole percents
    if asked > 0.011:
        assert not made(asked - 0.011)


def test_a_band_is_held_to_its_opening_by_the_way_that_it_is_cut() -> None:
    (along,) = needed_stretches(banded(0.8, 0, JERSEY))
    assert along.share[0] == pytest.approx(0.25) and along.met.all() and along.given[0] == pytest.approx(0.4)
    (down,) = needed_stretches(banded(0.8, 90, JERSEY))
    assert down.given[0] == pytest.approx(0.2) and not down.met.any()
    assert down.why == "the band, to be sewn to its opening, neck"
    assert needed_stretches(banded(0.8, 0, {})) == ()  # nothing is known of the cloth


def test_a_band_longer_by_what_is_missing_just_reaches_round_its_opening() -> None:
    (short,) = needed_stretches(banded(0.6, 0, JERSEY))
    assert not short.met.any()
    (longer,) = needed_stretches(banded(0.6 + float(short.missing[0]) / 600, 0, JERSEY))
    assert longer.share == pytest.approx(longer.limit) and longer.missing == pytest.approx(0.0, abs=1e-9)


def test_cloth_that_does_not_come_back_gapes() -> None:
    tired = {**JERSEY, "recovery": 0.8}
    (note,) = wearing.check(garment(measured("neckband", [410.0], passing=[560.0]), cloth=tired))
    assert note.message.startswith(
        "the neckband, to pass over the head, must stretch further than this cloth comes back"
    )
    assert note.hints[0] == "of 36.6 % it keeps 7.3 % (a)"
    assert wearing.check(garment(measured("neckband", [410.0], passing=[560.0]), cloth=JERSEY)) == []


def test_what_stretches_too_far_is_told_with_its_figure_the_limit_and_a_fix() -> None:
    made = garment(measured("neckband", [380.0, 420.0], passing=[560.0, 560.0]), cloth=JERSEY, names=("S", "M"))
    (note,) = wearing.check(made)
    assert note.message == "the neckband, to pass over the head, must stretch too far, for size S"
    assert note.hints == (
        "at worst it must stretch by 47.4 %, and the cloth gives 40 % across (S)",
        "make it 2 cm longer, or take cloth that stretches further across",
        TO_MEASURE,
    )
    assert "mark 10 cm and pull" in TO_MEASURE and "plainseam words stretch_across" in TO_MEASURE
    worn = garment(measured("bust", [780.0], over=[940.0]), cloth=JERSEY, names=("M",))
    (note,) = wearing.check(worn)
    assert note.hints[0] == (
        "at worst it must stretch by 20.5 %, and cloth that stretches 40 % across is worn stretched by 20 % at most, "
        "to leave room to move (M)"
    )


def test_woven_cloth_does_not_stretch_at_all() -> None:
    (note,) = wearing.check(garment(measured("hip", [1000.0], over=[1010.0])))
    assert "cloth that stretches 0 % across" in note.hints[0]
