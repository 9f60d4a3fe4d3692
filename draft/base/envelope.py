"""An envelope: one file that holds a pattern with all that it uses, and is read as if it were their folder.

Its files are looked at in memory and nothing is ever unpacked: the path of one is the envelope's, and its own name
behind it. It is a plain zip (`base/zipped.py`) whose first file lists the others with their SHA-256, so that whoever
has an archiver can look inside. What comes from a stranger is checked whole before any of it is read.
"""

from __future__ import annotations

import hashlib
import os
import tomllib
from collections.abc import Mapping
from functools import lru_cache
from pathlib import Path

from draft.base.envelope_rules import CONTENTS, alike, wrong_name
from draft.base.notes import Problems, error
from draft.base.opening import is_plain, open_file, read_at_most
from draft.base.record import dataclass
from draft.base.zipped import ZipError, unzipped, zip_bytes

SUFFIX = ".envelope"
LARGEST = 20_000_000
"""Bytes of a whole envelope: a pattern with forty pictures has a tenth."""
LARGEST_FILE = 1_000_000
"""Bytes of a file in it, as of any text that is read."""
_FORMAT = 1
_HEADING = (
    "# A sewing pattern with all that it uses. Put these files side by side into one folder to go on with them.\n"
)
_AGAIN = "ask whoever sent it for another, made with `plainseam envelope PATTERN --out FILE`"


@dataclass(frozen=True)
class Envelope:
    """What is in an envelope: the file that is opened where none is named, and all files by their names."""

    opens: str
    files: Mapping[str, bytes]

    @property
    def digests(self) -> dict[str, str]:
        """The SHA-256 of each file."""
        return {name: hashlib.sha256(data).hexdigest() for name, data in self.files.items()}


def is_envelope(path: Path) -> bool:
    """Whether a path is that of an envelope."""
    return path.suffix == SUFFIX and is_plain(path)


def within(path: Path) -> Path | None:
    """The envelope that a path leads into; None of any other path."""
    return path.parent if is_envelope(path.parent) else None


def opened(path: Path) -> Envelope:
    """The envelope at a path. Raises `Problems` if it cannot be read, or is not safe and whole."""
    with open_file(path, "envelope") as file:
        state = os.fstat(file.fileno())
        return _read(path, state.st_mtime_ns, state.st_size, state.st_ino)


@lru_cache(maxsize=4)
def _read(path: Path, _changed: int, _size: int, _number: int) -> Envelope:
    """An envelope as it lay there in one state: it is asked about many times by one verb."""
    with open_file(path, "envelope") as file:
        data = read_at_most(file, LARGEST)
    try:
        return envelope_of(data)
    except ZipError as reason:
        raise Problems([error(f"`{path}` is not opened: it {reason}", None, _AGAIN)]) from None


def held(path: Path) -> bytes | None:
    """The bytes of a file in an envelope; None where there is none of that name. Raises `Problems` as `opened` does."""
    around = within(path)
    return opened(around).files.get(path.name) if around else None


def envelope_bytes(envelope: Envelope) -> bytes:
    """The envelope as it is written, the same for the same files. Raises `ZipError` for what may not be in it."""
    files = dict(sorted(envelope.files.items()))
    _check(files)
    if envelope.opens not in files:
        raise ZipError(f"holds no `{envelope.opens[:80]}`, which it is to be opened at")
    data = zip_bytes({CONTENTS: _contents(Envelope(envelope.opens, files)), **files})
    if len(data) > LARGEST:
        raise ZipError(f"is over {LARGEST // 1_000_000} MB")
    return data


def envelope_of(data: bytes) -> Envelope:
    """The envelope in these bytes. Raises `ZipError` if they are none, or not exactly as they would be written."""
    if len(data) > LARGEST:
        raise ZipError(f"is over {LARGEST // 1_000_000} MB")
    files = unzipped(data)
    said = files.pop(CONTENTS, None)
    if said is None:
        raise ZipError(f"has no `{CONTENTS}`, so it is no envelope")
    _check(files)
    envelope = Envelope(_opens(said, files), files)
    if _contents(envelope) != said or envelope_bytes(envelope) != data:
        raise ZipError(f"is not what its `{CONTENTS}` says: a file was changed, added or taken away")
    return envelope


def _opens(said: bytes, files: Mapping[str, bytes]) -> str:
    """The file that is opened, as the list says. Raises `ZipError` for a list that is none."""
    try:
        listed = tomllib.loads(said.decode("utf-8"))
    except (ValueError, RecursionError):
        raise ZipError(f"has a `{CONTENTS}` that cannot be read") from None
    if listed.get("envelope") != _FORMAT:
        raise ZipError("is of a newer plainseam, or no envelope")
    opens = listed.get("opens")
    if not isinstance(opens, str) or opens not in files:
        raise ZipError("does not hold the pattern that it is to be opened at")
    return opens


def _check(files: Mapping[str, bytes]) -> None:
    for name, data in files.items():
        if wrong := wrong_name(name):
            raise ZipError(f"holds a file whose name {wrong}: `{name[:80]}`")
        if len(data) > LARGEST_FILE:
            raise ZipError(f"holds a file over 1 MB: `{name}`")
    if two := alike((CONTENTS, *files)):
        raise ZipError(f"holds two files that cannot lie side by side on every system: `{two[0]}` and `{two[1]}`")


def _contents(envelope: Envelope) -> bytes:
    lines = [f"envelope = {_FORMAT}", f"opens = {_quoted(envelope.opens)}", "", "[sha256]"]
    lines += [f'{_quoted(name)} = "{digest}"' for name, digest in envelope.digests.items()]
    return (_HEADING + "\n".join(lines) + "\n").encode()


def _quoted(name: str) -> str:
    """A name as TOML writes it; none of an envelope holds what would have to be escaped."""
    return f'"{name}"'
