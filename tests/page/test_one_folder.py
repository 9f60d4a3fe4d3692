"""plainseam as a folder without a Python round it: its parts are started by its own file, its page ends when left."""

from __future__ import annotations

import asyncio
import os
import subprocess
import sys
from pathlib import Path

import pytest

from draft.base import itself
from draft.page.page_settings import Settings
from draft.page.site import Site


def test_parts_are_started_by_python_or_by_the_folders_own_file(monkeypatch: pytest.MonkeyPatch) -> None:
    assert itself.started_as("draft.page.hand", "{}") == [sys.executable, "-P", "-m", "draft.page.hand", "{}"]
    monkeypatch.setattr(sys, "frozen", True, raising=False)
    assert itself.started_as("draft.page.hand", "{}") == [sys.executable, "--part", "draft.page.hand", "{}"]


def test_a_part_is_one_of_ours(monkeypatch: pytest.MonkeyPatch) -> None:
    for words in (["x"], ["x", "--part"], ["x", "--part", "os"], ["x", "page", "draft.page.hand"]):
        monkeypatch.setattr(sys, "argv", words)
        assert not itself.run_part()


def test_a_page_that_does_not_stay_ends_once_nobody_is_left() -> None:
    async def left(lines: int, lingers: float) -> bool:
        site = Site(Settings(lingers=lingers))
        site.lines = {object() for _ in range(lines)}  # type: ignore[misc]
        site._leave()
        site.made.close()
        return site.left.is_set()

    assert asyncio.run(left(0, 1.0))
    assert not asyncio.run(left(1, 1.0))


@pytest.mark.slow
def test_the_folder_packs_without_any_python(tmp_path: Path) -> None:
    pytest.importorskip("PyInstaller")
    command = [sys.executable, "-m", "draft.page.one_folder", "--out", str(tmp_path)]
    subprocess.run(command, check=True, capture_output=True)
    alone = {"PATH": os.defpath, "HOME": str(tmp_path / "home"), "LANG": "C.UTF-8"}
    words = ["pack", "ropewalk", "--sizes", "M", "--page", "a4", "--out", str(tmp_path / "pack")]
    subprocess.run([str(tmp_path / "plainseam" / "plainseam"), *words], check=True, env=alone, cwd=tmp_path)
    assert (tmp_path / "pack" / "pattern-a4.pdf").read_bytes().startswith(b"%PDF")
