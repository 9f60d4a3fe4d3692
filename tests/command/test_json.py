"""`--json`: every verb that tells something tells it as data, the same facts as its report, and mistakes too."""

from __future__ import annotations

import json
import math
import re
from pathlib import Path
from typing import Any

import pytest

from draft.command.group import commands
from draft.command.told_as_data import OPTION, SHAPE, tells
from tests.command.run import Ran, Runner
from tests.project.checkout import ROOT

NO_DOCUMENT = {"page", "editor", "tidy"}
COMMON = {"verb", "shape", "exit_code", "notes", "mistake", "written"}
DRAFTED = {"pattern", "for", "estimates", "estimates_not_shown", "solved", "otherwise", "sides"}
PAGE = (ROOT / "pieces" / "JSON.md").read_text(encoding="utf-8")
PEOPLE = "name,bust_girth cm,waist_girth cm,hip_girth cm,stature cm\n" + "".join(
    f"p{k},{84 + k},{66 + k},{92 + k},{160 + k % 20}\n" for k in range(24)
)


def documented(verb: str) -> set[str]:
    """The keys that the page names for a verb."""
    row = next(line for line in PAGE.splitlines() if re.match(rf"\|[^|]*`{verb}`", line))
    keys = set(re.findall(r"`(\w+)`", row.split("|")[2]))
    return COMMON | keys | (DRAFTED if "what is drafted" in row else set())


def told(ran: Ran) -> dict[str, Any]:
    """The document that a run printed, and nothing else."""
    found: dict[str, Any] = json.loads(ran.out)
    assert found["exit_code"] == ran.code and found["shape"] == SHAPE
    assert not [number for number in _numbers(found) if not math.isfinite(number)]
    assert set(found) <= documented(found["verb"])
    return found


def _numbers(value: object) -> list[float]:
    if isinstance(value, dict):
        return [number for part in value.values() for number in _numbers(part)]
    if isinstance(value, list):
        return [number for part in value for number in _numbers(part)]
    return [value] if isinstance(value, int | float) else []


def test_every_verb_tells_a_program_or_is_known_not_to() -> None:
    gathering = {name for name, verb in commands.every().items() if tells(verb)}
    assert gathering | NO_DOCUMENT == set(commands.every())
    assert not [name for name in NO_DOCUMENT if _takes_json(name)]
    for name in gathering:
        assert documented(name) > COMMON


def _takes_json(name: str) -> bool:
    return any(OPTION in each.opts for each in commands.every()[name].params)


SAME = [
    ("size marlpit --measure bust=98cm", "levels.0.body_mm", 980.0, "98 cm"),
    ("size marlpit --measure bust=98cm", "size", "M", "cut M"),
    ("fit marlpit --sizes M", "levels.0.ease_mm.M", 60.0, "6 cm"),
    ("walk marlpit --sizes M", "joins.0.fits", True, "fits"),
    ("true marlpit --sizes M", "within_deg", 0.1, "within 0.1 deg"),
    ("about marlpit", "pattern", "Marlpit top", "Marlpit top"),
    ("about bands", "templates.0.template", "folded_band", "folded_band"),
    ("measures", "measures.0.measure", "stature", "stature"),
    ("figures", "figures.0.figure", None, None),
    ("words from", "words.0.name", None, None),
    ("chart marlpit", "sizes.1.bust_girth_mm", 860.0, "86.0"),
    pytest.param("chart --propose S,M,L", "served_percent", None, None, marks=pytest.mark.slow),
    ("compare marlpit --between M,L", "edges", 20, "of 20 edges"),
    ("envelope marlpit", "opened_at", "marlpit.piece", "opened at marlpit.piece"),
    ("lay ropewalk --sizes M --effort quick", "cloths.0.laid.0.sizes.0.size", "M", "M "),
    ("lay ropewalk --sizes M --effort quick --have 3mx148cm", "cloths.0.sizes.0.fits", True, "yes, it fits"),
]


def at(data: Any, path: str) -> Any:
    for key in path.split("."):
        data = data[int(key)] if isinstance(data, list) else data[key]
    return data


@pytest.mark.parametrize(("words", "path", "value", "said"), SAME, ids=str)
def test_the_document_says_what_the_report_says(
    run: Runner, words: str, path: str, value: object, said: str | None
) -> None:
    report = run(*words.split())
    data = told(run(*words.split(), "--json"))
    found = at(data, path)
    if said is None:
        assert found
    else:
        assert found == value and said in report.out + report.err
    assert report.code == data["exit_code"]


def test_the_lengths_of_seams_are_those_of_the_report(run: Runner) -> None:
    report = run("walk", "marlpit", "--sizes", "M").out.partition("join ")[2].splitlines()
    data = told(run("walk", "marlpit", "--sizes", "M", "--json"))
    for join in data["joins"]:
        row = next(line for line in report if line.startswith(f"{join['join'].replace('_', ' ')} "))
        for key in ("first_mm", "second_mm"):
            assert f" {join[key]['M'] / 10:.1f}".removesuffix(".0") in row
    cells = told(run("walk", "marlpit", "--sizes", "M", "--sections", "--json"))["sections"]
    assert {one["join"] for one in cells} == {one["join"] for one in data["joins"]}


def test_no_measure_is_told_that_the_report_does_not_hold(run: Runner, tmp_path: Path) -> None:
    """Of a person's own file only what the report prints comes out: ease needs no other girth than its own."""
    (tmp_path / "me.toml").write_text(
        'name = "Ines"\n\n[measures]\nbust_girth = "98.3 cm"\nwaist_girth = "83.7 cm"\nhip_girth = "104.1 cm"\n'
        'stature = "168.9 cm"\nknee_height = "47.7 cm"\n'
    )
    for words in ("fit ropewalk", "size ropewalk", "walk marlpit"):
        out = ["--body", str(tmp_path / "me.toml")]
        report = run(*words.split(), *out)
        data = json.dumps(told(run(*words.split(), *out, "--json")))
        for secret in (1689.0, 477.0, 983.0, 837.0, 1041.0):
            shown = f"{secret / 10:.1f} cm" in report.out
            assert shown or not re.search(rf"\b{secret}\b", data), (words, secret)


def test_files_that_are_written_are_listed_with_their_digests(run: Runner, tmp_path: Path) -> None:
    data = told(run("pack", "ropewalk", "--sizes", "M", "--page", "a4", "--cloth", "none", "--out", tmp_path, "--json"))
    assert {Path(one["file"]).name for one in data["written"]} == {
        file.name for file in tmp_path.rglob("*") if file.is_file()
    }
    assert data["pages"]["a4"] > 1 and all(len(one["sha256"]) == 64 for one in data["written"])


def test_studies_and_limits_are_told(run: Runner, tmp_path: Path) -> None:
    (tmp_path / "people.csv").write_text(PEOPLE)
    study = told(run("study", "ropewalk", tmp_path / "people.csv", "--out", tmp_path / "out", "--json"))
    assert study["bodies"] == 24 and study["drafted"] <= 24
    (tmp_path / "tube.piece").write_text(
        'pattern tube\n    chart "women.csv"\n\nbody\n    bust_girth\n\nstyle\n    room 0 cm from -40 cm to 4 cm\n\n'
        "piece panel\n    points\n        a at 0, 0\n        b from a: quarter of bust_girth + room across\n"
        "        c from b: 10 cm up\n        d from a: 10 cm up\n    outline\n        low a to b straight\n"
        "        right b to c straight\n        top c to d straight\n        left d to a straight\n    cut 1\n"
    )
    ran = run("try", tmp_path / "tube.piece", "--json")
    tried = told(ran)
    assert tried["styles"] == ["room"] and (ran.code == 1) == any(cause["fails"] for cause in tried["causes"])


def test_a_mistake_is_told_with_its_place_its_fix_and_the_same_exit_code(run: Runner, tmp_path: Path) -> None:
    (tmp_path / "bad.piece").write_text('pattern bad\n    chart "women.csv"\n\nlet\n    a = 3 oranges\n')
    plain, data = run("about", tmp_path / "bad.piece"), told(run("about", tmp_path / "bad.piece", "--json"))
    assert plain.code == data["exit_code"] == 1
    note = data["notes"][0]
    assert (note["severity"], note["file"], note["line"]) == ("error", "bad.piece", 5)
    assert note["message"] in plain.err and note["column"] > 0
    nothing = told(run("about", "marlpitt", "--json"))
    assert nothing["notes"][0]["fixes"] == ["try `marlpit`"] and nothing["notes"][0]["line"] is None


@pytest.mark.parametrize("words", ["walk --json", "size marlpit --json", "fit marlpit --odd --json"])
def test_a_command_used_wrongly_is_told_so(run: Runner, words: str) -> None:
    ran = run(*words.split())
    data = told(ran)
    assert ran.code == 2 and data["mistake"] and not ran.err


def test_help_is_for_a_person(run: Runner) -> None:
    for word in ("--help", "-h", "-hh"):
        ran = run("walk", "--json", word)
        assert ran.code == 0 and ran.out.startswith("Usage:") and "{" not in ran.out


def test_the_shelf_is_told_as_it_stands(monkeypatch: pytest.MonkeyPatch, run: Runner) -> None:
    monkeypatch.setattr("draft.answers.on_the_shelf.bundled_patterns", lambda: ["ropewalk", "tidemill"])
    shown, data = run("shelf").out, told(run("shelf", "--json"))
    assert [one["pattern"] for one in data["patterns"]] == ["ropewalk", "tidemill"]
    for one in data["patterns"]:
        assert f"{one['title']}; sizes {one['sizes'][0]} to {one['sizes'][-1]}" in shown and one["cloth"] in shown


def test_outlines_and_envelopes_are_told(run: Runner, tmp_path: Path) -> None:
    made = told(run("new", "mine", "--out", tmp_path, "--json"))
    assert [Path(one["file"]).name for one in made["written"]] == ["mine.piece"]
    packed = told(run("envelope", tmp_path / "mine.piece", "--out", tmp_path / "a.envelope", "--json"))
    assert packed["opened_at"] == "mine.piece" and len(packed["written"]) == 1


STUDIO = 'name = "Withy Bank"\n[prices]\ncurrency = "EUR"\nhour = 24\n[prices.cloth]\ncloth = 12.50\n'


def test_orders_and_what_they_cost_are_told(run: Runner, tmp_path: Path) -> None:
    table, prices = tmp_path / "people.csv", tmp_path / "studio.toml"
    table.write_text("order,size\nA-1,S\nA-2,XX\n")
    prices.write_text(STUDIO)
    of = ("--pattern", "ropewalk", "--cloth", "none")
    made = told(run("orders", table, *of, "--page", "none", "--workers", 1, "--out", tmp_path / "o", "--json"))
    assert [row["became"] for row in made["rows"]] == ["made", "refused"] and "1 of 2" in made["sentences"][0]
    cut = told(run("cut", table, *of[:2], "--prices", prices, "--out", tmp_path / "c", "--json"))
    assert cut["exit_code"] == 1 and [one["order"] for one in cut["refused"]] == ["A-2"]
    assert {Path(one["file"]).name for one in cut["written"]} >= {"cut-list.csv", "cost.csv"}
    cost = told(run("cost", "ropewalk", "--sizes", "M", "--prices", prices, "--out", tmp_path / "p", "--json"))
    assert [note["severity"] for note in cost["notes"]].count("caution") == len(cost["without_a_price"])
    assert cost["sizes"][0]["together"] and cost["pattern"] and len(cost["written"]) == 1


@pytest.mark.parametrize(
    ("words", "code"),
    [
        ("orders none.csv --pattern marlpit --out out", 1),
        ("orders none.csv --pattern marlpit", 2),
        ("orders odd.csv --pattern marlpit --scheduler nowhere:1 --workers 2 --out out", 2),
        ("cut none.csv --pattern marlpitt", 1),
        ("cut odd.csv --pattern marlpit --at-once 0", 2),
        ("cost marlpitt", 1),
        ("cost marlpit --hours some --prices studio.toml", 2),
        ("cost marlpit --prices none.toml", 1),
        ("testers none.csv --pattern marlpit", 1),
        ("testers odd.csv --pattern marlpit", 1),
        ("testers odd.csv", 2),
        ("release marlpitt --out out", 1),
        ("release marlpit", 2),
    ],
)
def test_mistakes_of_a_studios_verbs_are_told(
    monkeypatch: pytest.MonkeyPatch, run: Runner, tmp_path: Path, words: str, code: int
) -> None:
    monkeypatch.chdir(tmp_path)
    (tmp_path / "odd.csv").write_text("")
    (tmp_path / "studio.toml").write_text(STUDIO)
    plain, ran = run(*words.split()), run(*words.split(), "--json")
    data = told(ran)
    assert plain.code == data["exit_code"] == code and not ran.err
    said = data["mistake"] if code == 2 else data["notes"][0]["message"]
    assert said and said in plain.err
