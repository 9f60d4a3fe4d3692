"""Whether words are read from the left or from the right: by their first letter that has a direction (UAX 9, P2)."""

from __future__ import annotations

import unicodedata

RIGHT = ("R", "AL")
STRONG = ("L", *RIGHT)
MARK = "\u200f"
"""Before a line that begins with other letters than its paragraph: it is read from the right as a whole."""
_FIRST = "\u0590"
"""No letter before this one is read from the right."""


def from_left(text: str) -> bool:
    """Whether a line or a paragraph as a whole is read from the left."""
    if text.isascii() or max(text) < _FIRST:
        return True
    strong = (unicodedata.bidirectional(letter) for letter in text)
    return next((kind == "L" for kind in strong if kind in STRONG), True)


def as_paragraph(lines: list[str]) -> list[str]:
    """Lines of one paragraph, each read from the side that its first line is read from."""
    if not lines or from_left(lines[0]):
        return lines
    return [MARK + line if from_left(line) else line for line in lines]
