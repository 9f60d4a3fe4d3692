"""A module imports only from rows below its own: the contract in pyproject.toml holds, and leaves no room out."""

from __future__ import annotations

import re
import tomllib

import pytest
from importlinter.cli import lint_imports

from tests.project.checkout import ROOT

OUTSIDE = {"draft.__init__", "draft.__main__", "draft._bundled"}  # name the package, start it, hold its data


def test_every_import_goes_down(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
    monkeypatch.chdir(ROOT)
    failed = lint_imports(config_filename="pyproject.toml", no_cache=True)
    assert not failed, capsys.readouterr().out


def test_every_room_has_its_row() -> None:
    contract, *_ = tomllib.loads((ROOT / "pyproject.toml").read_text())["tool"]["importlinter"]["contracts"]
    rows = {name.strip(" ()") for row in contract["layers"] for name in re.split(r"[|:]", row)}
    places = (ROOT / "draft").iterdir()
    rooms = {f"draft.{p.stem}" for p in places if p.suffix == ".py" or (p / "__init__.py").is_file()}
    assert rooms - OUTSIDE == rows
