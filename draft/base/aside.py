"""Work that is begun at once on another core, and fetched once it is needed."""

from __future__ import annotations

import itertools
import multiprocessing
import os
import signal
import sys
import threading
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress
from itertools import islice
from multiprocessing.connection import Connection
from multiprocessing.process import BaseProcess
from pickle import PickleError
from typing import TypeVar

from draft.base.notes import Problems

T = TypeVar("T")


_here = False


def in_this_process() -> None:
    """From now on nothing is begun beside this process: it is one of several that have a core each."""
    global _here
    _here = True


_GIVES_WAY = 10
"""What is needed last gives way to what others wait for, by so much of the system's niceness."""


_ROOM = 1 << 20
"""So many bytes may wait to be fetched while the other process goes on: what Linux gives everybody (from memory)."""


def aside(work: Callable[[], T], last: bool = False) -> Callable[[], T]:
    """Begin `work` beside this process where that can be had; the function returned waits for what it gives.

    `work` takes nothing, changes nothing and gives something that can be pickled. Problems that it raises are raised
    where the result is fetched. Where the system cannot fork, has one core, `in_this_process` was called, or this is a
    process of a pool, which may have no others, it is done then. What is fetched `last` gives way to the rest.
    """

    def once() -> Iterator[T]:
        yield work()

    each = each_aside(once, last)

    def fetch() -> T:
        (found,) = each
        return found

    return fetch


def each_aside(work: Callable[[], Iterator[T]], last: bool = False) -> Iterator[T]:
    """The same of several things that `work` gives one after the other: it goes on while the first are fetched."""
    begun = _begun(work, last)
    return _fetched(work, *begun) if begun else work()


def _begun(work: Callable[[], Iterator[object]], last: bool) -> tuple[BaseProcess, Connection] | None:
    """Another process that has begun the work, and where it is heard; None where there can be none."""
    if _here or sys.platform != "linux" or (os.cpu_count() or 1) < 2 or multiprocessing.current_process().daemon:
        return None
    import fcntl

    context = multiprocessing.get_context("fork")
    receive, send = context.Pipe(duplex=False)
    with suppress(OSError):  # where a user has too many of these it waits sooner
        fcntl.fcntl(send.fileno(), fcntl.F_SETPIPE_SZ, _ROOM)
    process = context.Process(target=_run, args=(work, send, last), daemon=True)
    try:
        with _uninterrupted():
            process.start()
    except OSError:  # no more processes, or no more memory
        return None
    send.close()
    return process, receive


def _fetched(work: Callable[[], Iterator[T]], process: BaseProcess, receive: Connection) -> Iterator[T]:
    for count in itertools.count():
        try:
            found = receive.recv()
        except (EOFError, OSError, PickleError):  # the other process was ended from outside
            yield from islice(work(), count, None)
            return
        if found is None:
            process.join()
            return
        result, notes = found
        if notes is not None:
            process.join()
            raise Problems(notes)
        yield result


def _run(work: Callable[[], Iterator[object]], send: Connection, last: bool) -> None:
    """The other process: it does its work, sends it and is gone, and never says a word of its own."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)  # the keyboard's interrupt is our parent's to answer
    threading.Thread(target=_end_with_parent, daemon=True).start()
    if last:
        os.nice(_GIVES_WAY)
    try:
        try:
            for result in work():
                send.send((result, None))
            send.send(None)
        except Problems as problems:
            send.send((None, problems.notes))
    except BaseException:
        os._exit(1)  # what was raised is raised again where the work is done once more


def _end_with_parent() -> None:
    parent = multiprocessing.parent_process()
    if parent:
        parent.join()
        os._exit(1)


@contextmanager
def _uninterrupted() -> Iterator[None]:
    """While this lasts the keyboard's interrupt waits, so that it finds no process that has not shut its ears yet."""
    before = signal.pthread_sigmask(signal.SIG_BLOCK, {signal.SIGINT})
    try:
        yield
    finally:
        signal.pthread_sigmask(signal.SIG_SETMASK, before)
