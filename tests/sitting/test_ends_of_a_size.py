"""Where a size fails at the ends of whom it serves, in words; and what a man's form calls its levels."""

from __future__ import annotations

from dataclasses import replace

import pytest

from draft.answers.ends_told import ends_told
from draft.answers.sit import Sat, sit_files, sit_report
from draft.answers.sit_cases import Case, cases_of
from draft.drafting.request import Request, Whom
from draft.form.landmarks import landmarks_of
from draft.paper.drawing.wording import Wording
from draft.sitting.called_of import called_of, levels_called
from draft.sitting.reading import HemRead, LevelRead, Reading
from draft.sitting.sit_told import telling
from draft.sitting.sitting_of import Sitting
from draft.toile.dressed import Refused
from draft.toile.why_not import why
from tests.form.made_up import form
from tests.sitting.made_up import worn

FITS = Reading((LevelRead("hip", -570.0, 0.0, 0.0, 0.0, 0.4, 30.0),), HemRead(3.0, 0.0), 2.0, 8.0)
ENGLISH = Wording("en", "cm")


@pytest.fixture(scope="module")
def cases() -> list[Case]:
    return cases_of(Request("marlpit", Whom(sizes=("M",))), ENGLISH, ends=True)[0]


def _of(level: LevelRead) -> Sitting:
    reading = replace(FITS, levels=(level,))
    return Sitting(worn(), reading, telling(reading, by_ease=False))


def test_each_end_has_the_worst_of_it(cases: list[Case]) -> None:
    fits = Sitting(worn(), FITS, telling(FITS, by_ease=False))
    bust, hip = (LevelRead(name, -200.0, 0.05, most, 0.0, 0.4, None) for name, most in (("bust", 0.1), ("hip", 0.21)))  # type: ignore[arg-type]
    became = {
        "a_fuller_waist": fits,
        "fuller_hips": _of(hip),
        "slimmer_hips": Refused(why("why_pinched_by_arm")),
        "a_fuller_bust": _of(bust),
        "a_smaller_bust": _of(replace(hip, stretched=0.0, front=0.0, room=240.0)),
        "": fits,
    }
    found = [(case, became[case.trait]) for case in cases]
    assert ends_told(found, ENGLISH) == [
        "M with a fuller waist: it goes round; nothing is tight.",
        "M with fuller hips: too tight: hip 21 %.",
        "M with slimmer hips: Not dressed: the cloth is pinched between arm and body: look at it with the arms held"
        " farther out.",
        "M with a fuller bust: tight, but wearable: bust 10 %.",
        "M with a smaller bust: much too roomy.",
    ]
    german = ends_told(found, Wording("de", "cm"))
    assert german[1] == "M mit volleren Hüften: zu eng: Hüfte 21 %." and german[4].endswith("viel zu weit.")
    report = sit_report([Sat(*one) for one in found], ENGLISH)
    assert "At the ends of whom the size serves\nM with a fuller waist" in report
    files = sit_files([Sat(*one) for one in found], "Marlpit top", ENGLISH)
    assert "M with fuller hips: too tight" in files["beside.svg"].decode()
    assert "M with fuller hips: too tight" not in files["beside-2.svg"].decode()
    assert '"M with fuller hips: too tight: hip 21 %."' in files["sit.json"].decode()


def test_what_gives_nothing_is_too_tight_where_it_is_tight_at_all() -> None:
    woven = LevelRead("hip", -570.0, 0.02, 0.02, 0.02, 0.0, None)
    assert woven.too_tight and not replace(woven, stretched=0.005, front=0.005, back=0.005).too_tight
    assert not replace(woven, gives=0.4).too_tight


def test_a_man_has_a_chest() -> None:
    man, woman = form("man"), form()
    assert called_of(man, "bust") == "chest" and called_of(woman, "bust") == "bust"
    assert {"chest", "waist"} <= set(levels_called(man, landmarks_of(man, 0).levels))
    assert "bust" not in levels_called(man, landmarks_of(man, 0).levels)
    assert "chest" not in levels_called(woman, landmarks_of(woman, 0).levels)
    assert ENGLISH.say("sit.place_front_below_the_chest") and called_of(man, "front waist") == "front below the chest"
