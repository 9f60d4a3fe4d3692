"""Work that is begun at once on another core, and fetched once it is needed."""

from __future__ import annotations

import multiprocessing
import os
import sys
from collections.abc import Callable
from typing import TypeVar

from draft.base.notes import Problems

T = TypeVar("T")


_GIVES_WAY = 10
"""What is needed last gives way to what others wait for, by so much of the system's niceness."""


def aside(work: Callable[[], T], last: bool = False) -> Callable[[], T]:
    """Begin `work` beside this process where that can be had; the function returned waits for what it gives.

    `work` takes nothing, changes nothing and gives something that can be pickled. Problems that it raises are raised
    where the result is fetched. Where the system cannot fork, or has one core, it is done then. What is fetched `last`
    gives way to the rest.
    """
    if sys.platform != "linux" or (os.cpu_count() or 1) < 2:
        return work
    context = multiprocessing.get_context("fork")
    receive, send = context.Pipe(duplex=False)

    def run() -> None:
        if last:
            os.nice(_GIVES_WAY)
        try:
            send.send((work(), None))
        except Problems as problems:
            send.send((None, problems.notes))

    process = context.Process(target=run, daemon=True)
    process.start()
    send.close()

    def fetch() -> T:
        try:
            result, notes = receive.recv()
        except EOFError:  # the other process was ended from outside
            return work()
        process.join()
        if notes is not None:
            raise Problems(notes)
        return result  # type: ignore[no-any-return]

    return fetch
