"""A figure described in words: estimates move by what the words say, and a tape wins over them."""

from __future__ import annotations

import numpy as np
import pytest

from draft.base.notes import Problems
from draft.bodies.bodies import Bodies
from draft.bodies.estimates import completed
from draft.bodies.measures import MEASURES
from draft.bodies.said import known_sayings, read_figure, with_figure
from draft.bodies.sayings import TENTH, THIRD

INES = {"bust_girth": 980.0, "waist_girth": 800.0, "hip_girth": 1040.0, "stature": 1650.0}
NEEDED = ("shoulder_slope", "back_waist_length", "across_back_width", "bust_girth")


def _body(**more: float) -> Bodies:
    return Bodies(("Ines",), {name: np.array([value]) for name, value in (INES | more).items()})


def _said(text: str, body: Bodies):
    whole, estimates = completed(body, NEEDED)
    moved, told = with_figure(whole, read_figure(text), estimates)
    return whole, moved, {one.name: one for one in estimates}, {one.name: one for one in told}


def test_a_saying_moves_its_measure_and_nothing_else():
    whole, moved, before, told = _said("sloping shoulders", _body())
    by = moved.values["shoulder_slope"] - whole.values["shoulder_slope"]
    assert np.degrees(by) == pytest.approx(THIRD[0] * 5.6)
    others = set(whole.values) - {"shoulder_slope"}
    assert all((moved.values[name] == whole.values[name]).all() for name in others)
    assert told["shoulder_slope"].spread[0] < before["shoulder_slope"].spread[0]
    assert "`sloping shoulders`" in told["shoulder_slope"].source


def test_very_is_further_and_surer():
    _, some, _, told = _said("broad back", _body())
    _, very, _, surer = _said("very broad back", _body())
    assert very.values["across_back_width"] > some.values["across_back_width"]
    assert surer["across_back_width"].spread[0] < told["across_back_width"].spread[0]


def test_a_saying_that_is_a_part_of_the_spread_leaves_the_rest_in_doubt():
    _, _, before, told = _said("sway back", _body())
    part, whole = 8.8, before["back_waist_length"].spread[0] / 2
    assert told["back_waist_length"].spread[0] / 2 == pytest.approx(
        np.sqrt(whole**2 - part**2 + (THIRD[1] * part) ** 2)
    )


def test_the_tape_wins_and_says_so():
    whole, moved, _, told = _said("sloping shoulders", _body(shoulder_slope=0.4))
    assert moved.values["shoulder_slope"] == whole.values["shoulder_slope"] == 0.4
    assert "shoulder_slope" not in told
    assert moved.notes[0].message == "`sloping shoulders` changes nothing: `shoulder_slope` was measured"


def test_what_a_pattern_does_not_lean_on_is_said():
    _, moved, _, _ = _said("bust D", _body())
    assert moved.notes[0].message == "`bust D` changes nothing: this pattern leans on no such measure"


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("slopping shoulders", "`slopping shoulders` is not said of a figure here"),
        ("square shoulders, sloping shoulders", "`square shoulders` and `sloping shoulders` are not one figure's"),
        ("bust Q", "`bust q` is not said of a figure here"),
        (" , ", "nothing is said of the figure"),
    ],
)
def test_what_cannot_be_said(text, told):
    with pytest.raises(Problems) as problems:
        read_figure(text)
    assert problems.value.notes[0].message == told


def test_letters_and_spaces_do_not_matter():
    assert [one.saying.words for one in read_figure("Very  Sway back , Bust dd")] == ["sway back", "bust DD"]
    assert read_figure("very sway back")[0].shares == TENTH


def test_all_that_is_listed_can_be_said_and_moves_what_is_measured():
    for saying in known_sayings():
        assert read_figure(saying.words)[0].saying == saying
        assert all(move.measure in MEASURES and move.sd for move in saying.moves)


def test_the_outer_third_and_tenth_are_those_of_a_normal_spread():
    drawn = np.sort(np.random.default_rng(1).normal(size=300_000))
    for share, (middle, spread) in ((3, THIRD), (10, TENTH)):
        outer = drawn[-len(drawn) // share :]
        assert outer.mean() == pytest.approx(middle, abs=0.01)
        assert outer.std() == pytest.approx(spread, abs=0.01)
