from __future__ import annotations

import pytest

from tests.command.run import Runner


@pytest.fixture
def run(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> Runner:
    """Runs `plainseam` with the words given."""
    return Runner(monkeypatch, capsys)
