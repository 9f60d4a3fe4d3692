"""Dask's scheduler and its workers as processes of their own, started as whoever runs them does."""

from __future__ import annotations

import os
import socket
import subprocess
import sys
import time
from pathlib import Path


def free_port() -> int:
    """A port that nobody listens on."""
    with socket.socket() as found:
        found.bind(("127.0.0.1", 0))
        return int(found.getsockname()[1])


class Cluster:
    """A scheduler on a port that stays, and workers that come and go."""

    def __init__(self, folder: Path) -> None:
        self.folder, self.port = folder, free_port()
        self.address = f"tcp://127.0.0.1:{self.port}"
        self.workers: list[subprocess.Popen[bytes]] = []
        self.scheduler = self._scheduler()

    def _scheduler(self) -> subprocess.Popen[bytes]:
        process = self._started("scheduler", "--host", "127.0.0.1", "--port", str(self.port), "--no-dashboard")
        until = time.monotonic() + 60
        while time.monotonic() < until:
            with socket.socket() as asked:
                if asked.connect_ex(("127.0.0.1", self.port)) == 0:
                    return process
            time.sleep(0.1)
        raise TimeoutError("the scheduler does not listen")

    def _started(self, *words: str) -> subprocess.Popen[bytes]:
        with (self.folder / "log.txt").open("ab") as log:
            return subprocess.Popen(
                [sys.executable, "-m", "dask", *words], stdout=log, stderr=log, cwd=self.folder,
                env={**os.environ, "PYTHONPATH": os.pathsep.join(path for path in sys.path if path)},
            )  # fmt: skip

    def join(self) -> None:
        """One more worker."""
        words = ("--nthreads", "1", "--no-nanny", "--no-dashboard", "--local-directory", str(self.folder))
        self.workers.append(self._started("worker", self.address, *words))

    def kill_worker(self) -> None:
        """End the worker that is there longest, at once."""
        self.workers.pop(0).kill()

    def restart(self) -> None:
        """End the scheduler at once, and start another in its place: it knows nothing of what was asked."""
        self.scheduler.kill()
        self.scheduler.wait()
        self.scheduler = self._scheduler()

    def close(self) -> None:
        """End all of it."""
        for process in (*self.workers, self.scheduler):
            process.kill()
            process.wait()

    @property
    def log(self) -> str:
        """All that they have written."""
        return (self.folder / "log.txt").read_text(errors="replace")
