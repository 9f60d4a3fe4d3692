"""New patterns from those that are there: each drafts at once, and nothing that lies there is changed."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.command.conftest import *  # noqa: F403 - the fixture that runs the command
from tests.command.run import Runner

BEGINNINGS = [
    (),
    ("--from", "marlpit"),
    ("--copy", "marlpit"),
    ("--copy", "hooded"),
    ("--from", "hooded"),
    ("--block", "lockside"),
    ("--block", "netloft:block_front"),
    ("--template", "bands"),
    ("--template", "bands:pointed_band"),
]


@pytest.mark.parametrize("words", BEGINNINGS, ids=" ".join)
def test_it_drafts_at_once_and_is_tidy(run: Runner, tmp_path: Path, words: tuple[str, ...]) -> None:
    made = run("new", "osier top", *words, "--title", 'Osier "top"', "--out", tmp_path)
    assert made.code == 0, made.err
    place = tmp_path / "osier_top.piece"
    if "--copy" not in words:
        assert run("tidy", "--check", place).code == 0
    size = () if "--template" in words else ("--sizes", "M")
    assert run("draft", place, *size, "--out", tmp_path / "look").code == 0
    assert "Osier 'top'" in run("about", place).out


def test_a_variation_is_the_garment_that_it_varies(run: Runner, tmp_path: Path) -> None:
    run("new", "mine", "--from", "marlpit", "--out", tmp_path)
    said = run("compare", "marlpit", tmp_path / "mine.piece", "--sizes", "M").out
    assert "20 of 20 edges are as they were" in said
    assert sorted(file.name for file in tmp_path.iterdir()) == ["mine.piece"]


def test_a_copy_brings_its_translations_under_its_own_name(run: Runner, tmp_path: Path) -> None:
    run("new", "mine", "--copy", "marlpit", "--out", tmp_path)
    assert sorted(file.name for file in tmp_path.iterdir()) == ["mine.de.toml", "mine.piece"]
    text = (tmp_path / "mine.piece").read_text("utf-8")
    assert "maker" not in text.partition("body")[0]  # whose the other is stays with the other
    assert "Saltern" not in text + (tmp_path / "mine.de.toml").read_text("utf-8")


@pytest.mark.parametrize("how", ["--from", "--copy"])
def test_an_envelope_gives_what_it_holds(run: Runner, tmp_path: Path, how: str) -> None:
    base = tmp_path / "base"
    run("new", "tube", "--out", base)
    (base / "women.csv").write_text("measure,unit,S,M\nbust_girth,cm,80,90\nback_waist_length,cm,39,40\n")
    run("envelope", base / "tube.piece", "--out", tmp_path / "tube.envelope")
    made = run("new", "mine", how, tmp_path / "tube.envelope", "--out", tmp_path / "there")
    assert made.code == 0, made.err
    wanted = {"--from": {"mine.piece", "tube.piece", "women.csv"}, "--copy": {"mine.piece", "women.csv"}}[how]
    assert {file.name for file in (tmp_path / "there").iterdir()} == wanted
    assert run("draft", tmp_path / "there" / "mine.piece", "--out", tmp_path / "look").code == 0


def test_nothing_is_written_over(run: Runner, tmp_path: Path) -> None:
    (tmp_path / "mine.piece").write_text("pattern mine\n")
    ran = run("new", "mine", "--out", tmp_path)
    assert ran.code == 1 and "is there already" in ran.err
    assert (tmp_path / "mine.piece").read_text() == "pattern mine\n"


def test_a_pattern_is_not_called_as_a_device(run: Runner, tmp_path: Path) -> None:
    assert run("new", "CON", "--out", tmp_path).code == 0
    assert [file.name for file in tmp_path.glob("*.piece")] == ["con_pattern.piece"]


@pytest.mark.parametrize(
    ("words", "code", "said"),
    [
        (("--from", "marlpit", "--copy", "marlpit"), 2, "`--from` goes with no `--copy`"),
        (("--fold",), 2, "`--fold` goes with `--from-outline`"),
        (("--allowance", "wide"), 2, "`--allowance`"),
        (("--from", "marlpitt"), 1, "there is no pattern called"),
        (("--block", "marlpit"), 1, "has no blocks"),
        (("--block", "lockside:bodice"), 1, "has no block called `bodice`"),
        (("--template", "roundhouse"), 1, "has no templates"),
        (("--template", "bands:fold_band"), 1, "try `folded_band`"),
        (("--from-outline", "none.svg"), 1, "there is no drawing"),
    ],
)
def test_what_cannot_be_begun_from_is_told(
    run: Runner, tmp_path: Path, words: tuple[str, ...], code: int, said: str
) -> None:
    ran = run("new", "mine", *words, "--out", tmp_path)
    assert (ran.code, said in ran.err) == (code, True), ran.err
    assert not list(tmp_path.iterdir())


@pytest.mark.parametrize("title", ["a\udcff", "a\nb", "a\x07", "a\u202eb"], ids=ascii)
def test_a_title_that_nobody_could_print_is_told(run: Runner, tmp_path: Path, title: str) -> None:
    ran = run("new", "mine", "--title", title, "--out", tmp_path)
    assert ran.code == 2 and "holds letters that cannot be printed" in ran.err and not list(tmp_path.iterdir())


def test_outlines_are_told_piece_by_piece(run: Runner, tmp_path: Path) -> None:
    (tmp_path / "a.svg").write_text(
        '<svg xmlns="http://www.w3.org/2000/svg" width="300mm" height="300mm" viewBox="0 0 300 300">'
        '<path id="flap" d="M10 10H210V150Q110 200 10 150z"/></svg>'
    )
    ran = run("new", "mine", "--from-outline", tmp_path / "a.svg", "--out", tmp_path)
    assert ran.code == 0 and "flap" in ran.out and "within" in ran.out
    assert run("draft", tmp_path / "mine.piece", "--out", tmp_path / "look").code == 0


def test_a_name_with_half_a_letter_is_written_out(run: Runner, tmp_path: Path) -> None:
    made = run("new", "mine\udce9", "--out", tmp_path)
    assert made.code == 0, made.err
    assert '"Mine\\udce9"' in (tmp_path / "mine.piece").read_text("utf-8")
