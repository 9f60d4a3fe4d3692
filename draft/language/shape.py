"""The shape of a text, looked at before it is read: indents, brackets, and characters that no file of ours needs.

A mistake of this kind misleads a parser far away from where it was made. Here it is found where it stands, and its
line is set aside, so that the rest can still be read.
"""

from __future__ import annotations

import re
from dataclasses import field

from draft.base.notes import Note, Source, Span, error
from draft.base.record import dataclass
from draft.language.going_on import BLOCKS, heads
from draft.language.indents import depth, says_nothing

BROKEN = "\u2301"  # the mark that the grammar accepts in place of any line
MAX_NESTING = 60  # parentheses within parentheses; keeps every later walk of the tree shallow

_PARTS = re.compile(r'"[^"]*"|#.*|[()]')
_CONTROL = re.compile(rf"[\x00-\x08\x0b-\x1f{BROKEN}]")


def first_look(source: Source) -> tuple[list[Note], str]:
    """Notes on the shape of a text, and the text with the lines at fault emptied, every place as before."""
    look = _Look(source)
    lines = source.text.split("\n")
    starts = heads(source.text)
    for number, line in enumerate(lines):
        look.at(number, starts[number], line)
        look.offset += len(line) + 1
    look.close(0)
    for number, indent in look.strays.items():
        set_aside(lines, number, "", indent)
    for number in look.broken:
        set_aside(lines, number, BROKEN, depth(lines[number]))
    return [*_tabs(source, lines), *look.notes], "\n".join(lines)


@dataclass
class _Look:
    source: Source
    notes: list[Note] = field(default_factory=list)
    broken: set[int] = field(default_factory=set)
    """Numbers of the lines to be marked broken."""
    strays: dict[int, int] = field(default_factory=dict)
    """Numbers of the lines to be emptied, with the indent that they should have had."""
    indents: list[int] = field(default_factory=lambda: [0])
    offset: int = 0
    opened: list[int] = field(default_factory=list)
    """Offsets of the brackets that are open."""
    begun: tuple[int, int] = (0, 0)
    """The number of the line that opened the first of them, and its indent."""

    def note(self, fact: str, start: int, end: int, *hints: str) -> None:
        self.notes.append(error(fact, Span(self.source, start, end), *hints))

    def at(self, number: int, head: int, line: str) -> None:
        if says_nothing(line):
            return
        self.close(depth(line))
        if head == number:
            self._indent(number, line)
            self.begun = (number, depth(line))
        for found in _CONTROL.finditer(line):
            start = self.offset + found.start()
            self.note("a character stands here that is no text", start, start + 1, "take it out")
            self.broken.add(self.begun[0])
        self._brackets(line)

    def close(self, indent: int) -> None:
        """Brackets may stay open over lines that are indented deeper, and no further."""
        if self.opened and indent <= self.begun[1]:
            first = self.opened[0]
            self.note("this `(` is never closed", first, first + 1, "add a `)`")
            self.broken.add(self.begun[0])
            self.opened.clear()

    def _indent(self, number: int, line: str) -> None:
        here = depth(line)
        if here < self.indents[-1] and here not in self.indents:
            start = self.offset + len(line) - len(line.lstrip(" \t"))
            known = [str(level) for level in self.indents if level]
            fix = f"indent it by {' or '.join(known)} spaces, like its neighbours"
            if line.split()[0] in BLOCKS and here < min(level for level in self.indents if level):
                fix, here = "a block begins at the margin: take its spaces out", 0
            self.note("this line's indent matches no block above it", start, self.offset + len(line.rstrip()), fix)
            self.strays[number] = min(level for level in self.indents if level > here) if here else 0
            return
        self.indents = [level for level in self.indents if level < here] + [here]

    def _brackets(self, line: str) -> None:
        for found in _PARTS.finditer(line):
            place = self.offset + found.start()
            if found[0] == "(":
                self.opened.append(place)
                if len(self.opened) == MAX_NESTING + 1:
                    self.note("parentheses are nested too deeply", place, place + 1, "name the inner part under `let`")
                    self.broken.add(self.begun[0])
            elif found[0] == ")" and self.opened:
                self.opened.pop()
            elif found[0] == ")":
                self.note("this `)` closes nothing", place, place + 1, "take it out, or add a `(` before it")
                self.broken.add(self.begun[0])


def _tabs(source: Source, lines: list[str]) -> list[Note]:
    """One note however many lines there are: they come from one habit of one editor."""
    tabbed = [k for k, line in enumerate(lines) if re.match(r" *\t", line) and not says_nothing(line)]
    if not tabbed:
        return []
    start = sum(len(line) + 1 for line in lines[: tabbed[0]])
    fact = "this line is indented with a tab"
    if len(tabbed) > 1:
        fact = f"{len(tabbed)} lines are indented with a tab, this one first"
    end = start + len(lines[tabbed[0]]) - len(lines[tabbed[0]].lstrip(" \t"))
    return [error(fact, Span(source, start, end), "indent with four spaces")]


def set_aside(lines: list[str], number: int, mark: str, indent: int) -> None:
    """Replace a line by a mark and empty those under it that are indented deeper, every place as before."""
    line = lines[number]
    if not line.strip():
        return
    lines[number] = (line[: len(line) - len(line.lstrip(" \t"))] + mark).ljust(len(line))
    for nested in range(number + 1, len(lines)):
        if not says_nothing(lines[nested]) and depth(lines[nested]) <= indent:
            break
        lines[nested] = " " * len(lines[nested])
