"""Workers: each answers one case after another, and is started anew where a case has ended it."""

from __future__ import annotations

import os
import pickle
import select
import shutil
import signal
import subprocess
import sys
import tempfile
import time
from contextlib import suppress
from pathlib import Path
from types import TracebackType

from tests.fuzz.cases import Case, case_of
from tests.fuzz.judging import Fault
from tests.fuzz.worker import MEMORY, SECONDS, Answer
from tests.project.checkout import ROOT

Asked = Case | tuple[str, int]
PATIENCE = 15 * SECONDS
"""By the clock, for a command: it waits for its turn as well."""
LIFE = 2_000
"""So many cases are answered by one process."""


class Worker:
    """One process at a time, with so much processor time for a command, and so much memory; a context that ends it."""

    def __init__(self, seconds: float = SECONDS, memory: int = MEMORY) -> None:
        self._limits = (str(seconds), str(memory))
        self._process: subprocess.Popen[bytes] | None = None
        self._place = Path()
        self._answered = 0

    def __enter__(self) -> Worker:
        return self

    def __exit__(self, *raised: type[BaseException] | BaseException | TracebackType | None) -> None:
        self.end()

    def ask(self, asked: Asked, commands: int = 20) -> Answer:
        """What came of a case; a process that has found something, or has ended, is not asked again."""
        if self._process is None or self._answered >= LIFE:
            self._begin()
        answer = self._asked(asked, commands)
        self._answered += 1
        if answer[0]:
            self.end()
        return answer

    def _begin(self) -> None:
        self.end()
        self._place = Path(tempfile.mkdtemp(prefix="fuzz-"))
        self._answered = 0
        self._process = subprocess.Popen(
            [sys.executable, "-m", "tests.fuzz.worker", str(self._place), *self._limits],
            cwd=ROOT,
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            start_new_session=True,  # so that all that it starts ends with it
        )

    def _asked(self, asked: Asked, commands: int) -> Answer:
        process = self._process
        assert process and process.stdin and process.stdout
        start = time.monotonic()
        try:
            pickle.dump(asked, process.stdin)
            process.stdin.flush()
            while time.monotonic() - start < PATIENCE * commands:
                if select.select([process.stdout], [], [], 0.5)[0]:
                    answer: Answer = pickle.load(process.stdout)
                    return answer
                if process.poll() is not None:
                    break
        except (EOFError, BrokenPipeError):
            pass
        return [self._ended(asked)], [], time.monotonic() - start

    def _ended(self, asked: Asked) -> Fault:
        """Why there is no answer."""
        assert self._process
        try:
            code: int | str = self._process.wait(timeout=1)
        except subprocess.TimeoutExpired:
            code = "none yet"
        words = (self._place / "err").read_text("utf-8", "replace") if (self._place / "err").exists() else ""
        name = signal.Signals(-code).name if isinstance(code, int) and code < 0 else f"exit code {code}"
        now = self._place / "now"
        command = int(now.read_text()) if now.exists() else -1
        case = asked if isinstance(asked, Case) else case_of(*asked)
        return Fault(f"{case.commands[command][0]}: ended by {name}", words[-3000:], command)

    def end(self) -> None:
        """End the process and all that it started, and take its folder away."""
        if self._process is None:
            return
        with suppress(ProcessLookupError):
            os.killpg(self._process.pid, signal.SIGKILL)
        self._process.wait()
        for pipe in (self._process.stdin, self._process.stdout):
            if pipe:
                with suppress(BrokenPipeError):
                    pipe.close()
        self._process = None
        shutil.rmtree(self._place, ignore_errors=True)
