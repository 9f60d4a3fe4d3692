"""Mistakes mended as their notes propose: what stands behind `try`, set in the place of what the note is about.

Each is tried before it is offered: it must take the note away, and be no mistake itself.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from difflib import SequenceMatcher

from draft.base.ending import ending
from draft.base.notes import Note, Severity, Source, Span
from draft.base.record import dataclass
from draft.editor.analysis import Analysis, analyse
from draft.editor.open_file import OpenFile

_TEXT = re.compile(r"`([^`\n]+)`")
_WORD = re.compile(r"\w+|[^\w\s]")
TRIED = 3
"""Stretches that are like a proposal: each trial costs a reading of the text."""
LONGEST_LINE = 60
"""Words."""
MOST = 5  # notes at a place that are looked at: each costs a reading of the text


@dataclass(frozen=True)
class Mending:
    """A stretch of the text, and what is to stand there instead; `note` is what is mended."""

    note: Note
    span: Span
    text: str


def mendings(file: OpenFile, start: int, end: int) -> Iterator[Mending]:
    """What can be mended between two places of a text."""
    touched = [(note, span) for note, span in file.notes() if span.start <= end and start <= span.end]
    for note, span in touched[:MOST]:
        if note.span is None or note.span.source == file.now.source:
            yield from of_note(file, note, span)


def of_note(file: OpenFile, note: Note, span: Span) -> Iterator[Mending]:
    """What a note proposes, set where it mends what the note is about."""
    for hint in note.hints:
        for text in proposed(hint):
            stretch = next((s for s in _stretches(span, text) if _mends(file, note, s, text)), None)
            if stretch:
                yield Mending(note, stretch, text)


def proposed(hint: str) -> list[str]:
    """The texts that a hint proposes behind `try`."""
    _, said, rest = hint.partition("try `")
    return [text for text in _TEXT.findall(f"`{rest}") if "..." not in text] if said else []


def _stretches(span: Span, text: str) -> Iterator[Span]:
    """Where a proposal may stand: in place of the words marked, with the blank or with the word before them."""
    before = span.source.text[: span.start]
    blanks = len(before) - len(before.rstrip(" "))
    if text.startswith(","):
        yield Span(span.source, span.start - blanks, span.end)
    yield from _within(span, text)
    yield span
    word = ending(r"\w+[ \t]+$", before)
    if word:
        yield Span(span.source, span.start - len(word[0]), span.end)
    yield from _alike(span, text)


def _within(span: Span, text: str) -> Iterator[Span]:
    """Words of what is marked that begin as the proposal does, where a whole line is marked."""
    first = text.split()[0]
    if first in ("curve", "straight"):
        for found in re.finditer(r"\b(?:straight|curve)\b", span.text):
            yield Span(span.source, span.start + found.start(), span.start + found.end())


def _alike(span: Span, text: str) -> Iterator[Span]:
    """The words of the marked lines that are most like a proposal, among them some that are marked."""
    written = span.source.text
    start = written.rfind("\n", 0, span.start) + 1
    end = written.find("\n", span.end)
    words = list(_WORD.finditer(written[:end] if end >= 0 else written, start))
    most = len(_WORD.findall(text)) + 3
    found: list[tuple[float, Span]] = []
    for k, first in enumerate(words[:LONGEST_LINE]):
        for last in words[k : k + most]:
            if first.start() < span.end and span.start < last.end():
                here = Span(span.source, first.start(), last.end())
                found.append((SequenceMatcher(None, here.text, text, autojunk=False).ratio(), here))
    found.sort(key=lambda each: -each[0])
    return (here for ratio, here in found[:TRIED] if ratio > 0.5)


def _mends(file: OpenFile, note: Note, span: Span, text: str) -> bool:
    now = file.now
    written = now.source.text
    changed = Source(now.source.name, written[: span.start] + text + written[span.end :])
    after = analyse(changed, file.directory, file.shelf)
    stands = Span(changed, span.start, span.start + len(text))
    return _unread(after) <= _unread(now) and not any(_is_left(other, note, stands) for other in after.notes)


def _unread(found: Analysis) -> int:
    """How many lines cannot be read."""
    return 0 if found.whole else sum(note.severity is Severity.ERROR for note in found.notes)


def _is_left(after: Note, note: Note, stands: Span) -> bool:
    """Whether a note on the mended text is the one that was to be mended, or an error where it was mended."""
    if after.span is None or after.span.source is not stands.source or note.span is None:
        return False
    same = after.message == note.message and after.span.start == note.span.start
    return same or (
        after.severity is Severity.ERROR and after.span.start < stands.end and stands.start < after.span.end
    )
