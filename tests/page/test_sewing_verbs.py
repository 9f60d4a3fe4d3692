"""What a sewist may ask: the answers that the command gives, as plain JSON, and notes for what nobody could mean."""

from __future__ import annotations

import io
import json
import zipfile
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from draft.base.notes import Problems
from draft.bodies.person import read_person
from draft.drafting.checked import draft_and_check
from draft.drafting.request import Request, Whom
from draft.fit.levels import levels
from draft.page.bench import Bench
from draft.page.hand import answered
from draft.page.page_verbs import VERBS
from draft.page.request_asked import request_asked
from draft.paper.drawing.wording import Wording
from draft.plan.library import bundled_patterns, find

INES = {"bust_girth": "98 cm", "waist_girth": "83 cm", "hip_girth": "104 cm", "stature": "168 cm"}
HERS: dict[str, Any] = {"garment": "marlpit", "measures": INES, "units": "cm", "language": "en"}


@pytest.fixture(scope="module")
def bench() -> Bench:
    """One worker's place."""
    return Bench()


def asked(verb: str, about: Any, bench: Bench) -> dict[str, Any]:
    """What a verb gives, as it comes to a browser. Raises Problems as the verb does."""
    return dict(json.loads(json.dumps(VERBS[verb](about, bench))))


def test_the_shelf_is_the_bundle(bench: Bench) -> None:
    groups = asked("shelf", {}, bench)["groups"]
    assert sorted(one["name"] for group in groups for one in group["garments"]) == bundled_patterns()
    file = Path("mine.piece")
    assert asked("shelf", {}, Bench(file=file))["groups"][0]["garments"][0]["name"] == "file"


def test_of_several_charts_one_is_chosen(tmp_path: Path) -> None:
    usual = find("tidemill").with_name("women.csv").read_text(encoding="utf-8")
    (tmp_path / "women.csv").write_text(usual, encoding="utf-8")
    (tmp_path / "tall.csv").write_text(usual.replace("unit,XS,S", "unit,XS tall,S tall"), encoding="utf-8")
    line = '    chart      "women.csv"\n'
    text = find("tidemill").read_text(encoding="utf-8")
    text = text.replace(line, f'{line}    chart      tall "tall.csv" "from 175 cm"\n')
    (tmp_path / "tee.piece").write_text(text, encoding="utf-8")
    mine, tall = Bench(file=tmp_path / "tee.piece"), {"garment": "file", "chart": "tall"}
    choices = asked("choices", {"garment": "file"}, mine)
    assert choices["charts"] == [
        {"name": "", "title": "", "words": ""},
        {"name": "tall", "title": "Tall", "words": "from 175 cm"},
    ]
    assert choices["sizes"][0] == "XS" and asked("choices", tall, mine)["sizes"][:2] == ["XS tall", "S tall"]
    assert asked("sit", tall | {"sizes": ["S tall"]}, mine)["sizes"] == ["S tall"]
    assert asked("choices", {"garment": "marlpit"}, mine)["charts"] == []
    for wrong in ("../women", "petite"):
        with pytest.raises(Problems, match="no such size chart"):
            asked("choices", {"garment": "file", "chart": wrong}, mine)


@pytest.mark.parametrize("name", ["marlpit", "ropewalk"])
@pytest.mark.parametrize("language", ["en", "de"])
def test_a_card_says_what_the_garment_is(name: str, language: str, bench: Bench) -> None:
    card = asked("card", {"garment": name, "language": language}, bench)
    assert all(card[part] for part in ("title", "sizes", "cloth", "garment", "skill"))
    assert card["flat"].startswith("<svg")


def test_what_is_drawn_is_what_the_command_drafts(bench: Bench) -> None:
    drafted = draft_and_check(Request("marlpit", Whom(answers=tuple(f"{k}={v}" for k, v in INES.items()))))
    wording = Wording("en", "cm")
    shown = asked("sit", HERS, bench)
    ours = [wording.length(float(one.values[0])) for one in levels(drafted.garment)]
    assert [level["rows"][0]["garment"] for level in shown["levels"]] == ours
    assert {one["name"] for one in shown["estimates"]} == {one.name for one in drafted.told_estimates}
    assert shown["size"]["cut"] == "M"


def test_measures_that_decide_come_first_and_are_few(bench: Bench) -> None:
    for name in bundled_patterns():
        measures = asked("choices", {"garment": name}, bench)["measures"]
        first = [one["name"] for one in measures if one["first"]]
        assert 2 <= len(first) <= 7
        assert [one["name"] for one in measures][: len(first)] == first
        assert all(one["how"] and one["low"] < one["high"] for one in measures)


@pytest.mark.parametrize("units", ["cm", "in"])
def test_controls_hold_what_the_file_declares(units: str, bench: Bench) -> None:
    for name in bundled_patterns():
        for style in asked("choices", {"garment": name, "units": units}, bench)["styles"]:
            if "options" in style:
                assert style["now"] in [option["value"] for option in style["options"]]
            else:
                assert style["low"] <= style["value"] + style["step"]
                assert style["value"] - style["step"] <= style["high"]


def test_the_ends_of_every_control_are_drawn(bench: Bench) -> None:
    for units in ("cm", "in"):
        for style in asked("choices", {"garment": "marlpit", "units": units}, bench)["styles"]:
            if "options" not in style:
                for end in (style["low"], style["high"]):
                    chosen = {style["name"]: f"{end} {style['unit']}".strip()}
                    request_asked({"garment": "marlpit", "styles": chosen}, bench)
                    asked("choices", {"garment": "marlpit", "styles": chosen, "units": units}, bench)


def test_her_own_cloth_and_what_she_has(bench: Bench) -> None:
    own = HERS | {"garment": "tidemill", "cloth": {"stretch_across": "15 %"}}
    (across, *_) = asked("sit", own, bench)["stretch"]
    assert across["short"] and across["has"] == "15 %"
    laid = asked("amount", HERS | {"widths": ["148 cm"], "have": ["2 m x 148 cm"]}, bench)
    assert laid["amounts"][0]["lengths"]["made to measure"].endswith(" m")
    assert laid["have"][0]["fits"]
    assert laid["have"][0]["said"].startswith("Yes: it fits")


@pytest.mark.parametrize(
    ("have", "language", "said"),
    [
        ("1 m x 40 cm", "de", "Nein: Rückenteil ist dafür zu breit"),
        ("80 cm x 148 cm", "en", "more length is needed"),
        ("a rag", "en", "Write what you have as a length and a width"),
    ],
)
def test_what_does_not_fit_is_told_beside_what_is_needed(have: str, language: str, said: str, bench: Bench) -> None:
    laid = asked("amount", HERS | {"have": [have], "language": language}, bench)
    assert laid["amounts"]
    (told,) = laid["have"]
    assert not told["fits"]
    assert said in told["said"]


def test_what_is_taken_home(bench: Bench) -> None:
    files: dict[str, bytes] = {}
    bench.hand_over = files.__setitem__
    steps: list[str] = []
    bench.step = steps.append
    asked("take", HERS | {"name": "Ines", "pages": ["a4"], "wanted": ["pattern", "booklet"]}, bench)
    kinds = {name.rpartition(".")[2] for name in files}
    assert kinds == {"pdf", "html", "zip"} and steps
    (archive,) = [data for name, data in files.items() if name.endswith(".zip")]
    assert set(zipfile.ZipFile(io.BytesIO(archive)).namelist()) == {"pattern-a4.pdf", "booklet.pdf", "booklet.html"}
    assert all("Ines" in name and "/" not in name for name in files)


def test_people_are_kept_in_files_that_the_command_reads(tmp_path: Path) -> None:
    place = Bench(people=tmp_path / "people")
    assert asked("people", {}, place)["people"] == []
    asked("keep_person", {"name": "Ines 2", "measures": INES, "figure": "sloping shoulders"}, place)
    (file,) = (tmp_path / "people").iterdir()
    assert read_person(file).values["bust_girth"][0] == 980
    (kept,) = asked("people", {}, place)["people"]
    assert kept["measures"]["bust_girth"] == 98.0 and kept["figure"] == "sloping shoulders"
    asked("keep_person", {"name": "Ines 2", "measures": INES | {"bust_girth": "99 cm"}}, place)
    assert len(list((tmp_path / "people").iterdir())) == 1
    assert asked("forget_person", {"name": "Ines 2"}, place)["people"] == []


@pytest.mark.parametrize(
    ("verb", "about", "said"),
    [
        ("card", {"garment": "../marlpit"}, "on the shelf"),
        ("card", {"garment": "file"}, "on the shelf"),
        ("card", {"garment": "marlpit", "language": "../en"}, "language"),
        ("drawn", HERS | {"measures": {"bust_girth": "9 km"}}, "no number"),
        ("drawn", HERS | {"measures": {"bust_girth": "30 cm"}}, "Bust girth"),
        ("drawn", HERS | {"measures": {"bust_girth": "98 cm"}, "figure": "purple"}, "purple"),
        ("drawn", HERS | {"measures": "98"}, "does not understand"),
        ("drawn", HERS | {"measures": {"bust_girth": "9" * 500}}, "does not understand"),
        ("drawn", HERS | {"styles": {"sleeve": "wings"}}, "wings"),
        ("drawn", HERS | {"cloth": {"name": "/etc/passwd"}}, "no such cloth"),
        ("drawn", HERS | {"cloth": {"stretch_across": "x\ny = 1"}}, "Stretch across"),
        ("drawn", HERS | {"name": "a/b"}, "name"),
        ("drawn", HERS | {"unwashed": True}, "washing"),
        ("drawn", {"garment": "marlpit", "sizes": ["QQ"]}, "QQ"),
        ("amount", HERS | {"widths": ["purple"]}, "purple"),
        ("count_pages", HERS | {"pages": ["napkin"]}, "napkin"),
        ("measure", {"about": "mood"}, "mood"),
        ("keep_person", {"name": "Ines", "measures": INES}, "keeps nobody"),
    ],
)
def test_what_nobody_could_mean_is_told(verb: str, about: dict[str, Any], said: str, bench: Bench) -> None:
    with pytest.raises(Problems) as told:
        asked(verb, about, bench)
    assert said in " ".join([str(told.value), *(hint for note in told.value.notes for hint in note.hints)])


@pytest.mark.parametrize(
    ("language", "measures", "about", "said"),
    [
        ("en", {"bust_girth": "98 cm"}, "measures_missing", "Still needed: waist girth, hip girth and height."),
        ("de", {"bust_girth": "98 cm"}, "measures_missing", "Es fehlt noch: Taillenumfang, Hüftumfang und Körperhöhe."),
        (
            "en",
            INES | {"bust_girth": "38 cm"},
            "measure_outside",
            "Bust girth: a pattern can be drafted from 60 cm to 180 cm",
        ),
        ("de", INES | {"bust_girth": "abc cm"}, "measure_unread", "Brustumfang: Das ist keine Zahl"),
        (
            "en",
            INES | {"waist_girth": "180 cm"},
            "waist_too_large",
            "The waist is far larger than the bust and the hip",
        ),
    ],
)
def test_what_she_typed_is_judged_in_her_words(
    language: str, measures: dict[str, str], about: str, said: str, bench: Bench
) -> None:
    about_her = HERS | {"measures": measures, "language": language}
    (note,) = answered(VERBS, {"verb": "drawn", "asked": about_her}, bench)["notes"]
    assert note["message"].startswith(said)
    assert note["about"] == about
    assert not {"_", "=", "`"} & set(note["message"])


def test_a_sewist_is_told_no_place_in_a_bundled_file(bench: Bench) -> None:
    with pytest.raises(Problems) as told:
        asked("drawn", HERS | {"measures": INES | {"upper_arm_girth": "60 cm", "wrist_girth": "26 cm"}}, bench)
    assert not [note for note in told.value.notes if note.span and note.span.source.name.endswith(".piece")]


_FIELDS = st.sampled_from(["measures", "styles", "cloth", "sizes", "x"])
_ODD = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats() | st.text(max_size=40),
    lambda inside: st.lists(inside, max_size=3) | st.dictionaries(st.text(max_size=12), inside, max_size=3),
    max_leaves=6,
)


_QUICK = sorted(set(VERBS) - {"on_form"})
"""An ask that means something dresses a form for half a minute."""


@given(verb=st.sampled_from(_QUICK), about=_ODD, name=_FIELDS)
@settings(max_examples=60, deadline=None)
def test_odd_asks_are_answered_by_notes_alone(verb: str, about: Any, name: str) -> None:
    said = answered(VERBS, {"verb": verb, "asked": {"garment": "roundhouse", name: about}}, Bench())
    assert not said.get("fault"), said


def test_what_breaks_is_told_without_what_it_was_about() -> None:
    def broken(_asked: Any, _bench: Bench) -> dict[str, Any]:
        raise KeyError("bust_girth 98")

    said = answered({"broken": broken}, {"verb": "broken", "asked": {}}, Bench())
    assert said["fault"] and "98" not in str(said)
