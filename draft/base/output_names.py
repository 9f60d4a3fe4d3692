"""What output files are called: names that every file system takes, whatever sizes and people are called.

One system refuses signs, a blank or a point at the end, and the names of its devices; several know no case of letters;
none takes more than 255 bytes.
"""

from __future__ import annotations

import unicodedata
from collections.abc import Sequence

_DEVICES = {"con", "prn", "aux", "nul", "conin$", "conout$", "clock$"}
_PORTS = ("com", "lpt")
LONGEST = 120
"""Bytes, with room for what stands before and behind."""


def safe_name(text: str, otherwise: str = "size") -> str:
    """The text as a name, or as the first part of one; `otherwise` goes before what only a device may be called."""
    plain = unicodedata.normalize("NFC", text)
    kept = "".join(c if c.isalnum() or c in "-_." else "-" for c in plain)
    name = kept.encode("utf-8", "replace")[:LONGEST].decode("utf-8", "ignore").strip(".-") or otherwise
    return f"{otherwise}-{name}" if is_device(name) else name


def is_device(name: str) -> bool:
    """Whether a system takes a name for one of its devices."""
    first = unicodedata.normalize("NFKC", name.partition(".")[0].strip()).lower()
    return first in _DEVICES or (first[:3] in _PORTS and len(first) == 4 and first[3].isdigit())


class OutputNames:
    """Names given one after the other, no two of which fall together where letters have no case."""

    def __init__(self, taken: Sequence[str] = ()) -> None:
        self.taken = {name.casefold() for name in taken}

    def of(self, text: str, otherwise: str = "size") -> str:
        """The text as a safe name, with a number behind it where that is already given."""
        name = first = safe_name(text, otherwise)
        number = 1
        while name.casefold() in self.taken:
            number += 1
            name = f"{first}-{number}"
        self.taken.add(name.casefold())
        return name


def file_names(sizes: Sequence[str]) -> list[str]:
    """The sizes as the names of files, none of them that of all in one."""
    names = OutputNames(["nest"])
    return [names.of(size) for size in sizes]
