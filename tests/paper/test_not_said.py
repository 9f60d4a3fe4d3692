"""What no sheet says, and what each says: whose form it is, what lies outside of the surveyed, which bounds hold."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import replace

import pytest

from draft.paper.booklet.booklet_page import Book
from draft.paper.booklet.facts import BookletFacts
from draft.paper.booklet.worn_section import worn_section
from draft.paper.drawing.drawing import Drawing, Label
from draft.paper.drawing.spoken_languages import languages
from draft.paper.drawing.wording import Wording
from draft.paper.worn.form_sheet import FormSheet, form_sheet
from draft.paper.worn.worn_beside import worn_beside
from draft.paper.worn.worn_sheet import WornSheet, worn_sheet
from draft.sitting.reading import HemRead, LevelRead, Reading
from draft.sitting.sit_told import telling
from draft.sitting.size_worn import SizeWorn
from tests.asking import bundled
from tests.sitting.made_up import worn

WHOSE = ("not_you", "not_anyone", "not_anyone_near")
FORBIDDEN = {
    "en": r"pressure|press(es)? |comfort|health|medical|pain|blood|breath|mmHg|kPa|posture|\bfolds?\b|wrinkle",
    "de": r"[Dd]ruck|drückt|bequem|Tragegefühl|esund|medizin|Schmerz|Blut|Atem|mmHg|kPa|Haltung|\bFalten?\b",
}
"""Words of what nothing is known of; the sentence that says so is the only one to have them."""
PLAIN = replace(worn(), triangles=worn().triangles[:0], skin_triangles=worn().skin_triangles[:50])
"""What is drawn is another test's; this one reads."""
BOUND = {"en": "as much as", "de": "höchstens"}
RISES = ("may_ride_up", "rides_up", "lifts")


def _said(drawing: Drawing) -> str:
    return " ".join(item.text for item in drawing.items() if isinstance(item, Label))


def _readings() -> Iterator[Reading]:
    """Of each kind: tight everywhere, loose, pulled up, a skirt, sides that differ, and what was never measured."""
    tight = tuple(LevelRead(name, -200.0, 0.08, 0.09, 0.07, 0.4, None) for name in ("bust", "waist", "hip", "hem"))
    loose = tuple(LevelRead(name, -200.0, 0.0, 0.0, 0.0, 0.4, 250.0) for name in ("bust", "waist", "hip"))
    hem = HemRead(24.0, 40.0, 5.0, 5.0)
    everything = Reading(
        tight, hem, 14.0, 46.0, 38.0, ("back waist", 43.0), 0.3, ("bust_girth", "bust_depth"),
        {"bust_girth": 1400.0, "hip_girth": 1500.0}, ("tie",), from_bust=0.05,
    )  # fmt: skip
    yield everything
    yield replace(everything, levels=loose, outside={}, estimated=(), hem=HemRead(0.0, 0.0))
    yield replace(everything, levels=loose, from_waist=True, reaches=None, sides_apart=True)
    yield replace(everything, levels=(replace(tight[0], gives=0.0), *loose), stays=None, rides=None)
    yield replace(everything, levels=tuple(replace(one, stretched=0.5, front=0.5) for one in tight))


def _sheets(language: str, whose: str, reading: Reading) -> Iterator[tuple[str, str]]:
    """Each kind of sheet by its name, with all that it says."""
    wording = Wording(language, "cm")
    size = SizeWorn("S", "bust", 60.0, "M", too_small=True)
    sheet = WornSheet("Marlpit top, M", "Ines", PLAIN, telling(reading, True, size), whose)
    yield "sheet", _said(worn_sheet(sheet, wording))
    yield "beside", _said(worn_beside("Marlpit top", [sheet, sheet], wording)[0])
    book = Book("Marlpit top")
    worn_section(book, BookletFacts(bundled("marlpit", "M"), (0,), wording, worn=sheet))
    labels = (item for page in book.pages.values() for item in page if isinstance(item, Label))
    yield "booklet", " ".join(item.text for item in labels)


@pytest.mark.parametrize("language", languages())
@pytest.mark.parametrize("whose", WHOSE)
def test_every_sheet_says_that_it_is_a_form(language: str, whose: str) -> None:
    wording = Wording(language, "cm")
    for kind, text in _sheets(language, whose, next(_readings())):
        assert wording.say(f"sit.{whose}") in text, kind
        assert wording.say("sit.not_said") in text, kind
        others = [other for other in WHOSE if other != whose]
        assert not any(wording.say(f"sit.{other}") in text for other in others), kind
    alone = form_sheet(FormSheet("Ines", PLAIN, {"bust": 980.0}, ("bust_depth",), ("bust_girth",)), wording)
    assert wording.say("sit.not_you") in _said(alone)


@pytest.mark.parametrize("language", languages())
def test_beside_one_another_each_form_is_told(language: str) -> None:
    wording = Wording(language, "cm")
    told = telling(next(_readings()), True)
    sheets = [WornSheet(whose, "", PLAIN, told, whose) for whose in WHOSE]
    text = " ".join(map(_said, worn_beside("Three", sheets, wording)))
    assert all(wording.say(f"sit.{whose}") in text for whose in WHOSE)


@pytest.mark.parametrize("language", languages())
def test_nothing_is_said_of_what_is_not_known(language: str) -> None:
    """Pressure, comfort, health, folds: no text of the section but the one that says that nothing is said of them."""
    texts = Wording(language).texts(("sit.", "screen.on_form"))
    assert len(texts) > 100
    found = {key for key, text in texts.items() if re.search(FORBIDDEN[language], text)}
    assert found == {"sit.not_said"}


@pytest.mark.parametrize("language", languages())
def test_how_far_it_rises_is_always_a_bound_and_whole_centimetres(language: str) -> None:
    texts = Wording(language).texts(("sit.",))
    assert all(BOUND[language] in texts[f"sit.{key}"] for key in RISES)
    for reading in _readings():
        for kind, text in _sheets(language, "not_you", reading):
            for found in re.finditer(rf"{BOUND[language]} ([\d,.]+) cm", text):
                assert float(found[1].replace(",", ".")) == int(float(found[1].replace(",", "."))), kind


@pytest.mark.parametrize("language", languages())
def test_bodies_outside_of_the_surveyed_are_warned_of_on_every_sheet(language: str) -> None:
    """However much else there is to say: on the sheets of several beside one another too."""
    wording = Wording(language, "cm")
    for reading in _readings():
        warnings = [wording.say("sit.outside", measure="").strip(" :")[:40]] if reading.outside else []
        for kind, text in _sheets(language, "not_you", reading):
            flat = " ".join(text.split())
            assert all(one.strip(": ") in flat for one in warnings), (kind, language)
