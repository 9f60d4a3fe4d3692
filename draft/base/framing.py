"""Messages between a program and its workers: JSON, and files beside it, each with its length before it."""

from __future__ import annotations

import json
import struct
from typing import Any

HEAD = struct.Struct(">cI")
"""Before each message: `J` for JSON or `F` for a file, and the length of what follows."""
LARGEST = 200_000_000
"""Bytes of one message: more than any file of a pack."""

Message = dict[str, Any]


def message(said: Message) -> bytes:
    """A message as it is sent."""
    data = json.dumps(said, ensure_ascii=False, separators=(",", ":")).encode("utf-8", "replace")
    return HEAD.pack(b"J", len(data)) + data


def file_message(name: str, data: bytes) -> bytes:
    """A file as it is sent: its name, a line's end, its bytes."""
    whole = name.encode() + b"\n" + data
    return HEAD.pack(b"F", len(whole)) + whole


def opened(sort: bytes, data: bytes) -> Message | tuple[str, bytes]:
    """What a message of such a sort holds. Raises ValueError for what is none."""
    if sort == b"F":
        name, _, rest = data.partition(b"\n")
        return name.decode(), rest
    said = json.loads(data)
    if sort != b"J" or not isinstance(said, dict):
        raise ValueError("this is no message")
    return said
