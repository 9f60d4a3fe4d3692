"""Files as one plain zip whose bytes follow from them alone: stored as they are, in their order, without a time.

Nothing is compressed, so that no version of a library can change a byte and nothing small can become large. A zip is
read by the same rules: what is not exactly what would be written, to the last byte, is refused, so that nothing can
hide between its parts, lie over another, or stand in one list and not in the other. Laid out after PKWARE's
APPNOTE.TXT 6.3.10, sections 4.3.7, 4.3.12 and 4.3.16.
"""

from __future__ import annotations

import struct
import zlib
from collections.abc import Mapping

_LOCAL, _CENTRAL, _END = b"PK\x03\x04", b"PK\x01\x02", b"PK\x05\x06"
_VERSION = 20
_UTF8 = 0x0800
_ENCRYPTED = 0x0001 | 0x0040 | 0x2000
_DAY = 0x21
"""The first day that a zip knows of, 1980-01-01."""
_HEAD = struct.Struct("<4s5H3I2H")
_ENTRY = struct.Struct("<4s6H3I5H2I")
_TAIL = struct.Struct("<4s4H2IH")
MOST_FILES = 200


class ZipError(ValueError):
    """Bytes that are no such zip; its message says why, as the end of a sentence about them."""


def zip_bytes(files: Mapping[str, bytes]) -> bytes:
    """The zip of these files, in their order."""
    local: list[bytes] = []
    central: list[bytes] = []
    start = 0
    for name, data in files.items():
        said = name.encode("utf-8")
        shared = (_VERSION, _UTF8, 0, 0, _DAY, zlib.crc32(data), len(data), len(data), len(said), 0)
        local += [_HEAD.pack(_LOCAL, *shared), said, data]
        central += [_ENTRY.pack(_CENTRAL, _VERSION, *shared, 0, 0, 0, 0, start), said]
        start += _HEAD.size + len(said) + len(data)
    listed = b"".join(central)
    tail = _TAIL.pack(_END, 0, 0, len(files), len(files), len(listed), start, 0)
    return b"".join([*local, listed, tail])


def unzipped(data: bytes) -> dict[str, bytes]:
    """The files in a zip that `zip_bytes` wrote. Raises `ZipError` for any other bytes."""
    files: dict[str, bytes] = {}
    at = 0
    while data[at : at + 4] == _LOCAL:
        if len(files) >= MOST_FILES:
            raise ZipError(f"holds more than {MOST_FILES} files")
        name, held, at = _entry(data, at)
        if name in files:
            raise ZipError(f"holds two files called `{name}`")
        files[name] = held
    if not files:
        raise ZipError("is no zip of plainseam's, or is damaged")
    if zip_bytes(files) != data:
        raise ZipError("was packed by another program, or is damaged")
    return files


def _entry(data: bytes, at: int) -> tuple[str, bytes, int]:
    """A file's name, its bytes, and where the next begins."""
    head = data[at : at + _HEAD.size]
    if len(head) < _HEAD.size:
        raise ZipError("ends too soon: a part of it is missing")
    _, _, flags, method, _, _, check, packed, size, long, extra = _HEAD.unpack(head)
    begin = at + _HEAD.size + long
    name = _name(data[at + _HEAD.size : begin])
    if flags & _ENCRYPTED:
        raise ZipError(f"is locked with a password at `{name}`")
    if method or packed != size or flags != _UTF8 or extra:
        raise ZipError("was packed by another program")
    held = data[begin : begin + size]
    if len(held) < size:
        raise ZipError("ends too soon: a part of it is missing")
    if zlib.crc32(held) != check:
        raise ZipError(f"is damaged: `{name}` is not as it was put in")
    return name, held, begin + size


def _name(said: bytes) -> str:
    try:
        return said.decode("utf-8")
    except UnicodeDecodeError:
        raise ZipError("holds a name that is no text") from None
