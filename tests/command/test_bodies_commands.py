"""`plainseam size`, and drafting for people who say little, or something between sizes."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.command.run import Runner

FOUR = ("--measure", "bust_girth=96cm", "--measure", "waist_girth=82cm", "--measure", "hip_girth=114cm",
        "--measure", "stature=168cm")  # fmt: skip


def test_a_size_is_told_by_each_girth_and_over_all(run: Runner) -> None:
    ran = run("size", "marlpit", *FOUR)
    assert ran.code == 0
    assert "made to measure: M at the bust, " in ran.out
    assert "cut M by the bust and grade out to XL at the hip; or make" in ran.out
    assert "print them on one another with `--sizes M,XL`, and draw a smooth line" in ran.out
    assert 'drafted between sizes: `--like "bust M, waist L, hip XL"`' in ran.out
    (row,) = [line for line in ran.out.splitlines() if line.startswith("hip ")]
    assert row.split()[:3] == ["hip", "114", "cm"]


def test_what_is_estimated_is_never_silent(run: Runner) -> None:
    for words in (("size", "marlpit", "--details"), ("fit", "marlpit", "--details"), ("walk", "marlpit")):
        ran = run(*words, *FOUR)
        assert "estimated, not measured" in ran.out and "give or take 2.8 cm" in ran.out
    for verb in ("size", "fit"):
        assert "15 measures were not taken but estimated: `--details` tells" in run(verb, "marlpit", *FOUR).out


def test_a_person_between_sizes_is_drafted(run: Runner) -> None:
    ran = run("walk", "marlpit", "--like", "bust M, waist L, hip 2XL")
    assert ran.code == 0 and ran.err == "" and "estimated" not in ran.out
    assert run("walk", "marlpit", "--like", "bust Q").code == 1


def test_a_stable_cloth_is_cautioned_against(run: Runner) -> None:
    ran = run("walk", "marlpit", "--sizes", "M", "--fabric", "stable")
    assert ran.code == 0 and "this pattern suits 25 % to 120 %" in ran.err
    assert run("walk", "marlpit", "--sizes", "M", "--fabric", "stretchy").err == ""


@pytest.mark.parametrize(
    "words",
    [
        ("size", "marlpit"),
        ("size", "marlpit", "--sizes", "M", "--like", "bust M"),
        ("walk", "marlpit", "--sizes", "M", "--like", "bust M"),
        ("walk", "marlpit", "--body", "x.toml", "--like", "bust M"),
        ("size", "marlpit", "--like", "bust M", "--wear", "tight"),
    ],
)
def test_wrong_usage_exits_with_2(run: Runner, words: tuple[str, ...]) -> None:
    ran = run(*words)
    assert ran.code == 2 and ran.out == ""


def test_cloth_that_is_not_there_is_a_problem(run: Runner, tmp_path: Path) -> None:
    ran = run("walk", "marlpit", "--fabric", str(tmp_path / "none.toml"))
    assert ran.code == 1 and "there is no file about a fabric" in ran.err


def test_a_study_writes_a_table_and_a_picture(run: Runner, tmp_path: Path) -> None:
    people = tmp_path / "people.csv"
    people.write_text(
        "name,bust_girth cm,waist_girth cm,hip_girth cm,stature cm\nIda,94,77,101,164\nEva,x,77,101,164\n"
    )
    ran = run("study", "marlpit", people, "--out", tmp_path / "out")
    assert ran.code == 0 and ran.err == "" and "can be worn so" in ran.out
    assert sorted(path.name for path in (tmp_path / "out").iterdir()) == ["study.csv", "study.svg"]
    ida, eva = (tmp_path / "out" / "study.csv").read_text().splitlines()[1:]
    assert ida.startswith("Ida,yes,yes,,M,yes,M,") and eva.startswith("Eva,no,no,`bust_girth` is not a number: `x`")
    assert run("study", "marlpit", tmp_path / "none.csv", "--out", tmp_path / "out").code == 1
    assert run("study", "marlpit", people).code == 2


def test_a_fit_is_reported_and_drawn(run: Runner, tmp_path: Path) -> None:
    ran = run("fit", "marlpit", "--sizes", "M,L", "--out", tmp_path / "out")
    assert ran.code == 0 and "the cloth must stretch across by" in ran.out
    assert sorted(path.name for path in (tmp_path / "out" / "fit").iterdir()) == ["L.svg", "M.svg"]


def test_about_tells_the_cloth_that_suits(run: Runner) -> None:
    said = run("about", "marlpit").out
    assert "cloth: now, what suits" in said
    (row,) = [line for line in said.splitlines() if line.startswith("  stretch_across")]
    assert "40 %" in row and "from 25 % to 120 %" in row and "round the body" in row
    assert "cloth" not in run("about", str(Path(__file__).parents[1] / "good" / "tapered_skirt.piece")).out
