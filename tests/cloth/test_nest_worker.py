"""The general solver's own process ends with whoever asked it."""

from __future__ import annotations

import json
import signal
import subprocess
import sys
import time

import pytest

from draft.cloth import nest

pytest.importorskip("spyrrow")

ASKING = """
import json, os, subprocess, sys
square = [(0.0, 0.0), (100.0, 0.0), (100.0, 100.0), (0.0, 100.0)]
items = [{"id": str(k), "points": square, "count": 9, "turns": [0.0]} for k in range(9)]
question = {"width": 1000.0, "seconds": 300, "seed": 1, "workers": 1, "items": items, "parent": os.getpid()}
worker = subprocess.Popen([sys.executable, sys.argv[1]], stdin=subprocess.PIPE, stdout=subprocess.PIPE)
worker.stdin.write(json.dumps(question).encode())
worker.stdin.close()
worker.stdout.readline()
print(worker.pid, flush=True)
worker.wait()
"""


@pytest.mark.skipif(sys.platform != "linux", reason="the test looks at processes as Linux shows them")
def test_it_ends_with_whoever_asked() -> None:
    with subprocess.Popen(
        [sys.executable, "-c", ASKING, str(nest._WORKER)], stdout=subprocess.PIPE, text=True
    ) as asking:
        assert asking.stdout
        worker = json.loads(asking.stdout.readline())
        assert _is_running(worker)
        asking.send_signal(signal.SIGKILL)
    for _ in range(200):
        if not _is_running(worker):
            return
        time.sleep(0.05)
    raise AssertionError("it works on for nobody")


def _is_running(pid: int) -> bool:
    said = subprocess.run(["ps", "-o", "stat=", "-p", str(pid)], capture_output=True, text=True).stdout.strip()
    return bool(said) and not said.startswith("Z")
