"""A study of many bodies: each row what the pattern alone would say, faults in their own rows, figures that add up."""

from __future__ import annotations

import csv
import io
from pathlib import Path

import numpy as np
import pytest

from draft.answers.size import size_for
from draft.answers.study import Study, run_study
from draft.bodies.bodies import Bodies
from tests.asking import asked, bundled
from tests.outside.women import real_women

MEASURES = ("bust_girth", "waist_girth", "hip_girth", "stature", "upper_arm_girth", "wrist_girth", "shoulder_girth")


def _table(bodies: Bodies, more: str = "") -> str:
    lines = [",".join(["name", *(f"{name} cm" for name in MEASURES)])]
    for k, name in enumerate(bodies.names):
        lines.append(",".join([name, *(f"{bodies.values[m][k] / 10:.2f}" for m in MEASURES)]))
    return "\n".join(lines) + "\n" + more


@pytest.fixture(scope="module")
def people(tmp_path_factory: pytest.TempPathFactory) -> Path:
    path = tmp_path_factory.mktemp("study") / "women.csv"
    path.write_text(_table(real_women(), "Ada,36,70,95,165\nEva,,70,95,165\n"))
    return path


@pytest.fixture(scope="module")
def study(people: Path) -> Study:
    return run_study(asked("marlpit"), people)


def _rows(study: Study) -> list[dict[str, str]]:
    return list(csv.DictReader(io.StringIO(study.files["study.csv"].decode())))


def test_all_real_women_are_drafted_and_can_wear_it(study: Study) -> None:
    """The 260 women of bdims, with the estimates for what that study did not measure."""
    rows = _rows(study)[:260]
    assert all(row["drafted"] == row["worn"] == "yes" and row["why"] == "" for row in rows)
    assert (study.tally.bodies, study.tally.drafted, study.tally.worn) == (262, 260, 260)


def test_a_fault_is_told_in_its_own_row(study: Study) -> None:
    ada, eva = _rows(study)[260:]
    assert ada["drafted"] == eva["drafted"] == "no"
    assert ada["why"] == "`bust_girth` is 36 cm, outside 60 cm to 180 cm; did you mean 36 in?"
    assert eva["why"] == "`bust_girth` is missing" and not eva["size"]
    assert "`bust_girth` is missing" in study.summary


def test_a_row_says_what_the_size_command_says(study: Study, people: Path) -> None:
    rows = _rows(study)
    for k in (0, 17, 99, 259):
        row = people.read_text().splitlines()[k + 1].split(",")
        answers = [f"{name}={value}cm" for name, value in zip(MEASURES, row[1:], strict=True)]
        sized = size_for(asked("marlpit", answers=answers))
        names = sized.sizes.garment.sizes
        assert rows[k]["size"] == names[int(sized.fit.overall[0])]
        for level, name in enumerate(sized.fit.names):
            assert rows[k][f"{name} size"] == names[int(sized.fit.nearest[0, level])]
            ease = sized.fit.ease[0, int(sized.fit.overall[0]), level]
            assert float(rows[k][f"{name} ease cm"]) == pytest.approx(ease / 10, abs=0.051)


@pytest.mark.parametrize("chunk", [50, 97])
def test_any_number_at_a_time_says_the_same(study: Study, people: Path, chunk: int) -> None:
    assert run_study(asked("marlpit"), people, chunk=chunk).files == study.files


def test_the_figures_add_up(study: Study) -> None:
    rows = _rows(study)
    assert sum(study.tally.sizes.values()) == 260
    assert study.tally.served == sum(row["served"] == "yes" for row in rows)
    assert study.tally.estimated["neck_base_girth"] == 260  # all whose bust and stature are known
    (estimated,) = (line for line in study.summary.split("\n") if line.startswith("estimated, not measured: "))
    assert "elbow_girth (260)" in estimated


def test_one_who_cannot_wear_it_is_told_why(people: Path) -> None:
    found = run_study(asked("marlpit", styles={"waist_ease": "-6cm"}), people)
    told = {row["why"].partition(": ")[0] for row in _rows(found) if row["worn"] == "no" and row["drafted"] == "yes"}
    assert told == {"the waist, to pass over the raised shoulders"}
    assert found.tally.drafted == 260 and found.tally.worn < 260
    alone = bundled("marlpit", waist_ease="-6cm")
    assert any(note.message.startswith("the waist, to pass over the raised shoulders") for note in alone.notes)


def test_a_pattern_that_says_nothing_of_the_body_is_studied_too(tmp_path: Path, people: Path) -> None:
    file = tmp_path / "strip.piece"
    file.write_text(
        'pattern strip\n    title "Strip"\n    chart "women.csv"\n\nbody\n    bust_girth\n\npiece strip\n    points\n'
        "        a at 0, 0\n        b at bust_girth, 0\n        c at 0, 5 cm\n    outline\n        x a to b straight\n"
        "        y b to c straight\n        z c to a straight\n    cut 1\n"
    )
    found = run_study(asked(file), people)
    assert found.tally.drafted == 260 and _rows(found)[0]["size"] == ""


def test_nobody_at_all(tmp_path: Path) -> None:
    path = tmp_path / "none.csv"
    path.write_text("bust_girth cm\n")
    found = run_study(asked("marlpit"), path)
    assert found.tally.bodies == 0 and b"no bodies" in found.files["study.svg"]


def test_extremes_are_drafted_or_told_why(tmp_path: Path) -> None:
    """Corners of what measures may be: no crash, no figure without a verdict."""
    rng = np.random.default_rng(5)
    rows = [[*rng.choice([60, 90, 180], 1), *rng.choice([50, 80, 155], 1), *rng.choice([64, 100, 200], 1),
             *rng.choice([120, 165, 220], 1)] for _ in range(81)]  # fmt: skip
    path = tmp_path / "corners.csv"
    head = "bust_girth cm,waist_girth cm,hip_girth cm,stature cm\n"
    path.write_text(head + "\n".join(",".join(map(str, row)) for row in rows))
    found = _rows(run_study(asked("marlpit"), path))
    assert len(found) == 81
    assert all(row["drafted"] == "yes" or row["why"] for row in found)
