"""Making a text small that still does what a long one did."""

from __future__ import annotations

from collections.abc import Callable


def shrunk(data: bytes, still: Callable[[bytes], bool], tries: int = 150) -> bytes:
    """The fewest lines that are found in so many tries: halves are left out first, then quarters, and so on."""
    lines = data.split(b"\n")
    size = max(1, len(lines) // 2)
    while tries > 0:
        at, before = 0, len(lines)
        while at < len(lines) and tries > 0:
            fewer = lines[:at] + lines[at + size :]
            tries -= 1
            if still(b"\n".join(fewer)):
                lines = fewer
            else:
                at += size
        if size == 1 and len(lines) == before:
            break
        size = max(1, size // 2)
    return b"\n".join(lines)
