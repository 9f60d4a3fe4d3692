"""A page that is served for tests, and a browser to look at it with: Debian's Chromium, where it is installed."""

from __future__ import annotations

import os
import re
import shutil
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

CHROMIUM = shutil.which("chromium")
QUIETLY = (
    "--no-sandbox", "--disable-gpu", "--disable-background-networking", "--disable-component-update", "--disable-sync",
    "--no-first-run", "--disable-quic",
)  # fmt: skip


def page_started(home: Path, *words: str) -> tuple[subprocess.Popen[str], str]:
    """A page as the command starts it, with its own home; and the address that it says."""
    env = dict(os.environ, XDG_STATE_HOME=str(home / "state"), XDG_DATA_HOME=str(home / "data"))
    command = [sys.executable, "-m", "draft", "page", *words, "--no-open", "--port", "0"]
    process = subprocess.Popen(command, stdout=subprocess.PIPE, text=True, env=env)
    assert process.stdout
    found = re.search(r"http\S+", process.stdout.readline())
    assert found, "the page says no address"
    return process, found[0]


@pytest.fixture(scope="session")
def served(tmp_path_factory: pytest.TempPathFactory) -> Iterator[str]:
    """The address of a page, with its key."""
    process, address = page_started(tmp_path_factory.mktemp("home"))
    yield address
    process.terminate()
    process.wait(20)


@pytest.fixture(scope="module")
def browser() -> Iterator[Any]:
    """Chromium without a window; its driver keeps a loop of its own running, so it ends with its file's tests."""
    playwright = pytest.importorskip("playwright.sync_api")
    if CHROMIUM is None:
        pytest.skip("Chromium is not installed")
    with playwright.sync_playwright() as driver:
        opened = driver.chromium.launch(executable_path=CHROMIUM, args=list(QUIETLY))
        yield opened
        opened.close()
