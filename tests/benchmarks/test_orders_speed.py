"""How many orders a machine makes: one worker, two, and a cluster of two processes of its own, side by side.

`pytest tests/benchmarks/test_orders_speed.py -m slow -s` prints it for 60 orders, `PLAINSEAM_ORDERS=1000` before it for
a thousand, `PLAINSEAM_WAYS=two` for one of the ways. No time is asserted. Where others use the machine too the clock
tells little: then the processors' time counts, and what two free cores would take follows from it.
"""

from __future__ import annotations

import os
import resource
import subprocess
import sys
import time
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

import pytest

from tests.orders.customers import customers
from tests.orders.worked import contents

pytestmark = pytest.mark.slow

COUNT = int(os.environ.get("PLAINSEAM_ORDERS", "60"))
WAYS = {"one worker": ("--workers", "1"), "two workers": ("--workers", "2"),
        "a cluster of two": ("--scheduler", "local", "--workers", "2")}  # fmt: skip
DAY = 86_400
WIRE = 110e6
"""Bytes a second over a cable of a gigabit."""


@dataclass(frozen=True)
class Took:
    """What one way took: by the clock, of all processors, of the process that writes; the most memory of one, MB."""

    clock: float
    processors: float
    writer: float
    memory: float


def test_orders_of_mixed_bodies_and_styles(tmp_path: Path) -> None:
    table = customers(COUNT, tmp_path / "people.csv", seed=5)
    took: dict[str, Took] = {}
    folders = []
    asked = os.environ.get("PLAINSEAM_WAYS", "")
    for way, words in WAYS.items():
        if asked in way:
            folders.append(tmp_path / way.replace(" ", "-"))
            took[way] = _took(lambda out=folders[-1], words=words: _made(table, out, words))
    whole = contents(folders[0])
    assert all(contents(folder) == whole for folder in folders[1:])
    size = sum(map(len, whole.values()))
    print(f"\n{COUNT} orders, one paper, booklet and cloth: {size / COUNT / 1e6:.2f} MB each; "
          f"others were at work: {os.getloadavg()[1]:.1f} processes on {os.cpu_count()} cores")  # fmt: skip
    for way, one in took.items():
        print(f"{way:18} {one.clock:7.1f} s by the clock, {one.processors:7.1f} s of processors "
              f"({one.processors / COUNT:.2f} an order, {one.writer / COUNT * 1000:.0f} ms of them by the writer), "
              f"{one.memory:.0f} MB in the largest process")  # fmt: skip
    if len(took) == len(WAYS):
        _on_paper(*took.values(), size / COUNT)


def _on_paper(one: Took, two: Took, cluster: Took, size: float) -> None:
    alone, both, far = one.processors, two.processors, cluster.processors
    print(
        f"two free cores: {alone / (both / 2):.2f} x one by workers of its own, {alone / (far / 2):.2f} x by a cluster"
    )
    for cores in (2, 8, 16):
        print(f"orders a day on {cores} cores: {cores * DAY / (both / COUNT):,.0f}")
    writer = max(cluster.writer, 1e-3) / COUNT
    rate = min(1 / writer, WIRE / size)
    print(f"one writer keeps up with {rate:.0f} orders a second, {rate * far / COUNT:.0f} cores of a cluster; "
          f"an hour's orders of one machine of 8 cores: {8 * 3600 / (both / COUNT):,.0f}")  # fmt: skip


def _took(work: Callable[[], float]) -> Took:
    before, begun = resource.getrusage(resource.RUSAGE_CHILDREN), time.monotonic()
    writer = work()
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    spent = after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime
    return Took(time.monotonic() - begun, spent, writer, after.ru_maxrss / 1024)


_TIMED = """
import resource, sys
from draft.command.main import main
try:
    code = main()
finally:
    spent = resource.getrusage(resource.RUSAGE_SELF)
    print("writer", spent.ru_utime + spent.ru_stime, file=sys.stderr)
sys.exit(code)
"""


def _made(table: Path, out: Path, words: tuple[str, ...]) -> float:
    """Make the orders; gives the processor's time of the process that writes them, its start among it."""
    place = out.parent / "timed.py"
    place.write_text(f"if __name__ == '__main__':\n{_indented(_TIMED)}")
    command = [sys.executable, str(place), "orders", str(table), "--page", "a4", "--out", str(out), *words]
    done = subprocess.run(command, capture_output=True, text=True, check=False)
    assert "orders are made" in done.stdout, done.stderr
    return float(done.stderr.rpartition("writer")[2])


def _indented(text: str) -> str:
    return "".join(f"    {line}\n" for line in text.strip().splitlines())
