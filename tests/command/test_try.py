"""The command `try`: what it finds, names and draws of a pattern at its limits."""

from __future__ import annotations

import csv
import io
import xml.etree.ElementTree as ET
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from draft.base.notes import Problems
from draft.command.main import commands
from draft.plan.library import find
from draft.trying.limits import try_limits
from tests.asking import asked
from tests.written import make_plan

STRAP = """
pattern strap
    title "Strap"
    chart "sizes.csv"

body
    waist_girth

style
    room     4 cm   from 0 cm to 20 cm    "room round the waist"
    cut_out    5 cm   from 2 cm to 12 cm    "how deep its top lies"
    end    square   of square, slanted    "how it ends"

let
    half_waist = (waist_girth + room) / 2

piece strap
    points
        a  at 0, 0
        b  at half_waist, 0
        c  from b: 10 cm up
        d  from a: 10 cm up
        e  from a: half_waist / 2 across, cut_out up
    outline
        low   a to b  straight
        side  b to c  straight
        top   c to d
            straight to e
            straight
        back  d to a  straight
    cut 1

check
    half_waist - cut_out at least 30 cm   "there is a strap left" else "cut it out less deep"
"""
CHART = "measure,unit,S,M,L\nwaist_girth,cm,66,74,84\n"


@pytest.fixture
def strap(tmp_path: Path) -> Path:
    file = tmp_path / "strap.piece"
    file.write_text(STRAP, encoding="utf-8")
    (tmp_path / "sizes.csv").write_text(CHART, encoding="utf-8")
    return file


def _run(*words: object) -> Result:
    return CliRunner().invoke(commands, ["try", *map(str, words)])


def test_each_cause_is_one_note_with_its_line_its_counts_and_its_worst(strap: Path) -> None:
    (strap.parent / "sizes.csv").write_text(CHART.replace("66,74,84", "54,60,66"), encoding="utf-8")
    found = _run(strap)
    assert found.exit_code == 0  # what a designer promised is to be weighed
    fact = '"there is a strap left" does not hold, in 11 settings, for 5 bodies'
    line = 1 + STRAP.splitlines().index(next(line for line in STRAP.splitlines() if "half_waist - cut_out" in line))
    assert f"strap.piece:{line}:5: caution: {fact}" in found.output
    assert "the worst is S, cut_out=12 cm with room=0 cm" in found.output
    assert "it comes with as it stands" in found.output
    assert "cut it out less deep" in found.output


def test_an_outline_that_crosses_itself_in_one_setting_alone(strap: Path) -> None:
    found = _run(strap)
    assert found.exit_code == 0
    assert "the outline of `strap` crosses itself" not in found.output
    strap.write_text(STRAP.replace("from 2 cm to 12 cm", "from -3 cm to 9 cm"), encoding="utf-8")
    found = _run(strap)
    assert found.exit_code == 1
    assert "the outline of `strap` crosses itself, in 4 settings, for 5 bodies" in found.output
    assert "the worst is S, cut_out=-3 cm\n" in found.output
    assert "cut_out=-3 cm with" not in found.output  # the other settings hold that one


def test_the_table_has_every_case_and_the_sheets_show_the_worst_and_the_ends(strap: Path, tmp_path: Path) -> None:
    strap.write_text(STRAP.replace("from 2 cm to 12 cm", "from -3 cm to 9 cm"), encoding="utf-8")
    out = tmp_path / "out"
    _run(strap, "--out", out)
    rows = list(csv.DictReader(io.StringIO((out / "limits.csv").read_text(encoding="utf-8"))))
    crossed = [row for row in rows if row["fact"] == "the outline of `strap` crosses itself"]
    assert {row["setting"] for row in crossed} >= {"cut_out=-3 cm", "cut_out=-3 cm with room=20 cm"}
    assert {row["body"] for row in crossed} >= {"S", "M", "L", "M with a fuller waist"}
    assert all(row["what"] == "fails" and row["found by"] == "outlines" and row["file"] for row in crossed)
    for name in ("worst", "ends"):
        said = "".join(ET.fromstring((out / f"{name}.svg").read_bytes()).itertext())
        assert "cut_out=-3 cm" in said


def test_a_style_that_is_held_is_not_tried(strap: Path) -> None:
    found = _run(strap, "--style", "cut_out=4cm")
    assert found.exit_code == 0
    assert "cut_out" not in found.stdout and "nothing fails" in found.stdout


def test_a_pattern_without_styles_is_tried_as_it_stands(strap: Path) -> None:
    begins, ends = STRAP.index("style"), STRAP.index("let\n")
    text = STRAP[:begins] + STRAP[ends:].replace("+ room", "").replace("cut_out", "5 cm")
    strap.write_text(text, encoding="utf-8")
    found = _run(strap)
    assert found.exit_code == 0
    assert "0 styles" in found.stdout and "nothing fails" in found.stdout


def test_what_cannot_be_tried_is_told_like_everywhere(tmp_path: Path) -> None:
    found = _run(tmp_path / "none.piece")
    assert isinstance(found.exception, Problems)


@pytest.mark.parametrize(("name", "tried"), [("marlpit", 4), ("ropewalk", 1)])
def test_nothing_fails_in_a_bundled_pattern(name: str, tried: int) -> None:
    """One style of so many: `benchmarks/test_limits` tries all of every pattern."""
    usual = {style.name: style.set_to for k, style in enumerate(make_plan(find(name)).styles) if k % tried}
    limits = try_limits(asked(name, styles=usual))
    assert len(limits.offers) >= 4 and limits.settings.pairs
    assert not [cause.fact for cause in limits.causes if cause.is_error]
