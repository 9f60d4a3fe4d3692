"""Seams walked against lengths and angles that are known by construction."""

from __future__ import annotations

import numpy as np
import pytest

from draft.drafting.drafting import draft_plan
from draft.garment.garment import Garment
from draft.geometry.length import length
from draft.seams.sides import side
from draft.seams.walk import handedness, seam_ends, walk_seams
from tests.written import people, planned

BUST = np.array([80.0, 100.0, 120.0])


def garment(text: str) -> Garment:
    return draft_plan(planned(f"body\n    bust_girth\n{text}"), people(bust_girth=BUST)).garment


def panel(name: str, width: str, height: str = "40 cm", more: str = "cut 1", lean: str = "0 cm") -> str:
    """A four-sided piece: hem, side, top, other side back to the start."""
    return f"""
piece {name}
    points
        a at 0, 0
        b at {width}, 0
        c at {width} + {lean}, {height}
        d at 0, {height}
    outline
        hem   a to b straight
        side  b to c straight
        top   c to d straight
        left  d to a straight{", on fold" if "FOLD" in more else ""}
    {more.replace("FOLD", "").strip()}
"""


def test_an_even_join_is_as_long_as_its_edges() -> None:
    made = garment(
        panel("one", "20 cm") + panel("two", "bust_girth / 5", "42 cm") + "\njoin\n    j one.side to two.side"
    )
    (walked,) = walk_seams(made)
    np.testing.assert_allclose(walked.first, 400.0)
    np.testing.assert_allclose(walked.second, 420.0)
    np.testing.assert_allclose(walked.difference, -20.0)


def test_a_piece_on_the_fold_and_one_cut_twice_count_twice() -> None:
    """A band cut once goes round two folded halves; a cuff cut twice is sewn to a sleeve cut twice."""
    made = garment(
        panel("front", "bust_girth / 4", more="FOLD cut 1")
        + panel("back", "bust_girth / 4", more="FOLD cut 1")
        + panel("band", "bust_girth * 90 %", "5 cm")
        + panel("sleeve", "30 cm", more="cut 2")
        + panel("cuff", "27 cm", "5 cm", more="cut 2")
        + "\njoin\n    hem band.hem to front.hem then back.hem reversed, stretched 90 %"
        + "\n    wrist cuff.hem to sleeve.hem, stretched 90 %"
    )
    hem, wrist = walk_seams(made)
    np.testing.assert_allclose(hem.first, BUST * 9)
    np.testing.assert_allclose(hem.second, BUST * 10)
    np.testing.assert_allclose(hem.difference, 0.0, atol=1e-9)
    np.testing.assert_allclose([wrist.first, wrist.second, wrist.wanted], [[270] * 3, [300] * 3, [270] * 3])


def test_a_side_counts_its_edges_as_often_as_the_garment_has_them() -> None:
    made = garment(
        panel("front", "20 cm", more="FOLD cut 1")
        + panel("back", "10 cm", more="cut 2")
        + "\njoin\n    j front.hem then back.hem to front.top then back.top"
    )
    first = side(made, made.joins[0].first)
    assert [side_edge.copies for side_edge in first.edges] == [2, 2]
    np.testing.assert_allclose((first.length, first.whole), ([300.0] * 3, [600.0] * 3))


@pytest.mark.parametrize("lean", [0.0, 3.0, -5.0])
def test_the_kink_across_a_seam_is_that_of_its_two_corners(lean: float) -> None:
    """Front and back lean by the same way and amount: at the hem both corners open, at the top both close."""
    word = f"{lean} cm" if lean >= 0 else f"0 cm - {-lean} cm"
    made = garment(
        panel("one", "20 cm", lean=word) + panel("two", "30 cm", lean=word) + "\njoin\n    j one.side to two.side"
    )
    tilt = np.degrees(np.arctan2(lean, 40.0))
    start, end = seam_ends(made)
    assert (start.at_start, end.at_start) == (True, False)
    np.testing.assert_allclose(start.kink, 2 * tilt, atol=1e-9)
    np.testing.assert_allclose(end.kink, -2 * tilt, atol=1e-9)
    assert start.neighbours == ("hem", "hem") and end.neighbours == ("top", "top")


def test_a_reversed_side_is_walked_from_its_other_end() -> None:
    made = garment(
        panel("one", "20 cm", lean="3 cm") + panel("two", "30 cm") + "\njoin\n    j one.side to two.left reversed"
    )
    start, end = seam_ends(made)
    assert start.neighbours == ("hem", "hem") and end.neighbours == ("top", "top")
    tilt = np.degrees(np.arctan2(3.0, 40.0))
    np.testing.assert_allclose([start.kink, end.kink], [[tilt] * 3, [-tilt] * 3], atol=1e-9)


def test_what_is_stretched_or_made_of_several_edges_has_no_corners() -> None:
    made = garment(
        panel("one", "20 cm")
        + panel("two", "30 cm")
        + "\njoin\n    a one.hem to two.hem, stretched 90 %\n    b one.side then one.top to two.side then two.top"
    )
    assert seam_ends(made) == ()


LENS = """
piece lens
    points
        a at 0, 0
        b at 0, bust_girth / 2
    outline
        right a to b curve leaving across arriving inward
        left  b to a curve leaving inward arriving across
    cut 1
"""


def test_the_way_round_is_told_of_any_outline() -> None:
    square = panel("one", "20 cm")
    turned = panel("two", "20 cm").replace("a at 0, 0", "a at 0, 40 cm").replace("d at 0, 40 cm", "d at 0, 0")
    turned = turned.replace("b at 20 cm, 0", "b at 20 cm, 40 cm").replace("c at 20 cm + 0 cm, 40 cm", "c at 20 cm, 0")
    backwards = LENS.replace("piece lens", "piece snel").replace(
        "leaving across arriving inward", "leaving inward arriving across", 1
    )
    backwards = backwards.replace(
        "b to a curve leaving inward arriving across", "b to a curve leaving across arriving inward"
    )
    made = garment(square + turned + LENS + backwards)
    assert [handedness(piece).tolist() for piece in made.pieces] == [[1.0] * 3, [-1.0] * 3, [1.0] * 3, [-1.0] * 3]


def test_a_lens_has_the_same_corners_whichever_way_it_runs() -> None:
    made = garment(LENS + panel("one", "20 cm", "length of lens.right") + "\njoin\n    j one.side to lens.right")
    start, end = seam_ends(made)
    np.testing.assert_allclose(start.second, 180.0, atol=1e-6)
    np.testing.assert_allclose(end.second, 180.0, atol=1e-6)


def test_darts_and_gathers_are_sewn_before_the_seam_is() -> None:
    text = (
        panel("skirt", "bust_girth / 4")
        + """
    points
        middle on top: 50 % from d
        tip    from middle: 8 cm down
    darts
        dart on top: 3 cm wide at middle, to tip
"""
        + panel("yoke", "bust_girth / 4 - 3 cm", "8 cm")
        + "\njoin\n    waist yoke.hem to skirt.top"
    )
    made = garment(text)
    (walked,) = walk_seams(made)
    np.testing.assert_allclose(walked.first, BUST * 2.5 - 30)
    np.testing.assert_allclose(walked.second, BUST * 2.5 - 30)
    np.testing.assert_allclose(length(made.piece("skirt").edge("top").segments), BUST * 2.5)


def test_a_seam_that_runs_out_in_the_cloth_has_no_outline_to_run_on_there() -> None:
    """Two edges of one piece that end in one corner are a dart sewn as a seam: only its open end is looked at."""
    made = garment(
        """
piece sleeve
    points
        a at 0, 0
        b at bust_girth, 0
        c at bust_girth, 40 cm
        d at 60 % * bust_girth, 40 cm
        e at half of bust_girth, 30 cm
        f at 40 % * bust_girth, 40 cm
        g at 0, 40 cm
    outline
        hem     a to b straight
        front   b to c straight
        neck    c to d straight
        over    d to e straight
        under   e to f straight
        nape    f to g straight
        back    g to a straight
    cut 1

join
    dart sleeve.over to sleeve.under reversed
"""
    )
    assert [(end.at_start, end.neighbours) for end in seam_ends(made)] == [(True, ("neck", "nape"))]
