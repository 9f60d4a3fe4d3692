"""Reading a text file that a person wrote, or saying in one line why it cannot be read."""

from __future__ import annotations

import os
import stat
import unicodedata
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import BinaryIO

from draft.base.disk import files_in, words_of
from draft.base.notes import Note, Problems, Source, error

LARGEST = 1_000_000
"""Bytes. The largest chart imaginable is a hundredth of this; a larger file was named by mistake."""


def read_source(path: Path, what: str) -> Source:
    """The text of a file with plain line ends and without a byte order mark; `what` names it in messages.

    Raises Problems if it is missing, not a readable file, over `LARGEST` bytes, not UTF-8, or not plain text.
    """
    return source_of(read_data(path, what), str(path), what, path.name)


def source_of(data: bytes, whole: str, what: str, name: str) -> Source:
    """The text of a file's bytes, as `read_source` reads it; `whole` names the file in messages about its bytes.

    Raises Problems if they are over `LARGEST`, not UTF-8, or not plain text.
    """
    _stop_if_too_large(len(data) > LARGEST, whole, what)
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError as reason:
        line = data[: reason.start].count(b"\n") + 1
        hint = "save it again as UTF-8 (in a spreadsheet: CSV UTF-8)"
        raise Problems([error(f"line {line} of `{whole}` is not UTF-8 text", None, hint)]) from None
    text = text.replace("\r\n", "\n").replace("\r", "\n")
    odd = next((k for k, c in enumerate(text) if c not in "\n\t" and unicodedata.category(c) == "Cc"), None)
    if odd is not None:
        line = text[:odd].count("\n") + 1
        raise Problems([error(f"line {line} of `{whole}` holds a control character: it is not plain text")])
    return Source(name, text)


def read_data(path: Path, what: str) -> bytes:
    """The bytes of a file. Raises `Problems` if it cannot be read, or is over `LARGEST`, which is asked for before."""
    with open_file(path, what) as file:
        large = os.fstat(file.fileno()).st_size > LARGEST
        data = b"" if large else file.read(LARGEST + 1)
        _stop_if_too_large(large or len(data) > LARGEST, str(path), what)
        return data


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


def _opened(path: Path, what: str) -> BinaryIO:
    try:
        return open(path, "rb", opener=_without_waiting)
    except FileNotFoundError:
        raise Problems([_absent(path, what)]) from None
    except (OSError, ValueError) as reason:
        raise Problems([error(f"`{path}` cannot be read: {words_of(reason)}")]) from None


def _without_waiting(name: str, flags: int) -> int:
    return os.open(name, flags | getattr(os, "O_NONBLOCK", 0))


def _stop_if_too_large(large: bool, whole: str, what: str) -> None:
    if large:
        raise Problems([error(f"`{whole}` is over 1 MB, too large for a {what}")])


def _absent(path: Path, what: str) -> Note:
    there = [file.name for file in files_in(path.parent, path.suffix)]
    hints = (f"choose from {', '.join(there[:12])}",) if there else ()
    return error(f"there is no {what} `{path}`", None, *hints)
