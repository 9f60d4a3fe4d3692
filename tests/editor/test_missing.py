"""Without the library that speaks the protocol, `plainseam editor` says what to install."""

from __future__ import annotations

import importlib.util
import sys

import pytest

from draft.command.main import main


def test_what_is_missing_is_said(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
    monkeypatch.setattr(importlib.util, "find_spec", lambda name: None)
    monkeypatch.setattr(sys, "argv", ["plainseam", "editor"])
    assert main() == 1
    assert "pip install 'plainseam[editor]'" in capsys.readouterr().err
