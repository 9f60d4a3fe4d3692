"""Joined edges follow one another and run the same way, or the file is told what to write instead."""

from __future__ import annotations

import re

import pytest

from draft.base.notes import Note, Severity
from draft.checks import seam_allowances, seam_ends, seam_order
from draft.garment.garment import Garment
from tests.seams.test_walk import garment, panel

HALVES = panel("front", "20 cm", more="FOLD cut 1") + panel("back", "20 cm", more="FOLD cut 1")
BAND = panel("band", "80 cm", "5 cm")
SIDES = "\njoin\n    sides front.side to back.side\n"


def notes(text: str) -> list[Note]:
    return seam_order.check(garment(text))


def advice(found: list[Note]) -> str:
    """What the only note says to write."""
    (note,) = found
    written = re.search(r"write `(.*)`", note.hints[0])
    assert written and note.severity is Severity.ERROR
    return written[1]


@pytest.mark.parametrize("way", ["front.hem then back.hem reversed", "back.hem then front.hem reversed"])
def test_edges_that_meet_at_a_seam_follow_one_another(way: str) -> None:
    assert notes(HALVES + BAND + SIDES + f"    hem band.hem to {way}") == []


@pytest.mark.parametrize(
    ("wrong", "right"),
    [
        ("front.hem then back.hem", "front.hem then back.hem reversed"),
        ("front.hem reversed then back.hem reversed", "front.hem then back.hem reversed"),
        ("front.hem reversed then back.hem", "front.hem then back.hem reversed"),
    ],
)
def test_edges_that_do_not_follow_are_turned_and_the_words_given_hold(wrong: str, right: str) -> None:
    text = HALVES + BAND + SIDES
    found = notes(text + f"    hem band.hem to {wrong}")
    assert found[0].message == f"`{wrong}` does not run on from edge to edge"
    assert advice(found) == right
    assert notes(text + f"    hem band.hem to {advice(found)}") == []


def test_edges_of_one_piece_follow_from_corner_to_corner() -> None:
    pair = panel("one", "20 cm") + panel("two", "20 cm")
    assert notes(pair + "\njoin\n    j one.hem then one.side then one.top to two.hem then two.side then two.top") == []
    wrong = notes(pair + "\njoin\n    j one.top then one.side then one.hem to two.hem then two.side then two.top")
    assert advice(wrong) == "one.top reversed then one.side reversed then one.hem reversed"
    order = notes(pair + "\njoin\n    j one.hem then one.top then one.side to two.hem then two.side then two.top")
    assert advice(order) == "one.hem then one.side then one.top"


def test_edges_that_nothing_brings_together_are_a_caution() -> None:
    (note,) = notes(HALVES + BAND + "\njoin\n    hem band.hem to front.hem then back.hem reversed")
    assert note.severity is Severity.CAUTION
    assert note.message == "nothing brings the end of `front.hem` and the start of `back.hem reversed` together"
    assert note.hints == ("declare the seam at which they meet, under `join`",)


def test_a_row_of_three_through_two_seams() -> None:
    text = HALVES + panel("side", "10 cm", more="cut 2") + panel("band", "100 cm", "5 cm")
    text += "\njoin\n    near front.side to side.left reversed\n    far side.side to back.side\n"
    assert notes(text + "    hem band.hem to front.hem then side.hem then back.hem reversed") == []
    found = notes(text + "    hem band.hem to front.hem then back.hem reversed then side.hem")
    assert advice(found) == "front.hem then side.hem then back.hem reversed"


LEANING = (panel("one", "20 cm", lean="3 cm"), panel("two", "30 cm", lean="-3 cm").replace("+ -3 cm", "- 3 cm"))


def test_two_sides_that_run_opposite_ways_are_known_by_their_outlines() -> None:
    # one leans out and the other in: hem to hem and top to top they run on straight, crosswise they do not
    text = "".join(LEANING)
    assert notes(text + "\njoin\n    j one.side to two.side") == []
    found = notes(text + "\njoin\n    j one.side to two.side reversed")
    assert found[0].message == "the two sides of `j` run opposite ways"
    assert advice(found) == "two.side"
    assert seam_ends.check(garment(text + "\njoin\n    j one.side to two.side")) == []


def test_two_sides_that_run_opposite_ways_are_known_by_other_seams() -> None:
    text = panel("front", "20 cm", more="FOLD cut 1") + panel("back", "20 cm", more="FOLD cut 1")
    text += panel("sleeve", "60 cm", "30 cm", more="cut 2 as a pair")
    text += "\njoin\n    tops front.top to back.top\n    seam sleeve.left reversed to sleeve.side\n"
    text += "    sides front.side to back.side{}"
    assert notes(text.format("")) == []
    crossed = notes(text.format(" reversed"))
    assert advice(crossed) == "back.side"  # the tops already bring both upper ends together


@pytest.mark.parametrize(("way", "twisted"), [("strip.left", True), ("strip.left reversed", False)])
def test_a_strip_sewn_to_itself_is_not_twisted(way: str, twisted: bool) -> None:
    found = notes(panel("strip", "60 cm", "5 cm") + f"\njoin\n    ends strip.side to {way}")
    assert bool(found) == twisted
    if twisted:
        assert found[0].message == "along `ends` the piece `strip` would be twisted before it is sewn to itself"
        assert advice(found) == "strip.left reversed"


def test_an_edge_sewn_to_its_mirror_image_is_not_twisted() -> None:
    assert notes(panel("back", "20 cm", more="cut 2 as a pair") + "\njoin\n    centre back.left to back.left") == []


@pytest.mark.parametrize(("cut", "told"), [("cut 1 right side up", True), ("cut 1", False), ("cut 2 as a pair", False)])
def test_two_pieces_cut_right_side_up_are_not_sewn_inside_out(cut: str, told: bool) -> None:
    text = panel("one", "20 cm", more=cut) + panel("two", "20 cm", more=cut) + "\njoin\n    j one.side to two.side"
    found = notes(text)
    assert bool(found) == told
    if told:
        assert found[0].message == "along `j` the right side of `two` would come to lie inside"
        assert notes(text + " reversed") == [] or advice(found) == "two.side reversed"


@pytest.mark.parametrize(("way", "told"), [("", []), (" reversed", ["right.side"])])
def test_of_two_ways_to_sew_mirrored_fronts_one_is_told(way: str, told: list[str]) -> None:
    """Turned about their outlines would run on, as those of any such panel do, but the one would lie inside out."""
    right = panel("right", "0 cm - 25 cm", more="cut 1 right side up", lean="4 cm")
    text = panel("left", "25 cm", more="cut 1 right side up", lean="0 cm - 4 cm") + right
    text += f"\njoin\n    j left.side to right.side{way}"
    found = notes(text)
    assert [advice([note]) for note in found] == told
    hints = [hint for note in seam_ends.check(garment(text)) for hint in note.hints]
    assert bool(hints) == (not told) and not [hint for hint in hints if "other way round" in hint]


# ---- allowances -----------------------------------------------------------------------------------------------------


def allowed(made: Garment) -> list[str]:
    return [note.message for note in seam_allowances.check(made)]


def wide(text: str, edge: str, width: str) -> str:
    return re.sub(rf"({edge} .* straight)", rf"\1, allowance {width}", text)


def test_the_same_allowance_on_both_sides_is_let_pass() -> None:
    join = "\njoin\n    j one.side to two.side"
    one, two = panel("one", "20 cm"), panel("two", "20 cm")
    assert allowed(garment(one + two + join)) == []
    assert allowed(garment(wide(one, "side", "1/2 in") + wide(two, "side", "12.7 mm") + join)) == []


def test_unlike_allowances_are_told_with_both_widths() -> None:
    one, two = wide(panel("one", "20 cm"), "side", "1 in"), wide(panel("two", "20 cm"), "side", "1 cm")
    (note,) = seam_allowances.check(garment(one + two + "\njoin\n    j one.side to two.side"))
    assert note.severity is Severity.CAUTION
    assert note.message == "along `j` the allowance of `one.side` is 25.4 mm, and that of `two.side` 10 mm"
    assert note.hints == ("give both one width, as in `allowance 25.4 mm`",)


def test_only_edges_that_come_to_lie_on_one_another_are_compared() -> None:
    one = wide(wide(panel("one", "20 cm"), "side", "2 cm"), "top", "1 cm")
    two = wide(wide(panel("two", "20 cm"), "side", "2 cm"), "top", "1 cm")
    assert allowed(garment(one + two + "\njoin\n    j one.side then one.top to two.side then two.top")) == []
    other = wide(wide(panel("two", "20 cm"), "side", "1 cm"), "top", "2 cm")
    found = allowed(garment(one + other + "\njoin\n    j one.side then one.top to two.side then two.top"))
    assert len(found) == 2


def test_a_band_round_two_halves_is_compared_with_both() -> None:
    back = wide(panel("back", "20 cm", more="FOLD cut 1"), "hem", "2 cm")
    text = panel("front", "20 cm", more="FOLD cut 1") + back + BAND + SIDES
    found = allowed(garment(text + "    hem band.hem to front.hem then back.hem reversed"))
    assert found == ["along `hem` the allowance of `back.hem` is 20 mm, and that of `band.hem` 12.7 mm"]


# ---- folds ----------------------------------------------------------------------------------------------------------

FOLDED = panel("back", "20 cm", more="FOLD cut 1") + panel("yoke", "20 cm", "8 cm", more="FOLD cut 1")


def folds(text: str) -> list[str]:
    return [hint for note in notes(text) for hint in note.hints]


def test_a_fold_that_lies_on_the_armhole_is_told_with_both_ways_alike() -> None:
    assert notes(FOLDED + "\njoin\n    j back.hem to yoke.hem") == []
    found = notes(FOLDED + "\njoin\n    j back.top to yoke.hem")
    assert found[0].message == "the two sides of `j` run opposite ways"
    assert found[0].hints == (
        "the fold of `back` would lie on the end of `yoke.hem` at `side`",
        "write `yoke.hem reversed`",
    )
    assert notes(FOLDED + "\njoin\n    j back.top to yoke.hem reversed") == []


def test_a_fold_lies_on_a_seam_down_the_middle() -> None:
    text = panel("yoke", "20 cm", "8 cm", more="FOLD cut 1") + panel("skirt", "20 cm", more="cut 2 as a pair")
    middle = "\njoin\n    centre skirt.left to skirt.left\n"
    assert notes(text + middle + "    j yoke.hem to skirt.top reversed") == []
    assert folds(text + middle + "    j yoke.hem to skirt.top")[-1] == "write `skirt.top reversed`"
    assert notes(text + "\njoin\n    j yoke.hem to skirt.top") == []  # open down the middle: nothing is known of it


def test_a_half_is_sewn_to_a_whole_from_its_outer_end() -> None:
    text = FOLDED + panel("band", "40 cm", "5 cm")
    assert notes(text + "\njoin\n    j back.top to band.hem") == []
    assert folds(text + "\njoin\n    j back.hem to band.hem")[-1] == "write `back.hem reversed`"
    assert folds(text + "\njoin\n    j band.hem to back.hem")[-1] == "write `back.hem reversed`"


def test_ends_that_follow_one_another_in_another_seam_meet() -> None:
    text = panel("front", "20 cm") + panel("yoke", "20 cm", "8 cm") + panel("sleeve", "48 cm")
    text += "\njoin\n    armhole sleeve.hem to front.side then yoke.side\n"
    assert notes(text + "    j front.top to yoke.hem reversed") == []
    assert folds(text + "    j front.top to yoke.hem")[-1] == "write `yoke.hem reversed`"
