"""The verb about size charts, and a chart called by its name."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest

from draft.base.resources import folder
from draft.bodies.chart import read_chart
from tests.command.run import Runner

ROWS = "name,bust_girth cm,waist_girth cm,hip_girth cm,stature cm\n"


def _people(path: Path, count: int) -> Path:
    rows = [f"p{k},{80 + k % 40},{62 + k % 44},{88 + k % 38},{155 + k % 25}\n" for k in range(count)]
    path.write_text(ROWS + "".join(rows), encoding="utf-8")
    return path


@pytest.mark.parametrize("name", ["marlpit", str(folder("pieces") / "women.csv")])
def test_whom_a_chart_serves(run: Runner, name: str) -> None:
    done = run("chart", name)
    assert done.code == 0
    assert "7 sizes, before 2,000 women" in done.out
    assert "bust, waist and hip" in done.out
    assert [line.split()[0] for line in done.out.splitlines() if line.endswith(" %")][:3] == ["XS", "S", "M"]


def test_a_pattern_for_men_is_held_before_men(run: Runner) -> None:
    assert "2,000 men" in run("chart", "boatyard").out


def test_a_proposed_chart_is_a_chart_that_drafts(run: Runner, tmp_path: Path) -> None:
    made = run("chart", "--propose", "S,M,L", "--people", str(_people(tmp_path / "p.csv", 200)), "--out", str(tmp_path))
    assert made.code == 0 and "3 sizes for 200 bodies of p.csv" in made.out
    chart = read_chart(tmp_path / "sizes.csv")
    assert chart.names == ("S", "M", "L") and (np.diff(chart.values["hip_girth"]) > 0).all()
    assert run("walk", "marlpit", "--chart", str(tmp_path / "sizes.csv")).code == 0


def test_ends_and_statures_that_are_asked_for(run: Runner) -> None:
    said = run("chart", "--propose", "P1,P2,P3", "--bust", "80cm,104cm", "--stature", "145cm,160cm").out
    assert "from bust 80.0 to 104.0 cm" in said and "of 145.0 to 160.0 cm" in said


@pytest.mark.parametrize(
    ("words", "told"),
    [
        ((), "give a CHART to look at"),
        (("marlpit", "--propose", "S"), "give a CHART to look at"),
        (("marlpit", "--people", "nobody"), "there are no people called `nobody`"),
        (("--propose", "S,s"), "size s is there twice"),
        (("--propose", ","), "not 0"),
        (("--propose", "S,M", "--bust", "9"), "is not a length"),
        (("--propose", "S,M", "--bust", "90cm,80cm"), "from a smaller length to a larger"),
        (("--propose", "S,M", "--within", "wide"), "is not a quantity"),
        (("marlpit", "--stature", "1cm,2cm"), "only 0 of these bodies are"),
        (("nothing.csv",), "there is no size chart"),
        (("nothing.csv", "--chart", "petite"), "nothing.csv is a chart itself"),
        (("marlpit", "--chart", "petite"), "there is no size chart `petite`"),
        (("--propose", "S,M", "--chart", "petite"), "name the pattern before it"),
    ],
)
def test_what_is_asked_for_wrongly_is_told(run: Runner, words: tuple[str, ...], told: str) -> None:
    done = run("chart", *words)
    assert done.code in (1, 2) and told in done.err


def test_too_few_people_say_nothing(run: Runner, tmp_path: Path) -> None:
    done = run("chart", "marlpit", "--people", str(_people(tmp_path / "few.csv", 5)))
    assert done.code == 1 and "only 5 of these bodies" in done.err


def test_a_chart_beside_the_patterns_own_is_called_by_its_name(run: Runner, tmp_path: Path) -> None:
    assert run("draft", "marlpit", "--chart", "men", "--sizes", "M", "--out", str(tmp_path)).code == 0
    done = run("draft", "marlpit", "--chart", "petite", "--out", str(tmp_path))
    assert done.code == 1 and "one of those beside the pattern: men, women" in done.err


def test_a_study_counts_whom_one_size_is_near(run: Runner, tmp_path: Path) -> None:
    people = _people(tmp_path / "p.csv", 30)
    said = run("study", "ropewalk", str(people), "--out", str(tmp_path / "s")).out
    assert "a size within a step at bust, waist and hip" in said and "plainseam chart --people" in said
