"""Where the machine has no libcairo, everything works but drawing a designer's own pictures."""

from __future__ import annotations

import sys
from collections.abc import Sequence
from importlib.abc import MetaPathFinder
from importlib.machinery import ModuleSpec
from pathlib import Path

import pytest

from tests.command.run import Runner


class _NoCairo(MetaPathFinder):
    """What importing it gives where the library itself is not installed."""

    def find_spec(self, fullname: str, path: Sequence[str] | None, target: object = None) -> ModuleSpec | None:
        if fullname.partition(".")[0] in ("cairosvg", "cairocffi"):
            raise OSError('no library called "cairo-2" was found')
        return None


@pytest.fixture
def no_cairo(monkeypatch: pytest.MonkeyPatch) -> None:
    for name in [name for name in sys.modules if name.partition(".")[0] in ("cairosvg", "cairocffi")]:
        monkeypatch.delitem(sys.modules, name)
    monkeypatch.setattr(sys, "meta_path", [_NoCairo(), *sys.meta_path])


@pytest.mark.usefixtures("no_cairo")
def test_drawing_and_walking_need_no_cairo(run: Runner, tmp_path: Path) -> None:
    assert run("walk", "marlpit", "--sizes", "M").code == 0
    assert run("draft", "marlpit", "--sizes", "M", "--out", tmp_path).code == 0
    assert (tmp_path / "svg" / "M.svg").exists()


@pytest.mark.usefixtures("no_cairo")
def test_packing_needs_no_cairo(run: Runner, tmp_path: Path) -> None:
    assert run("pack", "marlpit", "--sizes", "M", "--out", tmp_path).code == 0
    assert (tmp_path / "pattern-letter.pdf").read_bytes().startswith(b"%PDF-")
    assert (tmp_path / "booklet.pdf").exists()
