"""Notches of a join lie at equal distances along both of its sides, as they are sewn."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from draft.garment.garment import Garment
from draft.seams.notches import CLEAR
from tests.seams.test_walk import BUST, garment, panel


def distances(made: Garment, piece: str, edge: str) -> list[list[float]]:
    """The places of an edge's notches for the first body, with their strokes."""
    found = [[round(float(n.at[0]), 9), n.strokes] for n in made.piece(piece).notches if n.edge == edge]
    return sorted(found)


PAIR = panel("one", "20 cm") + panel("two", "30 cm")


def test_a_share_and_a_length_are_marked_on_both_sides() -> None:
    made = garment(PAIR + "\njoin\n    j one.side to two.side, notch at 25 %, double notch at 12 cm")
    for piece in ("one", "two"):
        assert distances(made, piece, "side") == [[100.0, 1], [120.0, 2]]


def test_a_reversed_side_is_marked_from_its_other_end() -> None:
    made = garment(PAIR + "\njoin\n    j one.side to two.left reversed, notch at 10 cm")
    assert distances(made, "one", "side") == [[100.0, 1]]
    assert distances(made, "two", "left") == [[300.0, 1]]


def test_a_notch_falls_on_whichever_edge_of_a_side_it_reaches() -> None:
    text = PAIR + "\njoin\n    j one.side then one.top to two.side then two.top, notch at 10 cm, notch at 50 cm"
    made = garment(text)
    assert distances(made, "one", "side") == [[100.0, 1]]
    assert distances(made, "one", "top") == [[100.0, 1]]
    share = 500 / 600  # of the first side; the second is 700 mm long
    assert distances(made, "two", "side") == [[pytest.approx(100 / 600 * 700), 1]]
    assert distances(made, "two", "top") == [[pytest.approx(share * 700 - 400), 1]]


def test_quarters_of_a_band_meet_the_folds_the_sides_and_what_lies_halfway() -> None:
    """A band round two folded halves, begun at the centre front: half of it lies at the centre back."""
    text = (
        panel("front", "20 cm", more="FOLD cut 1")
        + panel("back", "30 cm", more="FOLD cut 1")
        + panel("band", "100 cm", "5 cm")
        + "\njoin\n    hem band.hem to front.hem then back.hem reversed, quarters"
    )
    made = garment(text)
    assert distances(made, "band", "hem") == [[250.0, 1], [500.0, 1], [750.0, 1]]
    assert distances(made, "front", "hem") == []
    assert distances(made, "back", "hem") == [[250.0, 1]]  # half of each half: 250 of 500 mm, 50 past the side seam


@pytest.mark.parametrize(("place", "there"), [(4.0, False), (6.0, True), (394.0, True), (396.0, False)])
def test_near_the_end_of_an_edge_the_seam_is_itself_the_notch(place: float, there: bool) -> None:
    assert CLEAR == 5.0
    made = garment(PAIR + f"\njoin\n    j one.side to two.side, notch at {place} mm")
    assert bool(distances(made, "one", "side")) == there


def of_two_edges(beyond: str, place: str) -> Garment:
    """One side of 40 cm sewn to one of two edges; the second ends so far across from the first as `beyond`."""
    two = (
        "piece two\n    points\n        a at 0, 0\n        b at 20 cm, 0\n        c at 20 cm, 25 cm\n"
        f"        d from c: 15 cm up, {beyond} across\n        e at 0, 40 cm\n"
        "    outline\n        hem a to b straight, unjoined\n        low b to c straight\n"
        "        high c to d straight\n"
        "        top d to e straight, unjoined\n        left e to a straight, unjoined\n    cut 1\n"
    )
    return garment(panel("one", "20 cm") + two + f"\njoin\n    j one.side to two.low then two.high, notch at {place}")


def test_where_the_outline_runs_on_from_edge_to_edge_nothing_else_tells_the_place() -> None:
    made = of_two_edges("0 cm", "25 cm")
    assert distances(made, "one", "side") == [[250.0, 1]]
    assert distances(made, "two", "low") == [[250.0, 1]] and distances(made, "two", "high") == []


def test_where_the_outline_turns_from_edge_to_edge_its_corner_is_notch_enough() -> None:
    made = of_two_edges("20 cm", "20 cm")  # half of 50 cm: at the corner
    assert distances(made, "one", "side") == [[200.0, 1]]
    assert distances(made, "two", "low") == [] and distances(made, "two", "high") == []


def test_a_size_may_have_a_notch_where_another_has_none() -> None:
    text = (
        panel("one", "20 cm")
        + panel("two", "20 cm")
        + "\njoin\n    j one.hem to two.hem, notch at bust_girth / 5 - 1 cm"
    )
    made = garment(text)  # 15, 19 and 23 cm along 20 cm
    (notch,) = made.piece("one").notches
    np.testing.assert_allclose(notch.at, [150.0, 190.0, np.nan])


def test_two_joins_with_notches_at_one_place_make_one_notch() -> None:
    text = (
        PAIR + "\njoin\n    j one.side to two.side, notch at 50 %\n    k one.side to two.left reversed, notch at 20 cm"
    )
    assert distances(garment(text), "one", "side") == [[200.0, 1]]


def test_a_notch_beyond_a_dart_lies_further_along_the_drawn_edge() -> None:
    text = (
        panel("skirt", "40 cm")
        + """
    points
        middle on top: 10 cm from d
        tip    from middle: 8 cm down
    darts
        dart on top: 3 cm wide at middle, to tip
"""
        + panel("yoke", "37 cm", "8 cm")
        + "\njoin\n    waist yoke.hem to skirt.top reversed, notch at 5 cm, notch at 20 cm"
    )
    made = garment(text)
    assert distances(made, "yoke", "hem") == [[50.0, 1], [200.0, 1]]
    # `top` runs from the side to the left, where the dart is: 5 cm from the left lies before it, 20 cm behind it
    assert distances(made, "skirt", "top") == [[400.0 - 230.0, 1], [350.0, 1]]


@settings(max_examples=25, deadline=None)
@given(st.floats(0.02, 0.98).map(lambda share: round(share, 3)), st.integers(10, 90), st.integers(10, 90))
def test_notches_part_both_sides_in_the_same_shares(share: float, one: int, two: int) -> None:
    text = (
        panel("one", f"{one} cm")
        + panel("two", f"{two} cm")
        + f"\njoin\n    j one.hem to two.hem, notch at {share * 100:.1f} %"
    )
    made = garment(text)
    places = [
        np.array([n.at[0] for n in made.piece(name).notches]) / (10 * width)
        for name, width in (("one", one), ("two", two))
    ]
    for place in places:
        assert place.size == 0 or place == pytest.approx(share)
    assert len(BUST) == len(made.sizes)
