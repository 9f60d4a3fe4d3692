"""One run at a time where two would write into one place, and what runs that were killed left there is taken away.

The system holds these locks for as long as a process lives: none is left behind, however it ends.
"""

from __future__ import annotations

import hashlib
import os
import shutil
import stat
import tempfile
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress
from pathlib import Path

from draft.base.lock import TakenError, hold
from draft.base.notes import Problems, error

WAIT = 20.0
"""Seconds: writing a pack takes far less than one."""
PREFIX = ".plainseam-"
MARK = "at-work"
"""The file in a folder of ours that its process keeps locked."""


@contextmanager
def alone(folder: Path, wait: float = WAIT) -> Iterator[None]:
    """While this lasts no other run of this user writes into the folder, which need not be there yet.

    Raises `Problems` where another does not end so soon. Where the system has no such locks, nobody is waited for.
    """
    let_go = None
    with suppress(OSError):
        try:
            let_go = hold(_lock_file(folder), wait)
        except TakenError:
            fix = "wait until it has ended, or choose another folder"
            raise Problems([error(f"another run is writing into `{folder}`", None, fix)]) from None
    try:
        yield
    finally:
        if let_go:
            let_go()


def _lock_file(folder: Path) -> Path:
    """In this user's own folder among the system's temporary ones, as nothing is to be left in that of a pack."""
    user = getattr(os, "getuid", lambda: "locks")()
    place = Path(tempfile.gettempdir()) / f"plainseam-{user}"
    place.mkdir(mode=0o700, exist_ok=True)
    found = place.lstat()
    if not stat.S_ISDIR(found.st_mode) or (hasattr(os, "getuid") and found.st_uid != os.getuid()):
        raise PermissionError(f"{place} is somebody else's")
    name = os.path.normcase(os.path.realpath(folder))
    return place / f"{hashlib.sha256(os.fsencode(name)).hexdigest()[:32]}.lock"


@contextmanager
def workplace(folder: Path) -> Iterator[Path]:
    """A new folder in this one, for files that are to be moved from there; it is gone afterwards.

    Those of runs that were killed are taken away first. Raises OSError where none can be made.
    """
    for place in (folder, folder.parent):
        _sweep(place)
    made, let_go = _made(folder)
    try:
        yield made
    finally:
        if let_go:
            let_go()
        shutil.rmtree(made, ignore_errors=True)


def _made(folder: Path) -> tuple[Path, Callable[[], None] | None]:
    for _ in range(3):
        made = Path(tempfile.mkdtemp(prefix=PREFIX, dir=folder))
        try:
            return made, hold(made / MARK, 0)
        except TakenError:
            continue  # another run takes it for one that was left behind, and away
        except OSError:
            return made, None
    raise OSError("it is swept by another run")


def _sweep(folder: Path) -> None:
    """Take away what is surely ours and whose process is no more: it holds its mark no longer."""
    with suppress(OSError):
        for left in [path for path in folder.iterdir() if path.name.startswith(PREFIX)]:
            with suppress(OSError, TakenError):
                if not left.is_symlink() and (left / MARK).is_file():
                    hold(left / MARK, 0)()
                    shutil.rmtree(left, ignore_errors=True)
