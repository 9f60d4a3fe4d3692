"""Files of somebody else's that bear the name of one of ours: they are not to be written over.

Every document and picture names the program; a table has none to name, and is known by the head of its first column.
"""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

from draft.base.disk import is_file
from draft.base.notes import Problems, error

_OURS = b"plainseam"
_UNNAMED = b"body{margin:0 auto;padding:1rem;max-width:42rem;font:1.06rem/1.55 system-ui,sans-serif;"
"""The first booklets for the screen did not name the program: they are known by how their words are set."""
_MOST = 50_000_000
"""Bytes: nothing of ours is larger."""


def stop_if_foreign(folder: Path, files: Mapping[str, bytes]) -> None:
    """Raises `Problems` for the first file in the folder that would be written over and is none of ours.

    Raises OSError where one cannot be read.
    """
    for name, data in files.items():
        place = folder / name
        if is_file(place) and _is_foreign(place, data):
            fix = "choose another folder with `--out`, or move that file away"
            raise Problems([error(f"`{place}` is there and was not made by plainseam; nothing was changed", None, fix)])


def _is_foreign(place: Path, data: bytes) -> bool:
    size = place.stat().st_size
    if not size:
        return False
    if size > _MOST:
        return True
    old = place.read_bytes()
    ours = _OURS in old.lower() or _UNNAMED in old if _OURS in data.lower() else _head(old) == _head(data)
    return old != data and not ours


def _head(data: bytes) -> bytes:
    """What stands before the first comma or the end of the first line."""
    return data[:200].splitlines()[0].partition(b",")[0]
