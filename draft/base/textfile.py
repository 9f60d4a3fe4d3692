"""Reading a text file that a person wrote, or saying in one line why it cannot be read."""

from __future__ import annotations

import os
import unicodedata
from pathlib import Path

from draft.base.disk import files_in
from draft.base.envelope import held, is_envelope, within
from draft.base.notes import Problems, Source, error
from draft.base.opening import absent, open_file, read_at_most

LARGEST = 1_000_000
"""Bytes. The largest chart imaginable is a hundredth of this; a larger file was named by mistake."""


def read_source(path: Path, what: str) -> Source:
    """The text of a file with plain line ends and without a byte order mark; `what` names it in messages.

    Raises Problems if it is missing, not a readable file, over `LARGEST` bytes, not UTF-8, or not plain text.
    """
    around = within(path)
    return source_of(read_data(path, what), str(path), what, path.name, around.name if around else "")


def source_of(data: bytes, whole: str, what: str, name: str, inside: str = "") -> Source:
    """The text of a file's bytes, as `read_source` reads it; `whole` names the file in messages about its bytes.

    `inside` is the name of the envelope that it lies in.

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
    return Source(name, text, inside)


def read_data(path: Path, what: str) -> bytes:
    """The bytes of a file. Raises `Problems` if it cannot be read, or is over `LARGEST`, which is asked for before."""
    if within(path):
        data = held(path)
        if data is None:
            raise Problems([absent(path, what, files_in(path.parent, path.suffix))])
        return data
    if is_envelope(path):
        fix = f"name a file in it, as in `{path / 'NAME'}`, or look at it with `plainseam envelope {path}`"
        raise Problems([error(f"`{path}` is an envelope and no {what}", None, fix)])
    with open_file(path, what) as file:
        large = os.fstat(file.fileno()).st_size > LARGEST
        data = b"" if large else read_at_most(file, LARGEST)
        _stop_if_too_large(large or len(data) > LARGEST, str(path), what)
        return data


def _stop_if_too_large(large: bool, whole: str, what: str) -> None:
    if large:
        raise Problems([error(f"`{whole}` is over 1 MB, too large for a {what}")])
