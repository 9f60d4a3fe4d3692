"""Asking the disk about a path that anyone may have written, where no answer is an answer too.

A path's own methods raise for a name that is too long, holds a NUL, or stands in a folder that may not be read. A path
may lead into an envelope, whose files are asked about as those of a folder are.
"""

from __future__ import annotations

import os
from pathlib import Path

from draft.base.envelope import held, is_envelope, opened, within
from draft.base.opening import is_plain, plain_files


def is_there(path: Path) -> bool:
    """Whether anything is at the path: also what may not be looked at, so that reading it says why."""
    if within(path):
        return is_file(path)
    try:
        path.lstat()
    except PermissionError:
        return True
    except (OSError, ValueError):
        return False
    return True


def is_file(path: Path) -> bool:
    """Whether a plain file is at the path, or a link to one; raises `Problems` within an envelope that is not safe."""
    return held(path) is not None if within(path) else is_plain(path)


def is_folder(path: Path) -> bool:
    """Whether a folder is at the path, or a link to one."""
    return os.path.isdir(path)  # noqa: PTH112 - a path's own method raises


def is_beside(path: Path, folder: Path) -> bool:
    """Whether a plain file is at the path, and truly in the folder and not behind a link to another."""
    try:
        if within(path):
            return path.parent == folder and is_file(path)
        return is_file(path) and path.resolve().parent == folder.resolve()
    except OSError:
        return False


def files_in(folder: Path, ending: str) -> list[Path]:
    """The files of a folder with such an ending, in the order of their names; none where it may not be read."""
    if is_envelope(folder):
        return [folder / name for name in opened(folder).files if name.endswith(ending)]
    return plain_files(folder, ending)
