"""A process beside the server that drafts what is open, so that no keystroke waits for it.

It is started anew, not forked: the server's threads hold locks that a fork would never open again. One that takes too
long is ended, and the next text has another.
"""

from __future__ import annotations

import multiprocessing
import threading
from contextlib import suppress
from multiprocessing.connection import Connection
from multiprocessing.context import SpawnProcess

from draft.base.notes import Note
from draft.editor.drafted_notes import Asked, notes_on
from draft.editor.shelf import Shelf

SECONDS = 30
"""By the clock: a pattern that takes longer is not for an editor to draft."""
MEMORY = 2_000_000_000
"""Bytes, all of the process."""


class Drafter:
    """Drafts one text after another."""

    def __init__(self) -> None:
        self._lock = threading.Lock()
        self._process: SpawnProcess | None = None
        self._line: Connection | None = None

    def notes(self, asked: Asked) -> tuple[Note, ...]:
        """The notes that drafting adds, once they are there; none where it takes too long."""
        with self._lock:
            try:
                line = self._begun()
                line.send(asked)
                if line.poll(SECONDS):
                    return line.recv()  # type: ignore[no-any-return]
            except (EOFError, OSError):  # it has come to its limits
                pass
            self.end()
            return ()

    def _begun(self) -> Connection:
        if self._line is None:
            context = multiprocessing.get_context("spawn")
            self._line, theirs = context.Pipe()
            self._process = context.Process(target=_work, args=(theirs,), daemon=True)
            self._process.start()
            theirs.close()
        return self._line

    def end(self) -> None:
        """End the process."""
        if self._line:
            self._line.close()
        if self._process:
            self._process.kill()
            self._process.join()
        self._line = self._process = None


def _work(line: Connection) -> None:
    """The process: it ends with the one that asks it."""
    with suppress(ImportError, ValueError, OSError):
        import resource

        resource.setrlimit(resource.RLIMIT_AS, (MEMORY, MEMORY))
    with suppress(ImportError, OSError, AttributeError):
        import os

        os.nice(5)  # what is typed comes first
    shelf = Shelf()
    while True:
        try:
            line.send(notes_on(line.recv(), shelf))
        except (EOFError, OSError, KeyboardInterrupt):
            return
