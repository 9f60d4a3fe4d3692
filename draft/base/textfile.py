"""Reading a text file that a person wrote, or saying in one line why it cannot be read."""

from __future__ import annotations

import unicodedata
from pathlib import Path

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
    if len(data) > LARGEST:
        raise Problems([error(f"`{whole}` is over 1 MB, too large for a {what}")])
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
    """The bytes of a file, at most one over `LARGEST`. Raises `Problems` if it cannot be read."""
    try:
        with path.open("rb") as file:
            return file.read(LARGEST + 1)
    except FileNotFoundError:
        raise Problems([_absent(path, what)]) from None
    except (OSError, ValueError) as reason:  # ValueError: a NUL in the path
        words = getattr(reason, "strerror", None) or str(reason)
        raise Problems([error(f"`{path}` cannot be read: {words.lower()}")]) from None


def _absent(path: Path, what: str) -> Note:
    try:
        there = sorted(p.name for p in path.parent.iterdir() if p.suffix == path.suffix and p.is_file())
    except OSError:
        there = []
    hints = (f"choose from {', '.join(there[:12])}",) if there else ()
    return error(f"there is no {what} `{path}`", None, *hints)
