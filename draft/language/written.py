"""The lines of a text as they are laid out: words, comments and blank lines, and how deep each line stands.

This knows nothing of what a line says. It is for texts that have been read without a mistake.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import field, replace
from functools import cache
from itertools import groupby

from draft.base.record import dataclass
from draft.language.going_on import heads
from draft.language.grammar import terminal
from draft.language.indents import depth


@dataclass(frozen=True)
class WrittenWord:
    """A name, number, quantity, text in quotes or mark, with its place in the text."""

    sort: str
    text: str
    start: int


@dataclass(frozen=True)
class WrittenRow:
    """What stands on one line of the paper: words, and a comment after them (or alone)."""

    words: tuple[WrittenWord, ...]
    comment: str = ""


@dataclass(frozen=True)
class Remark:
    """A comment on a line of its own; `blank` if an empty line stands above it."""

    text: str
    level: int
    blank: bool


@dataclass(frozen=True)
class Line:
    """One line of the language, on several rows where it goes on below.

    `above` are the comments before it, `blank` says whether an empty line stands right above the line itself.
    """

    level: int
    rows: tuple[WrittenRow, ...]
    above: tuple[Remark, ...] = ()
    blank: bool = False

    @property
    def words(self) -> tuple[WrittenWord, ...]:
        """The words of all rows."""
        return tuple(word for row in self.rows for word in row.words)


@dataclass
class _Waiting:
    """Comments and empty lines that wait for the line below them."""

    remarks: list[tuple[str, int, bool]] = field(default_factory=list)
    blank: bool = False


def lines(text: str) -> list[Line]:
    """The lines of a text that can be read; a last line without words holds the comments at the end, if any."""
    found: list[Line] = []
    indents = [0]
    waiting = _Waiting()
    for width, rows in _logical(text):
        if not rows[0].words and not rows[0].comment:
            waiting.blank = True
        elif not rows[0].words:
            waiting.remarks.append((rows[0].comment, width, waiting.blank))
            waiting.blank = False
        else:
            before = list(indents)
            _settle(indents, width)
            found.append(_line(rows, before, indents, waiting))
            waiting = _Waiting()
    if waiting.remarks:
        found.append(replace(_line((), indents, [0], waiting), blank=False))
    return found


def _settle(indents: list[int], width: int) -> None:
    """Close the levels that a line of this indent leaves, or open the one that it begins."""
    while width < indents[-1]:
        indents.pop()
    if width > indents[-1]:
        indents.append(width)


def _line(rows: tuple[WrittenRow, ...], before: list[int], now: list[int], waiting: _Waiting) -> Line:
    """A line with what waited for it. Comments stand no shallower than the line below them.

    One that was written as deep as the block above, at its end, stays in that block.
    """
    level = len(now) - 1
    deepest = max(level, len(before) - 1)
    remarks = []
    for comment, width, blank in waiting.remarks:
        reached = sum(1 for indent in before if indent <= width) - 1
        deepest = min(deepest, max(level, reached))
        remarks.append(Remark(comment, deepest, blank))
    return Line(level, rows, tuple(remarks), waiting.blank)


def _logical(text: str) -> Iterator[tuple[int, tuple[WrittenRow, ...]]]:
    """Each line's indent and rows; empty rows within a line are left out."""
    offset = 0
    written = text.split("\n")
    for head, numbers in groupby(range(len(written)), key=heads(text).__getitem__):
        rows = []
        for number in numbers:
            row = _row(written[number], offset)
            offset += len(written[number]) + 1
            if number == head or row.words or row.comment:
                rows.append(row)
        # the first line of a text opens no block, however far in it stands
        yield depth(written[head]) if head else 0, tuple(rows)


def _row(written: str, offset: int) -> WrittenRow:
    words: list[WrittenWord] = []
    for found in _pattern().finditer(written):
        if found.lastgroup == "COMMENT":
            return WrittenRow(tuple(words), found[0].rstrip())
        words.append(WrittenWord(str(found.lastgroup), found[0], offset + found.start()))
    return WrittenRow(tuple(words))


@cache
def _pattern() -> re.Pattern[str]:
    """The grammar's own terminals, and any other letter as a mark."""
    names = ("STRING", "COMMENT", "QUANTITY", "NUMBER", "NAME")
    return re.compile("|".join([*(f"(?P<{name}>{terminal(name)})" for name in names), r"(?P<MARK>[^ \t])"]))
