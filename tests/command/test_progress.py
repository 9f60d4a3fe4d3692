"""What is being done is told on a terminal, and nowhere else."""

from __future__ import annotations

import sys
from pathlib import Path

import pytest

from tests.command.run import Runner


def test_progress_is_shown_on_a_terminal_only(run: Runner, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    quiet = run("draft", "marlpit", "--sizes", "M", "--out", tmp_path)
    assert (quiet.code, quiet.err) == (0, "")
    monkeypatch.setattr(sys.stderr, "isatty", lambda: True, raising=False)
    loud = run("draft", "marlpit", "--sizes", "M", "--out", tmp_path)
    assert loud.code == 0
    assert "..." in loud.err and "\r" in loud.err
    assert loud.err.endswith("\r\033[K"), "the line is taken away at the end"


def test_a_reader_who_has_heard_enough_is_left_in_peace(run: Runner, monkeypatch: pytest.MonkeyPatch) -> None:
    def closed(text: str) -> int:
        raise BrokenPipeError

    monkeypatch.setattr(sys.stdout, "write", closed)
    assert run("walk", "marlpit", "--sizes", "M").code == 1


def test_whoever_stops_it_is_told_that_nothing_was_written(
    run: Runner, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def stopped(*given: object, **named: object) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr("draft.drafting.checked.draft_plan", stopped)
    ran = run("draft", "marlpit", "--out", tmp_path / "out")
    assert ran.code == 1
    assert ran.err.strip() == "stopped; nothing was written"
    assert not (tmp_path / "out").exists()
