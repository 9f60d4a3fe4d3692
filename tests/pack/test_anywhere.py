"""A pack is the same, byte for byte, on a system that cannot fork and of files with the line ends of another system."""

from __future__ import annotations

import shutil
from pathlib import Path
from types import SimpleNamespace

import pytest

from draft.base import aside
from draft.drafting.checked import draft_and_check
from draft.drafting.request import Request, Whom
from draft.pack.pack import pack_files
from draft.pack.paper_request import PaperRequest
from tests.project.checkout import ROOT

PAPER = PaperRequest(pages=("letter", "a5"), large=("a0",))


def packed(pattern: str) -> dict[str, bytes]:
    return pack_files(draft_and_check(Request(pattern, Whom(sizes=("M",))), whole=True), PAPER)


@pytest.fixture(scope="module")
def here() -> dict[str, bytes]:
    return packed("ropewalk")


@pytest.mark.parametrize("system", ["win32", "darwin"])
def test_without_fork(system: str, here: dict[str, bytes], monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(aside, "sys", SimpleNamespace(platform=system))
    assert packed("ropewalk") == here


def test_with_carriage_returns_and_a_byte_order_mark(here: dict[str, bytes], tmp_path: Path) -> None:
    shutil.copytree(ROOT / "pieces", tmp_path, dirs_exist_ok=True)
    for path in (*tmp_path.glob("*.piece"), *tmp_path.glob("*.csv"), *tmp_path.glob("*.toml")):
        path.write_bytes(b"\xef\xbb\xbf" + path.read_bytes().replace(b"\n", b"\r\n"))
    assert packed(str(tmp_path / "ropewalk.piece")) == here
