"""What is wrong or worth knowing, and where: one type for every phase, and how it is shown.

A `Note` is written where the problem is found. A phase collects all of its notes and then raises them together as
`Problems`; the command line shows them and exits with 1.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import field
from difflib import get_close_matches
from enum import Enum
from functools import cached_property
from typing import TYPE_CHECKING

from draft.base.excerpt import excerpt
from draft.base.misspelt import may_be_meant
from draft.base.record import dataclass
from draft.base.visible import shortly, visible

if TYPE_CHECKING:  # a note is told where nothing is reckoned yet, and numpy is slow to start
    from draft.base.arrays import Floats
    from draft.base.plainly import Sentence


@dataclass(frozen=True)
class Source:
    """A text and the name that its reader knows it by (a file's name, or `<command line>`)."""

    name: str
    text: str = field(repr=False)
    inside: str = ""
    """The name of the envelope that it lies in."""

    @property
    def place_name(self) -> str:
        """Its name in messages, with that of the envelope that it lies in."""
        return f"{self.inside}/{self.name}" if self.inside else self.name

    def place(self, offset: int) -> tuple[int, int]:
        """The line and column of a character offset, both counted from 1."""
        before = self.text[:offset]
        return before.count("\n") + 1, offset - (before.rfind("\n") + 1) + 1

    def line(self, number: int) -> str:
        """The text of line `number` (counted from 1), or an empty text past the end."""
        lines = self.text.split("\n")
        return lines[number - 1].rstrip("\r") if 1 <= number <= len(lines) else ""


@dataclass(frozen=True)
class Span:
    """A stretch of a source: character offsets, the end not included."""

    source: Source = field(repr=False)
    start: int
    end: int

    @property
    def text(self) -> str:
        """The words that the span covers."""
        return self.source.text[self.start : self.end]

    @cached_property
    def beside(self) -> str:
        """Its place as the files beside it know it, whatever folder or envelope they lie in."""
        line, column = self.source.place(self.start)
        return f"{self.source.name}:{line}:{column}"

    def __str__(self) -> str:
        inside = f"{self.source.inside}/" if self.source.inside else ""
        return f"{inside}{self.beside}"


class Severity(Enum):
    """How much a note matters: an error stops the work after its phase, a caution and a remark do not."""

    ERROR = "error"
    CAUTION = "caution"
    REMARK = "remark"


@dataclass(frozen=True)
class Note:
    """One fact, its place, and what to do about it.

    `message` states the fact (lower case, no full stop, code in backticks); each hint begins with a verb and names a
    fix; `related` are other places with a word on each.
    """

    severity: Severity
    message: str
    span: Span | None = None
    hints: tuple[str, ...] = ()
    related: tuple[tuple[Span, str], ...] = ()
    off: Floats | None = field(default=None, compare=False, repr=False)
    """By how much it is so of each body `(bodies,)`, 0 where it is not, in the unit that the figures name; None where
    it is so of all of them, or nobody says."""
    plainly: Sentence | None = field(default=None, compare=False, repr=False)
    """The same for somebody who never saw a file, in any language; None where it is about the text itself."""


class Problems(Exception):  # noqa: N818 - several at once, and the user's, not the program's
    """All errors of a phase, raised together when the phase ends."""

    def __init__(self, notes: Iterable[Note]) -> None:
        self.notes: tuple[Note, ...] = tuple(notes)
        super().__init__("\n".join(note.message for note in self.notes))


def error(
    message: str,
    span: Span | None = None,
    *hints: str,
    related: Sequence[tuple[Span, str]] = (),
    off: Floats | None = None,
    plainly: Sentence | None = None,
) -> Note:
    """A note that stops the work once its phase has ended; `off` is by how much it is so of each body `(bodies,)`."""
    return Note(Severity.ERROR, message, span, hints, tuple(related), off, plainly)


def caution(
    message: str, span: Span | None = None, *hints: str, off: Floats | None = None, plainly: Sentence | None = None
) -> Note:
    """A note that the reader should weigh before cutting; `off` is by how much it is so of each body `(bodies,)`."""
    return Note(Severity.CAUTION, message, span, hints, off=off, plainly=plainly)


def remark(message: str, span: Span | None = None, *hints: str, plainly: Sentence | None = None) -> Note:
    """A note that is worth knowing and stops nothing."""
    return Note(Severity.REMARK, message, span, hints, plainly=plainly)


def once(notes: Iterable[Note]) -> tuple[Note, ...]:
    """The notes, each told once: a template's mistake is found again in every piece made from it."""
    return tuple(dict.fromkeys(notes))


def stop_if_errors(notes: Iterable[Note]) -> None:
    """Raise `Problems` with all notes if any of them is an error."""
    found = once(notes)
    if any(note.severity is Severity.ERROR for note in found):
        raise Problems(found)


MANY = 20
"""A text that is no pattern, chart or list of measures has thousands of mistakes; past so many they help nobody."""
MOST_SHOWN = 100
"""Of notes of all kinds at a time."""
LONGEST = 80  # characters: a longer word was not misspelt, and comparing it takes long


def nearest(word: str, known: Iterable[str]) -> tuple[str, ...]:
    """A hint with the known word that was most likely meant by `word`, or no hint when none can have been."""
    if len(word) > LONGEST:
        return ()
    like = get_close_matches(word, sorted(known), n=3, cutoff=0.6)
    close = [other for other in like if may_be_meant(word, other)]
    return (f"try `{close[0]}`",) if close else ()


def either(words: Sequence[str]) -> str:
    """`a, b or c`."""
    return " or ".join([", ".join(words[:-1]), words[-1]] if len(words) > 1 else words)


def show(notes: Iterable[Note]) -> str:
    """The notes as a person reads them: place, fact, the line with a mark under the words, hints.

    Of more than `MOST_SHOWN` the errors come first, and the rest is counted.
    """
    ordered = _in_reading_order(notes)
    if len(ordered) > MOST_SHOWN:
        ordered.sort(key=lambda note: note.severity is not Severity.ERROR)
    more = len(ordered) - MOST_SHOWN
    said = [_show_one(note) for note in ordered[:MOST_SHOWN]]
    return "\n\n".join([*said, f"and {more:,} more"] if more > 0 else said)


def _in_reading_order(notes: Iterable[Note]) -> list[Note]:
    def key(note: Note) -> tuple[str, int]:
        return (note.span.source.place_name, note.span.start) if note.span else ("", -1)

    return sorted(once(notes), key=key)


def _show_one(note: Note) -> str:
    kind = "" if note.severity is Severity.ERROR else f"{note.severity.value}: "
    place = f"{note.span}: {kind}" if note.span else kind or "error: "
    gutter = "      " if note.span else "  "
    lines = [_line(place + note.message)]
    if note.span:
        lines += _excerpt(note.span)
    lines += [gutter + _line(hint) for hint in note.hints]
    for span, words in note.related:
        lines += [gutter + _line(f"{words} ({span})"), *_excerpt(span)]
    return "\n".join(lines)


def _line(words: str) -> str:
    return shortly(visible(words))


def _excerpt(span: Span) -> list[str]:
    number, column = span.source.place(span.start)
    return excerpt(span.source.line(number), number, column - 1, span.end - span.start)
