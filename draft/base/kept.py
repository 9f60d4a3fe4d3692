"""What is worked out once and kept for the next start, in the user's own folder for such things.

Nothing kept is trusted further than it proves itself: it is plain bytes with the key of what it was made from and a
checksum, in a file that nobody else can write. Whatever is missing, half written, of another version or another's is
as if it were not there, and where nothing can be kept the work is done anew each time.
"""

from __future__ import annotations

import hashlib
import os
import stat
import tempfile
from contextlib import suppress
from pathlib import Path

_OTHERS_WRITE = stat.S_IWGRP | stat.S_IWOTH
_AT_MOST = 8
"""Files of one name, for so many versions side by side."""


def sealed(key: str, data: bytes) -> bytes:
    """Data with a first line that says what they were made from and that they are whole."""
    return f"{key} {hashlib.sha256(data).hexdigest()}\n".encode() + data


def unsealed(key: str, kept: bytes) -> bytes | None:
    """The data, or None where they were made from something else or are not whole."""
    line, _, data = kept.partition(b"\n")
    return data if line == sealed(key, data).partition(b"\n")[0] else None


def recalled(name: str, key: str) -> bytes | None:
    """What was kept under a name and key; None where there is nothing that can be relied on."""
    try:
        with _place(name, key).open("rb") as file:
            return unsealed(key, file.read()) if _is_ours(os.fstat(file.fileno())) else None
    except (OSError, RuntimeError):
        return None


def keep(name: str, key: str, data: bytes, at_most: int = _AT_MOST) -> None:
    """Keep data for later starts, if there is a folder for it; of more than `at_most` the oldest make room."""
    with suppress(OSError, RuntimeError):
        place = _place(name, key)
        place.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
        _write(place, sealed(key, data))
        found = sorted(place.parent.glob(f"{name}-*"), key=lambda path: path.stat().st_mtime, reverse=True)
        for old in found[at_most:]:
            old.unlink()


def _place(name: str, key: str) -> Path:
    """Raises RuntimeError where the user has no home."""
    import platformdirs

    return platformdirs.user_cache_path("plainseam", appauthor=False) / f"{name}-{key[:20]}"


def _write(place: Path, data: bytes) -> None:
    """Beside its place, then moved there, readable and writable by the user alone."""
    handle, beside = tempfile.mkstemp(prefix=".kept-", dir=place.parent)
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(data)
        Path(beside).replace(place)
    except BaseException:
        Path(beside).unlink(missing_ok=True)
        raise


def _is_ours(found: os.stat_result) -> bool:
    """Whether only this user, or the system's, can have written a file; where files have no owners, any user's is."""
    if not hasattr(os, "geteuid"):
        return True
    return stat.S_ISREG(found.st_mode) and found.st_uid in (0, os.geteuid()) and not found.st_mode & _OTHERS_WRITE
