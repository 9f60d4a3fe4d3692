"""Asking the disk about a path that anyone may have written, where no answer is an answer too.

A path's own methods raise for a name that is too long, holds a NUL, or stands in a folder that may not be read.
"""

from __future__ import annotations

import os
from pathlib import Path


def is_there(path: Path) -> bool:
    """Whether anything is at the path: also what may not be looked at, so that reading it says why."""
    try:
        path.lstat()
    except PermissionError:
        return True
    except (OSError, ValueError):
        return False
    return True


def is_file(path: Path) -> bool:
    """Whether a plain file is at the path, or a link to one."""
    return os.path.isfile(path)  # noqa: PTH113 - a path's own method raises


def is_folder(path: Path) -> bool:
    """Whether a folder is at the path, or a link to one."""
    return os.path.isdir(path)  # noqa: PTH112 - a path's own method raises


def is_beside(path: Path, folder: Path) -> bool:
    """Whether a plain file is at the path, and truly in the folder and not behind a link to another."""
    try:
        return is_file(path) and path.resolve().parent == folder.resolve()
    except OSError:
        return False


def files_in(folder: Path, ending: str) -> list[Path]:
    """The files of a folder with such an ending, in the order of their names; none where it may not be read."""
    try:
        return sorted(path for path in folder.iterdir() if path.suffix == ending and is_file(path))
    except (OSError, ValueError):
        return []


def words_of(reason: OSError | ValueError) -> str:
    """What a system says of a path, as messages end with it; a ValueError is of a name that no system takes."""
    said = getattr(reason, "strerror", None)
    return str(said).lower() if said else "no file can have such a name"
