"""Measures given on the command line."""

from __future__ import annotations

import pytest

from draft.base.notes import Problems
from draft.bodies.given_measures import read_given, with_given


def test_answers_are_one_body() -> None:
    body = read_given(["bust_girth=98cm", "waist_girth = 31 1/2 in", "shoulder_slope=21 deg"])
    assert body.names == ("made to measure",)
    assert body.values["bust_girth"].tolist() == [980]
    assert body.values["waist_girth"][0] == pytest.approx(800.1)


def test_an_answer_takes_the_place_of_what_was_known() -> None:
    known = read_given(["bust_girth=98cm", "hip_girth=104cm"], "Ines")
    body = with_given(known, read_given(["bust_girth=99cm"]))
    assert body.names == ("Ines",)
    assert (body.values["bust_girth"][0], body.values["hip_girth"][0]) == (990, 1040)


@pytest.mark.parametrize(
    ("answer", "fact", "fix"),
    [
        ("bust_girth", "`bust_girth` is not NAME=VALUE", "try `--measure bust_girth=98cm`"),
        ("busts=98cm", "`busts` is not a body measure", "try `bust_girth`"),
        ("bust_girth=98", "`bust_girth` is a number without a unit", "write `--measure bust_girth=98cm`"),
        (
            "bust_girth=36cm",
            "`bust_girth` is 36 cm for made to measure, outside 60 cm to 180 cm",
            "did you mean 36 in?",
        ),
        ("bust_girth=", "`bust_girth` is not a length", "write it like `--measure bust_girth=104cm`"),
    ],
)
def test_a_mistake_is_told_with_a_fix(answer: str, fact: str, fix: str) -> None:
    with pytest.raises(Problems) as caught:
        read_given([answer, "hip_girth=104cm"])
    (note,) = caught.value.notes
    assert note.message == fact and note.hints == (fix,)
