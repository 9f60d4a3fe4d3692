"""Running the command inside the test's own process, as a terminal would."""

from __future__ import annotations

import sys
from dataclasses import dataclass

import pytest

from draft.command.main import main


@dataclass(frozen=True)
class Ran:
    """What a run gave: its exit code, what it said, and what it said on the side."""

    code: int
    out: str
    err: str


class Runner:
    """Runs `plainseam` with the words given; a traceback is a failure of the test."""

    def __init__(self, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
        self.monkeypatch = monkeypatch
        self.capsys = capsys

    def __call__(self, *words: object) -> Ran:
        self.monkeypatch.setattr(sys, "argv", ["plainseam", *map(str, words)])
        try:
            code = main()
        except SystemExit as stop:
            code = int(stop.code or 0)
        said = self.capsys.readouterr()
        assert "Traceback" not in said.err
        return Ran(code, said.out, said.err)
