"""Orders killed at fifty moments and gone on with: the folder is that of a run nobody has disturbed, byte for byte.

`pytest tests/benchmarks/test_orders_killed.py -m slow -s` prints how it went.
"""

from __future__ import annotations

import os
import shutil
import signal
import subprocess
import sys
import time
from pathlib import Path

import numpy as np
import pytest

from draft.orders.journal import FILE
from tests.orders.customers import customers
from tests.orders.worked import contents

pytestmark = pytest.mark.slow

KILLS, ORDERS = 50, 40


def _command(table: Path, out: Path) -> list[str]:
    words = ["orders", str(table), "--page", "none", "--cloth", "none", "--out", str(out)]
    return [sys.executable, "-m", "draft", *words]


def test_killed_at_fifty_moments(tmp_path: Path) -> None:
    table = customers(ORDERS, tmp_path / "people.csv", seed=11)
    whole, out = tmp_path / "whole", tmp_path / "out"
    subprocess.run(_command(table, whole), check=False, capture_output=True)
    rng, killed, finished, begun, made = np.random.default_rng(50), 0, 0, time.monotonic(), list[int]()
    while killed < KILLS:
        process = subprocess.Popen(_command(table, out), stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
        if _at_a_moment(process, out / FILE, rng):
            os.kill(process.pid, signal.SIGKILL)
            killed += 1
            process.wait()
            made.append(_whole_packs(out, whole))
        else:
            finished += 1  # it came to its end before its time: some packs are to be made again
            _spoil(out, rng)
    done = subprocess.run(_command(table, out), check=False, capture_output=True, text=True)
    found, wanted = contents(out), contents(whole)
    print(f"\n{ORDERS} orders, {killed} kills, {finished} runs that came to their end between them, "
          f"packs in their places after the kills: {made}, "
          f"{len(wanted)} files and folders, {time.monotonic() - begun:.0f} s; {done.stdout.strip()}")  # fmt: skip
    assert found == wanted


def _at_a_moment(process: subprocess.Popen[bytes], journal: Path, rng: np.random.Generator) -> bool:
    """Wait for one: soon after it is started, or somewhere within the next few orders; False where it ended before."""
    soon, lines, more = rng.random() < 0.2, int(rng.integers(1, 4)), float(rng.uniform(0, 1.5))
    begun, before = time.monotonic(), _lines(journal)
    while not soon and _lines(journal) < before + lines and process.poll() is None:
        time.sleep(0.002)
    until = (begun if soon else time.monotonic()) + more
    while time.monotonic() < until and process.poll() is None:
        time.sleep(0.002)
    return process.poll() is None


def _lines(journal: Path) -> int:
    return journal.read_bytes().count(b"\n") if journal.exists() else 0


def _whole_packs(out: Path, whole: Path) -> int:
    """Every pack that is in its place after a kill is there whole."""
    packs = [path for path in out.iterdir() if path.is_dir() and not path.name.startswith(".")] if out.exists() else []
    for pack in packs:
        assert contents(pack) == contents(whole / pack.name)
    return len(packs)


def _spoil(out: Path, rng: np.random.Generator) -> None:
    """Take a third of the packs away."""
    for pack in sorted(path for path in out.iterdir() if path.is_dir()):
        if rng.random() < 1 / 3:
            shutil.rmtree(pack)
