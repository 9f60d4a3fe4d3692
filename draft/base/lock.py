"""A file that one process holds at a time; the system lets go of it however the process ends.

Where the system has `flock` it is asked itself: the library that does so everywhere reads a hundred modules for it,
which takes longer than drafting a size. Elsewhere that library is used.
"""

from __future__ import annotations

import errno
import os
import sys
import time
from collections.abc import Callable
from pathlib import Path

_BETWEEN = 0.05
"""Seconds from one try to the next."""
_IS_HELD = (errno.EACCES, errno.EAGAIN)


class TakenError(Exception):
    """Another process holds the file."""


def hold(file: Path, wait: float) -> Callable[[], None]:
    """Hold a file, which is made if need be; the function returned lets go of it.

    Raises `TakenError` where another process holds it for longer than `wait` seconds, and OSError where there are no
    such locks.
    """
    until = time.monotonic() + wait
    while (let_go := _held(file)) is None:
        if time.monotonic() >= until:
            raise TakenError
        time.sleep(_BETWEEN)
    return let_go


if sys.platform == "win32":

    def _held(file: Path) -> Callable[[], None] | None:
        from filelock import FileLock, Timeout

        lock = FileLock(file, fallback_to_soft=False)  # a soft lock would outlive a process that is killed
        try:
            lock.acquire(timeout=0)
        except Timeout:
            return None
        return lock.release

else:
    import fcntl

    def _held(file: Path) -> Callable[[], None] | None:
        handle = os.open(file, os.O_RDWR | os.O_CREAT | os.O_NOFOLLOW, 0o644)
        try:
            fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)
            if not os.fstat(handle).st_nlink:  # it was taken away before we held it: another may hold a new one
                raise BlockingIOError(errno.EAGAIN, "the file is gone")
        except OSError as reason:
            os.close(handle)
            if reason.errno in _IS_HELD:
                return None
            raise
        return lambda: _let_go(handle)

    def _let_go(handle: int) -> None:
        fcntl.flock(handle, fcntl.LOCK_UN)  # also for processes that have the same handle from us
        os.close(handle)
