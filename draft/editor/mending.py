"""Mistakes mended as their notes propose: what stands behind `try`, set in the place of what the note is about.

Each is tried before it is offered: it must take the note away, and be no mistake itself.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path

from draft.base.ending import ending
from draft.base.notes import Note, Severity, Source, Span
from draft.base.record import dataclass
from draft.editor.analysis import Analysis, analyse

_TRY = re.compile(r"try `([^`\n]+)`")
MOST = 5  # notes at a place that are looked at: each costs a reading of the text


@dataclass(frozen=True)
class Mending:
    """A stretch of the text, and what is to stand there instead; `note` is what is mended."""

    note: Note
    span: Span
    text: str


def mendings(now: Analysis, directory: Path, start: int, end: int) -> Iterator[Mending]:
    """What can be mended between two places of a text."""
    for note in [note for note in now.notes if note.span and _touches(note.span, now.source, start, end)][:MOST]:
        yield from _of_note(now, directory, note)


def _touches(span: Span, source: Source, start: int, end: int) -> bool:
    return span.source is source and span.start <= end and start <= span.end


def _of_note(now: Analysis, directory: Path, note: Note) -> Iterator[Mending]:
    assert note.span
    for hint in note.hints:
        found = _TRY.fullmatch(hint)
        if found is None or "..." in found[1]:
            continue
        for span in _stretches(note.span, found[1]):
            if _mends(now, directory, note, span, found[1]):
                yield Mending(note, span, found[1])
                break


def _stretches(span: Span, text: str) -> Iterator[Span]:
    """Where a proposal may stand: in place of the words marked, with the blank or with the word before them."""
    before = span.source.text[: span.start]
    blanks = len(before) - len(before.rstrip(" "))
    if text.startswith(","):
        yield Span(span.source, span.start - blanks, span.end)
    yield span
    word = ending(r"\w+[ \t]+$", before)
    if word:
        yield Span(span.source, span.start - len(word[0]), span.end)


def _mends(now: Analysis, directory: Path, note: Note, span: Span, text: str) -> bool:
    written = now.source.text
    changed = Source(now.source.name, written[: span.start] + text + written[span.end :])
    after = analyse(changed, directory)
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
