"""What is told of two garments on one form: what differs by more than is known, and nothing else."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from draft.answers.sit import Sat, sit_files, sit_report
from draft.answers.sit_cases import cases_of, same_form
from draft.drafting.request import Request, Whom
from draft.paper.drawing.wording import Wording
from draft.paper.worn.worn_words import sentences
from draft.sitting.differing import differing
from draft.sitting.reading import HemRead, LevelRead, Reading
from draft.sitting.sit_told import telling
from draft.sitting.sitting_of import Sitting
from tests.sitting.made_up import worn

TIGHT = LevelRead("hip", -570.0, 0.08, 0.09, 0.07, 0.4, None, 0.004)
ROOMY = LevelRead("waist", -400.0, 0.0, 0.0, 0.0, 0.4, 150.0)
FIRST = Reading((ROOMY, TIGHT), HemRead(24.0, 0.0, 5.0), 4.0, 20.0, 50.0)
ENGLISH, GERMAN = Wording("en", "cm"), Wording("de", "cm")


def _said(other: Reading, wording: Wording = ENGLISH, first: Reading = FIRST) -> list[str]:
    return sentences(differing(first, other), wording)


def test_what_is_within_its_doubt_does_not_differ() -> None:
    assert _said(FIRST) == ["Nothing differs by more than is known."]
    near = replace(TIGHT, stretched=0.085, front=0.094)
    slightly = replace(FIRST, levels=(replace(ROOMY, room=162.0), near), hem=HemRead(20.0, 0.0, 5.0), reaches=58.0)
    assert _said(slightly) == ["Nothing differs by more than is known."]
    doubted = replace(TIGHT, stretched=0.11, spread=0.03)
    assert _said(replace(FIRST, levels=(ROOMY, doubted))) == ["Nothing differs by more than is known."]


def test_a_front_that_was_lengthened_hangs_lower() -> None:
    assert _said(replace(FIRST, hem=HemRead(2.0, 0.0, 5.0))) == ["The hem lies 2 cm lower in front."]
    assert _said(replace(FIRST, hem=HemRead(44.0, 0.0, 5.0)), GERMAN) == ["Der Saum liegt vorn 2 cm höher."]


def test_tighter_looser_and_roomier() -> None:
    closer = replace(ROOMY, room=None, stretched=0.03, front=0.03, back=0.03)
    looser = replace(TIGHT, room=30.0, stretched=0.0, front=0.0, back=0.0)
    assert _said(replace(FIRST, levels=(closer, looser))) == [
        "Hip: 3 cm of room instead of stretched by 8 %.",
        "Waist: stretched by 3 % instead of 15 cm of room.",
    ]
    less = replace(TIGHT, stretched=0.03, front=0.03, back=0.03)
    assert _said(replace(FIRST, levels=(replace(ROOMY, room=90.0), less))) == [
        "Hip: stretched by 3 % instead of 8 %.",
        "Waist: 9 cm of room instead of 15 cm.",
    ]
    assert _said(replace(FIRST, levels=(ROOMY, replace(looser, room=None)))) == [
        "Hip: no longer stretched, by 8 % before."
    ]
    assert _said(replace(FIRST, reaches=80.0)) == ["With raised arms the hem may lift 3 cm more."]
    burst = replace(TIGHT, stretched=0.5, front=0.5)
    assert len(_said(replace(FIRST, levels=(ROOMY, burst), hem=HemRead(90.0, 0.0)))) == 1  # its hem hangs nowhere


def test_only_on_one_form_and_beside_the_first_of_it() -> None:
    cases, _ = cases_of(Request("marlpit", Whom(sizes=("M", "L"))), ENGLISH)
    moved = replace(FIRST, hem=HemRead(2.0, 0.0, 5.0))
    sat = [
        Sat(case, Sitting(worn(), reading, telling(reading, True)))
        for case, reading in zip([cases[0], cases[0], cases[1]], (FIRST, moved, moved), strict=True)
    ]
    assert same_form(cases[0], cases[0]) and not same_form(*cases)
    hips = {**cases[0].subject.bodies.values, "hip_girth": np.array([np.nan])}
    other = replace(cases[0], subject=replace(cases[0].subject, bodies=replace(cases[0].subject.bodies, values=hips)))
    assert not same_form(cases[0], other) and same_form(other, other)
    report = sit_report(sat, ENGLISH)
    assert report.count("Against the first") == 1 and report.count("The hem lies 2 cm lower in front.") == 1
    drawn = sit_files(sat, "Marlpit top", ENGLISH)["beside.svg"].decode()
    assert drawn.count("Against the first") == 1 and drawn.count("The hem lies 2 cm lower in front.") == 1
