"""`plainseam sit`: a form of somebody's measures, and a garment on it."""

from __future__ import annotations

import json
import os
import signal
import subprocess
import sys
import time
from pathlib import Path

import numpy as np
import pytest

from draft.answers.sit_cases import Otherwise, cases_of, posed
from draft.drafting.request import Request, Whom
from draft.paper.drawing.wording import Wording
from draft.sitting.hand_stretch import hand_stretch
from tests.command.run import Runner
from tests.command.test_json import told as document

INES = '[measures]\nbust_girth = "98 cm"\nwaist_girth = "83 cm"\nhip_girth = "104 cm"\nstature = "168 cm"\n'


@pytest.fixture
def ines(tmp_path: Path) -> Path:
    file = tmp_path / "ines.toml"
    file.write_text(f'name = "Ines"\n{INES}')
    return file


def test_a_form_of_her_measures_by_itself(run: Runner, ines: Path, tmp_path: Path) -> None:
    out = tmp_path / "out"
    ran = run("sit", "--body", ines, "--arms", "-30deg", "--language", "de", "--out", out)
    assert (ran.code, ran.err) == (0, "") and "Eine Form nach diesen Maßen" in ran.out
    assert sorted(file.name for file in out.iterdir()) == ["form.pdf", "form.png", "form.svg"]
    text = (out / "form.svg").read_text("utf-8")
    assert "Eine Form von Ines" in text and "Brust 98 cm" in text and "Auf der Form geschätzt" in text


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (("--arms", "95deg"), "from 85deg below level, hanging, to 80deg above it"),
        (("--arms", "-81deg"), "from 85deg below level, hanging, to 80deg above it"),
        (("--arms", "5cm"), "is not an angle"),
        (("--arms", "up"), "--arms up"),
        (("--elbows", "120deg"), "elbows are bent from 0deg to 90deg"),
        (("--elbows", "5cm"), "is not an angle"),
        (("--elbows", "60deg"), "about a garment's sleeves: name a pattern"),
    ],
)
def test_arms_that_nobody_has(run: Runner, ines: Path, tmp_path: Path, words: tuple[str, ...], told: str) -> None:
    ran = run("sit", "--body", ines, *words, "--out", tmp_path / "out")
    assert ran.code == 2 and told in ran.err and not (tmp_path / "out").exists()


def test_whose_form_has_to_be_said(run: Runner, tmp_path: Path) -> None:
    ran = run("sit", "--out", tmp_path / "out")
    assert ran.code == 2 and "whose form" in ran.err


def test_of_a_child_no_form_is_made(run: Runner, tmp_path: Path) -> None:
    file = tmp_path / "child.toml"
    file.write_text(f'wearer = "child"\n{INES}')
    ran = run("sit", "--body", file, "--out", tmp_path / "out")
    assert ran.code == 1 and "too little is known of this body" in ran.err and not (tmp_path / "out").exists()


def test_a_size_on_its_own_form(run: Runner, tmp_path: Path) -> None:
    out = tmp_path / "out"
    ran = run("sit", "marlpit", "--sizes", "M", "--quick", "--units", "cm", "--out", out)
    assert (ran.code, ran.err) == (0, "")
    assert "Not tried on other forms of these girths" in ran.out
    assert "The hem" in ran.out and ran.out.count("A form of the measures in the chart, not you.") == 1
    names = sorted(str(file.relative_to(out)) for file in out.rglob("*.*"))
    assert names == ["sit.csv", "sit.json", "sit/M.pdf", "sit/M.png", "sit/M.svg"]
    (found,) = json.loads((out / "sit.json").read_text("utf-8"))["garments"]
    assert found["dressed"] and found["on"] == "cloth that stretches 40 % across and 20 % along"
    read = {(one["what"], one["where"]): one["value"] for one in found["figures"]}
    assert 12 < read["room", "waist"] < 18  # the pieces' girth there is 15 cm more than the body's
    assert 0 < read["hem higher than at the back", "front"] < 4 and read["stretched", "waist"] < 1.5
    assert (out / "sit.csv").read_text("utf-8").startswith("garment,form,what,where,value,unit,give or take\n")
    assert found["whose_form"] == "A form of the measures in the chart, not you."
    drawn = (out / "sit" / "M.svg").read_text("utf-8")
    assert "A form of the measures in the chart, not you." in drawn and "your measures" not in drawn


def test_a_program_is_told_why_nothing_was_dressed(run: Runner, tmp_path: Path) -> None:
    ran = run("sit", "boatyard", "--sizes", "M", "--quick", "--out", tmp_path / "out", "--json")
    (found,) = document(ran)["garments"]
    assert ran.code == 1 and (found["name"], found["dressed"]) == ("M", False) and "trousers" in found["reason"]
    assert found["why"] and not (tmp_path / "out").exists()


@pytest.mark.slow
def test_a_program_is_told_what_the_file_beside_the_sheets_says(run: Runner, tmp_path: Path) -> None:
    ran = run("sit", "marlpit", "--sizes", "M", "--quick", "--out", tmp_path / "out", "--json")
    data, written = document(ran), json.loads((tmp_path / "out" / "sit.json").read_text("utf-8"))
    assert ran.code == 0 and {key: data[key] for key in written} == written and len(data["written"]) == 5


@pytest.mark.parametrize(
    ("words", "code", "told"),
    [
        (("boatyard", "--sizes", "M"), 1, "trousers cannot be dressed yet"),
        (
            ("boatyard", "--sizes", "M", "--language", "de"),
            1,
            "Nicht angezogen: es hat Beine: Hosen lassen sich noch nicht anziehen",
        ),
        (("marlpit", "--sizes", "M", "--fabric", "gauze"), 1, "there is no fabric called `gauze`"),
        (("marlpit", "--sizes", "M", "--try-on", "L"), 2, "puts sizes on one person"),
        (("marlpit", "--like", "bust M", "--ends"), 2, "leave the person out"),
        (("marlpit", "--ends", "--beside-fabric", "rib"), 1, "choose fewer sizes with `--sizes M`"),
        (("nowhere",), 1, "nowhere"),
    ],
)
def test_what_cannot_be_shown_is_told(
    run: Runner, tmp_path: Path, words: tuple[str, ...], code: int, told: str
) -> None:
    ran = run("sit", *words, "--out", tmp_path / "out")
    assert ran.code == code and told in ran.err + ran.out and not (tmp_path / "out").exists()


def test_cases_are_her_own_draft_sizes_on_her_and_what_is_otherwise(tmp_path: Path, ines: Path) -> None:
    request, english = Request("marlpit", Whom(body=ines)), Wording("en", "cm")
    cases, _ = cases_of(request, english, ("M", "L"), Otherwise(styles={"neckline": "vee"}, fabric="rib"))
    assert [case.name for case in cases] == ["Ines", "Ines in M", "Ines in L", "Ines otherwise"]
    assert [case.subject.by_ease for case in cases] == [True, False, False, True]
    tried = [case.subject.size for case in cases]
    assert [size is None for size in tried] == [True, False, False, True]
    medium = tried[1]
    assert medium is not None and medium.cut == medium.size == "M" and not medium.other and medium.at == "bust"
    assert tried[2] is not None and tried[2].too_large and tried[2].cut == "M"
    assert all(
        case.subject.of_person and np.isnan(case.subject.bodies.values["shoulder_slope"]).all() for case in cases
    )
    assert cases[1].subtitle.startswith("on a form of Ines · cloth that stretches 40 %")
    assert cases[3].title == "Marlpit top, Ines: neckline vee, rib" and cases[3].subtitle.startswith("rib: cloth")
    sizes, _ = cases_of(Request("marlpit", Whom(sizes=("M",))), english, ends=True)
    hips = {case.name: float(case.subject.bodies.values["hip_girth"][0]) for case in sizes}
    assert hips["M fuller hips"] > hips["M"] * 1.05 > hips["M slimmer hips"] * 1.1
    assert not any(case.subject.of_person for case in sizes)
    assert {case.whose for case in cases} == {"not_you"}
    assert [case.whose for case in sizes] == ["not_anyone", *["not_anyone_near"] * (len(sizes) - 1)]
    assert posed(sizes[0], np.radians(-30), english).endswith("arms 30 deg above level, hem let go")
    assert posed(sizes[0], np.radians(50), english, np.radians(60)).endswith("pulled down · elbows bent by 60 deg")
    cut, stretch = cases[0].subject.garment, hand_stretch(cases[0].subject.garment)
    assert cut.sizes == ("Ines",) and stretch == (0.4, 0.2)


@pytest.mark.slow
def test_whoever_stops_it_is_told_that_nothing_was_written(tmp_path: Path) -> None:
    words = [sys.executable, "-m", "draft", "sit", "marlpit", "--sizes", "M", "--out", str(tmp_path / "out")]
    begun = subprocess.Popen(words, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True, start_new_session=True)
    time.sleep(8)
    os.killpg(begun.pid, signal.SIGINT)
    out, err = begun.communicate(timeout=30)
    assert (begun.returncode, out) == (1, "") and err.strip() == "stopped; nothing was written"
    assert not (tmp_path / "out").exists()


def test_a_seam_that_does_not_fit_is_told_before_anything_is_dressed(run: Runner, tmp_path: Path) -> None:
    (tmp_path / "panel.piece").write_text(
        'pattern panel\n    chart "women.csv"\n\nbody\n    hip_girth\n\npiece panel\n    points\n'
        "        a at 0, 0\n        b from a: hip_girth / 2 across\n"
        "        c from b: 30 cm up\n        d from a: 40 cm up\n"
        "    outline\n        low a to b straight\n        right b to c straight\n        top c to d straight\n"
        "        left d to a straight\n    cut 2\n\njoin\n    side panel.right to panel.left reversed\n"
    )
    ran = run("sit", tmp_path / "panel.piece", "--sizes", "M", "--quick", "--out", tmp_path / "out")
    assert ran.code == 1 and "panel.piece:21:5: the two sides of `side` do not fit" in ran.err
    assert not (tmp_path / "out").exists()
    words = ("--sizes", "M", "--quick", "--beside", tmp_path / "panel.piece", "--out", tmp_path / "out")
    ran = run("sit", "tidemill", *words)
    assert ran.code == 1 and "the two sides of `side` do not fit" in ran.err


@pytest.mark.slow
def test_a_size_on_the_bodies_that_it_serves_is_dressed_whole(run: Runner, tmp_path: Path) -> None:
    """Fuller hips stretch what slimmer ones leave loose, and what is said of each end is what its figures say."""
    out = tmp_path / "out"
    ran = run("sit", "marlpit", "--sizes", "M", "--ends", "--quick", "--units", "cm", "--out", out)
    assert (ran.code, ran.err) == (0, "") and "At the ends of whom the size serves" in ran.out
    assert len(list((out / "sit").glob("*.pdf"))) == 6 and (out / "beside-2.pdf").exists()
    data = json.loads((out / "sit.json").read_text("utf-8"))
    found = {one["name"]: one for one in data["garments"]}
    assert all(one["dressed"] for one in found.values()) and len(data["ends"]) == 5

    def at(name: str, what: str, where: str) -> float:
        read = {(one["what"], one["where"]): one["value"] for one in found[name]["figures"]}
        return float(read.get((what, where), read.get((what, "hem"), 0.0)))  # its hem lies near the hip

    names = ["M fuller hips", "M", "M slimmer hips"]
    tight = [at(name, "stretched", "hip") for name in names]
    assert tight == sorted(tight, reverse=True) and tight[0] > tight[2]
    busts = [at(name, "stretched in front", "bust") for name in ("M a fuller bust", "M", "M a smaller bust")]
    assert busts == sorted(busts, reverse=True) and busts[0] > busts[2]
    worn = {one["whose_form"] for one in found.values()}
    assert worn == {"A form of the measures in the chart, not you.", "A form near the measures in the chart, not you."}
    assert data["note"] == " ".join(sorted(worn, key=len))
