"""Work on what a stranger wrote comes to an end, whatever he wrote, and the other items are answered all the same."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest

from draft.base.bounded import Failed, run_each

HERE = "behaved:behaved"


@pytest.fixture(autouse=True)
def found(monkeypatch: pytest.MonkeyPatch) -> None:
    """The function that the other process is to call lies beside this file."""
    monkeypatch.setenv("PYTHONPATH", str(Path(__file__).parent))


POSIX = pytest.mark.skipif(os.name != "posix", reason="a system without such limits")


def test_each_item_has_its_answer_in_its_order() -> None:
    assert run_each(HERE, []) == []
    assert run_each(HERE, [b"a", b"", b"c" * 100_000]) == [b"A", b"", b"C" * 100_000]


@POSIX
def test_an_item_that_does_not_end_has_none_and_its_neighbours_have() -> None:
    items = [b"a", b"endless", b"b", b"greedy", b"wrong", b"broken", b"long", b"c"]
    lost = Failed("")
    assert run_each(HERE, items, seconds=1) == [b"A", lost, b"B", lost, Failed("ValueError"), lost, lost, b"C"]


def test_an_item_that_only_waits_ends_too() -> None:
    assert run_each(HERE, [b"asleep", b"a"], seconds=0.2) == [Failed(""), b"A"]


@POSIX
def test_all_items_together_have_so_much_time_and_what_comes_later_has_no_answer() -> None:
    items = [b"a", b"endless", b"b", b"endless", b"c", b"endless", b"d"]
    lost, late = Failed(""), Failed("", late=True)
    found = run_each(HERE, items, seconds=1, together=1.5)
    assert found == [b"A", lost, b"B", late, late, late, late]
    assert run_each(HERE, items, seconds=1, together=4.5) == [b"A", lost, b"B", lost, b"C", lost, b"D"]
    assert run_each(HERE, items[:1], together=0.0) == [late]


@POSIX
def test_what_items_took_is_counted_even_if_all_end() -> None:
    found = run_each(HERE, [b"busy"] * 6, seconds=5, together=1.0)
    done = found.count(b"BUSY")
    assert 2 <= done <= 3 and found == [b"BUSY"] * done + [Failed("", late=True)] * (6 - done)


@pytest.mark.skipif(sys.platform != "linux", reason="the test lists processes as Linux does")
def test_the_work_ends_with_whoever_asked_for_it() -> None:
    program = f"from draft.base.bounded import run_each; run_each({HERE!r}, [b'asleep'], seconds=500)"
    asking = subprocess.Popen([sys.executable, "-c", program])
    working = _children(asking.pid)
    asking.send_signal(signal.SIGKILL)
    asking.wait()
    assert _gone(working)


def _children(parent: int) -> list[int]:
    """The processes that it has started, once there are some."""
    for _ in range(400):
        found = subprocess.run(["ps", "-o", "pid=", "--ppid", str(parent)], capture_output=True, text=True).stdout
        if found.split():
            return [int(pid) for pid in found.split()]
        time.sleep(0.05)
    raise AssertionError("nothing was started")


def _gone(processes: list[int]) -> bool:
    for _ in range(400):
        alive = [pid for pid in processes if _is_alive(pid)]
        if not alive:
            return True
        time.sleep(0.05)
    return False


def _is_alive(pid: int) -> bool:
    done = subprocess.run(["ps", "-o", "stat=", "-p", str(pid)], capture_output=True, text=True)
    return bool(done.stdout.strip()) and not done.stdout.startswith("Z")
