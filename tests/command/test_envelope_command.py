"""The verb about envelopes: made, looked into, opened by the other verbs, taken out, and refused."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.command.run import Runner


def test_it_is_made_told_of_opened_and_taken_out(run: Runner, tmp_path: Path) -> None:
    place = tmp_path / "marlpit.envelope"
    made = run("envelope", "marlpit", "--out", place)
    assert made.code == 0 and "opened at marlpit.piece" in made.out and f"wrote {place}" in made.out
    assert "women.csv" in run("envelope", place).out
    assert run("about", place).out == run("about", "marlpit").out
    assert run("walk", place).out == run("walk", "marlpit").out
    assert run("envelope", place, "--unpack", tmp_path / "out").code == 0
    assert run("about", tmp_path / "out" / "marlpit.piece").out == run("about", "marlpit").out
    again = run("envelope", tmp_path / "out" / "marlpit.piece", "--out", tmp_path / "again.envelope")
    assert again.code == 0 and (tmp_path / "again.envelope").read_bytes() == place.read_bytes()


def test_without_a_place_it_only_says_what_would_be_in_it(
    run: Runner, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    assert run("envelope", "marlpit").code == 0
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("marlpit", "--out", "marlpit.zip"), "is to end with .envelope"),
        (("marlpit", "--unpack", "there"), "takes out of an envelope"),
        (("marlpit", "--out", "a.envelope", "--unpack", "there"), "goes with neither"),
    ],
)
def test_what_does_not_go_together_is_told(run: Runner, words: tuple[str, ...], said: str) -> None:
    ran = run("envelope", *words)
    assert ran.code == 2 and said in ran.err


@pytest.mark.parametrize("verb", ["about", "envelope", "walk", "tidy"])
def test_a_damaged_one_is_refused_by_every_verb(run: Runner, tmp_path: Path, verb: str) -> None:
    place = tmp_path / "a.envelope"
    run("envelope", "marlpit", "--out", place)
    place.write_bytes(place.read_bytes().replace(b"pattern marlpit", b"pattern Marlpit"))
    ran = run(verb, place)
    assert ran.code == 1 and ("is damaged" in ran.err or "is an envelope and no" in ran.err)


def test_a_missing_one_is_told(run: Runner, tmp_path: Path) -> None:
    ran = run("about", tmp_path / "none.envelope")
    assert ran.code == 1 and "there is no envelope" in ran.err


def test_a_file_of_somebody_elses_is_not_written_over(run: Runner, tmp_path: Path) -> None:
    (tmp_path / "a.envelope").write_bytes(b"letters to a friend")
    ran = run("envelope", "marlpit", "--out", tmp_path / "a.envelope")
    assert ran.code == 1 and "was not made by plainseam" in ran.err
    assert (tmp_path / "a.envelope").read_bytes() == b"letters to a friend"
