"""Which lines of a text go on from the line above: those that are indented further where nothing is opened.

So a line that is too long is broken wherever it reads well, and needs no mark for it.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import field
from functools import lru_cache

from draft.base.record import dataclass
from draft.language.indents import depth

BLOCKS = ("pattern", "body", "fabric", "style", "let", "solve", "template", "block", "piece", "join", "finished",
          "check", "notions", "booklet")  # fmt: skip
_HOLDING_SECTIONS = ("piece", "block", "template")
SECTIONS = ("let", "input", "moves", "points", "lines", "outline", "darts", "pleats", "notches", "marks", "corners")
BRANCHES = ("when", "otherwise")
"""What opens lines that are there for some options of a style: they stand as deep as the lines round them would."""
_SETTINGS = ("title", "cut", "grain", "stretch", "only")
_EDGE_ALONE = re.compile(r"\w+ \w+( \. \w+)? to \w+( \. \w+)?")
_WORD = re.compile(r'"[^"]*"?|#.*|\w+|[^\w\s]')

Words = Sequence[str]


def opens(above: Sequence[Words], line: Words) -> bool:
    """Whether a line opens what stands deeper below it; `above` are the lines that it stands under, outermost first."""
    if line[1:2] == ["="]:  # what is given, by whatever name
        return False
    if line[0] in BRANCHES:
        return True
    above = [upper for upper in above if upper[0] not in BRANCHES]
    if not above:
        return True
    if above[0][0] not in _HOLDING_SECTIONS:
        return False
    if len(above) == 1:
        return line[0] in SECTIONS or (len(line) == 1 and line[0] not in _SETTINGS)  # a name misspelt, perhaps
    section = above[1][0] if len(above) == 2 else ""
    if section == "points":
        return len(line) > 1 and line[1] == "by"
    return section in ("outline", "lines") and _EDGE_ALONE.fullmatch(" ".join(line)) is not None


@lru_cache(maxsize=64)
def heads(text: str) -> tuple[int, ...]:
    """For each row of a text, the number of the row on which its line of the language begins.

    A comment or an empty row within a line belongs to it; one between two lines stands alone. The text need not be one
    that can be read.
    """
    standing = _Standing()
    found: list[int] = []
    for number, row in enumerate(text.split("\n")):
        words = [word for word in _WORD.findall(row) if not word.startswith("#")]
        found.append(number)
        if not words:
            continue
        if standing.goes_on(depth(row), words):
            head = standing.heads[-1]
            found[head:] = [head] * (number + 1 - head)
        else:
            standing.begin(number, depth(row) if number else 0, words)
    return tuple(found)


@dataclass
class _Standing:
    """The lines that a row stands under, the last of them the one that it may go on from."""

    heads: list[int] = field(default_factory=list)
    depths: list[int] = field(default_factory=list)
    lines: list[list[str]] = field(default_factory=list)
    brackets: int = 0

    def goes_on(self, depth: int, words: list[str]) -> bool:
        if not self.heads or depth <= self.depths[-1]:
            return False
        given = words[0] == "="  # a name stands alone above it, whatever that would open: no line begins so
        if not given and self.brackets <= 0 and opens(self.lines[:-1], self.lines[-1]):
            return False
        self.lines[-1] += words
        self._count(words)
        return True

    def begin(self, number: int, depth: int, words: list[str]) -> None:
        while self.depths and self.depths[-1] >= depth:
            for left in (self.heads, self.depths, self.lines):
                left.pop()
        self.heads.append(number)
        self.depths.append(depth)
        self.lines.append(list(words))
        self.brackets = 0
        self._count(words)

    def _count(self, words: list[str]) -> None:
        self.brackets += sum((word == "(") - (word == ")") for word in words)
