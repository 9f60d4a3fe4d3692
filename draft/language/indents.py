"""How far a row of a text stands in, and whether it says anything."""

from __future__ import annotations

TAB = 4  # columns


def depth(line: str) -> int:
    """How many columns a line is indented by."""
    blank = line[: len(line) - len(line.lstrip(" \t"))]
    return blank.count(" ") + TAB * blank.count("\t")


def says_nothing(line: str) -> bool:
    """Whether a line is blank or a comment."""
    return line.lstrip(" \t").startswith("#") or not line.strip()
