"""Why a body is not drafted: the first reason that there is, each in words."""

from __future__ import annotations

from draft.drafting.drafting import draft_plan
from draft.fit.verdicts import Verdicts, verdicts
from tests.seams.test_walk import panel
from tests.written import people, planned


def _verdicts(text: str, *bust: float) -> Verdicts:
    drafted = draft_plan(planned(f"body\n    bust_girth\n{text}"), people(bust_girth=bust))
    return verdicts(drafted.outcome, drafted.garment)


def test_a_seam_that_does_not_fit_is_told_for_the_bodies_that_it_does_not_fit() -> None:
    pieces = panel("one", "20 cm") + panel("two", "20 cm", "bust_girth - 50 cm")
    found = _verdicts(f"{pieces}\njoin\n    flank one.side to two.side", 90, 91, 90.04)
    assert found.undrafted.tolist() == ["", "the two sides of `flank` do not fit", ""]
    assert found.drafted.tolist() == found.worn.tolist() == [True, False, True]


def test_an_outline_that_crosses_itself_is_told() -> None:
    found = _verdicts(panel("one", "20 cm", lean="60 cm - bust_girth"), 70, 90)
    assert found.undrafted.tolist() == ["", "the outline of `one` crosses itself"]


def test_a_step_that_fails_is_told_before_what_comes_of_it() -> None:
    lines = "let\n    share = 10 cm / (bust_girth - 90 cm)\n    more = share rounded to share\n"
    found = _verdicts(lines, 100, 90)
    assert found.undrafted.tolist() == ["", "this divides by nothing: `10 cm / (bust_girth - 90 cm)`"]


def test_a_relation_that_cannot_be_kept_is_told() -> None:
    found = _verdicts("solve\n    depth from 1 cm to 9 cm\n    so that depth at least bust_girth / 10\n", 80, 100)
    assert found.undrafted.tolist() == ["", "does not hold: depth at least bust_girth / 10, by 1 cm"]
