"""Places in a text as editors count them: lines and letters from 0, letters in the units of the encoding agreed on."""

from __future__ import annotations

UTF_8, UTF_16, UTF_32 = "utf-8", "utf-16", "utf-32"


def offset_of(text: str, line: int, letter: int, encoding: str = UTF_16) -> int:
    """The offset in the text of a place; past the end of a line, or of the text, the end."""
    rows = text.split("\n")
    if line >= len(rows):
        return len(text)
    start = sum(len(row) + 1 for row in rows[:line])
    row = rows[line]
    if encoding == UTF_32 or row.isascii():
        return start + min(letter, len(row))
    for k in range(len(row) + 1):
        if _size(row[:k], encoding) >= letter:
            return start + k
    return start + len(row)


def place_of(text: str, offset: int, encoding: str = UTF_16) -> tuple[int, int]:
    """Line and letter of an offset."""
    before = text[:offset]
    row = before[before.rfind("\n") + 1 :]
    return before.count("\n"), len(row) if row.isascii() else _size(row, encoding)


def _size(words: str, encoding: str) -> int:
    if encoding == UTF_32:
        return len(words)
    return len(words.encode("utf-8")) if encoding == UTF_8 else len(words.encode("utf-16-le")) // 2
