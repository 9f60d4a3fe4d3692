"""Text as a terminal may be given it: what would move its cursor, turn its direction or hide is written out."""

from __future__ import annotations

import re
import unicodedata
from functools import lru_cache

_PLAIN = re.compile(r"[\x20-\x7e]*")
_QUOTED = re.compile(r"`[^`\n]{300,}`")
_HEAD, _TAIL = 200, 60
TAB = 8
"""Columns that a tab may take."""


def visible(text: str) -> str:
    """One line; controls, marks of direction, unseen letters and broken halves are written out, as `\\u202e`."""
    return text if _PLAIN.fullmatch(text) else "".join(_letter(letter) for letter in text)


def visible_lines(text: str) -> str:
    """The same for a text of several lines, whose line ends and tabs stay."""
    return re.sub(r"[^\n\t]+", lambda found: visible(found[0]), text)


def shortly(text: str) -> str:
    """A message whose quotations of hundreds of letters are shown by their beginning and end."""
    return _QUOTED.sub(lambda found: f"{found[0][:_HEAD]}...{found[0][-_TAIL:]}", text)


def columns(text: str) -> int:
    """How many columns of a terminal a visible text takes."""
    return len(text) if _PLAIN.fullmatch(text) else sum(map(_columns, text))


@lru_cache(maxsize=4096)
def _letter(letter: str) -> str:
    if unicodedata.category(letter) not in ("Cc", "Cf", "Cs", "Zl", "Zp"):
        return letter
    code = ord(letter)
    return f"\\x{code:02x}" if code < 0x100 else f"\\u{code:04x}" if code < 0x10000 else f"\\U{code:08x}"


@lru_cache(maxsize=4096)
def _columns(letter: str) -> int:
    if letter == "\t":
        return TAB
    if unicodedata.combining(letter) or unicodedata.category(letter) in ("Mn", "Me"):
        return 0
    return 2 if unicodedata.east_asian_width(letter) in "WF" else 1
