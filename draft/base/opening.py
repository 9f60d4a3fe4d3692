"""Opening a plain file that somebody named, or saying in one line why it cannot be read: all files are opened here."""

from __future__ import annotations

import os
import stat
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import BinaryIO

from draft.base.notes import Note, Problems, error


@contextmanager
def open_file(path: Path, what: str) -> Iterator[BinaryIO]:
    """A plain file to be read; raises `Problems` where it cannot be, also while it is read.

    Pipes and devices are refused without waiting for them: they may never begin, or never end.
    """
    file = _opened(path, what)
    try:
        with file:
            if not stat.S_ISREG(os.fstat(file.fileno()).st_mode):
                fix = "write what it gives into a file, and give that"
                raise Problems([error(f"`{path}` is a pipe or a device, not a file", None, fix)])
            yield file
    except OSError as reason:
        raise Problems([error(f"`{path}` cannot be read: {words_of(reason)}")]) from None


def read_at_most(file: BinaryIO, most: int) -> bytes:
    """The bytes of an open file, no more than so many and one: that one tells that it is larger.

    Python makes room for all that is asked for, so no more is asked for than there is.
    """
    return file.read(min(os.fstat(file.fileno()).st_size, most) + 1)[: most + 1]


def _opened(path: Path, what: str) -> BinaryIO:
    try:
        return open(path, "rb", opener=_without_waiting)
    except FileNotFoundError:
        raise Problems([absent(path, what, plain_files(path.parent, path.suffix))]) from None
    except (OSError, ValueError) as reason:
        raise Problems([error(f"`{path}` cannot be read: {words_of(reason)}")]) from None


def _without_waiting(name: str, flags: int) -> int:
    return os.open(name, flags | getattr(os, "O_NONBLOCK", 0))


def absent(path: Path, what: str, there: list[Path]) -> Note:
    """That there is no such file, with those that are there."""
    hints = (f"choose from {', '.join(file.name for file in there[:12])}",) if there else ()
    return error(f"there is no {what} `{path}`", None, *hints)


def plain_files(folder: Path, ending: str) -> list[Path]:
    """The files of a folder with such an ending, in the order of their names; none where it may not be read."""
    try:
        return sorted(path for path in folder.iterdir() if path.suffix == ending and is_plain(path))
    except (OSError, ValueError):
        return []


def is_plain(path: Path) -> bool:
    """Whether a plain file is at the path, or a link to one."""
    return os.path.isfile(path)  # noqa: PTH113 - a path's own method raises


def words_of(reason: OSError | ValueError) -> str:
    """What a system says of a path, as messages end with it; a ValueError is of a name that no system takes."""
    said = getattr(reason, "strerror", None)
    return str(said).lower() if said else "no file can have such a name"
