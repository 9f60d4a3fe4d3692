"""Choosing a size as a sewist asks for it: what she knows is enough, and what she is told is in her words."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.command.run import Runner


def test_a_bust_alone_gets_an_answer_with_its_doubt(run: Runner) -> None:
    ran = run("size", "marlpit", "--measure", "bust=98cm")
    assert (ran.code, ran.err) == (0, "")
    assert "made to measure: M at the bust" in ran.out and "cut M" in ran.out
    assert "waist and hip were not measured: of people with such a bust nineteen of twenty" in ran.out
    assert "that leaves open S to XL at the waist and S to XL at the hip: measure them before you cut" in ran.out
    assert "stature" not in ran.out and "height" not in ran.out


def test_nothing_is_asked_for_that_decides_nothing(run: Runner) -> None:
    known = ("--measure", "bust=98cm", "--measure", "waist=84cm", "--measure", "hip=112cm")
    ran = run("size", "marlpit", *known)
    tall = run("size", "marlpit", *known, "--measure", "height=185cm")
    assert ran.code == 0 and "not measured" not in ran.out
    assert ran.out.split("\n")[0] == tall.out.split("\n")[0]


def test_a_skirt_is_chosen_by_the_hip_alone(run: Runner) -> None:
    ran = run("size", "ropewalk", "--measure", "hip=110cm")
    assert ran.code == 0 and "L at the hip: cut L" in ran.out and "waist was not measured" in ran.out
    ran = run("size", "roundhouse", "--measure", "bust=90cm")
    assert ran.code == 1 and "decides no size of this garment\n  give `waist_girth`" in ran.err


@pytest.mark.parametrize("like", ["L", "size L", "l"])
def test_a_size_alone_is_one_like_it(run: Runner, like: str) -> None:
    ran = run("size", "marlpit", "--like", like)
    assert ran.code == 0 and "L at the bust, waist, hip, upper arm and cuff: cut L" in ran.out


@pytest.mark.parametrize(
    ("words", "fact", "fix"),
    [
        (("--like", "size 14"), "shops mean different girths by one size", "measure round the bust"),
        (("--like", "14"), "shops mean different girths by one size", "measure round the bust"),
        (("--like", "bust 98"), "`98` is a number", 'try `--like "bust 98 cm"`'),
        (("--like", "hip 41"), "`41` is a number", 'try `--like "hip 41 in"`'),
        (("--measure", "bust=98"), "a number without a unit", "write `--measure bust_girth=98cm`"),
        (("--measure", "bust=38"), "a number without a unit", "write `--measure bust_girth=38in`"),
    ],
)
def test_what_is_nearly_right_leads_somewhere(run: Runner, words: tuple[str, str], fact: str, fix: str) -> None:
    ran = run("size", "marlpit", *words)
    assert ran.code == 1 and fact in ran.err and fix in ran.err
    assert "^" not in ran.err and ":1:1" not in ran.err


@pytest.mark.parametrize("verb", ["size", "fit"])
def test_no_place_in_a_bundled_file_is_told(run: Runner, verb: str) -> None:
    """A skirt for a waist of 60 and a hip of 150 cannot be drafted."""
    girths = ("bust=90cm", "waist=60cm", "hip=150cm", "height=165cm")
    ran = run(verb, "ropewalk", *(word for girth in girths for word in ("--measure", girth)))
    assert ran.code == 1 and "goes round the body" in ran.err and "this pattern is not cut for such a figure" in ran.err
    assert ".piece" not in ran.err and "^" not in ran.err and "widen" not in ran.err


def test_her_own_files_keep_their_places(run: Runner, tmp_path: Path) -> None:
    file = tmp_path / "me.toml"
    file.write_text('[measures]\nbust_girth = "98"\n')
    assert "me.toml:2:1" in run("size", "marlpit", "--body", file).err


def test_what_was_solved_is_told_on_request(run: Runner) -> None:
    assert "sleeve_slope" not in run("fit", "marlpit", "--sizes", "M").out
    assert "sleeve_slope" in run("fit", "marlpit", "--sizes", "M", "--details").out
