"""Notes as a browser gets them: the words, and the place by lines and columns for who has the text before her."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from draft.base.notes import MOST_SHOWN, Note, Span, once
from draft.base.plainly import Typed
from draft.base.record import dataclass
from draft.base.visible import shortly, visible


@dataclass(frozen=True)
class PlainNote(Note):
    """A note in the reader's own language; `about` is its sort, by which a form shows it at the right place."""

    about: str = ""


def notes_told(notes: Iterable[Note]) -> list[dict[str, Any]]:
    """Each note once: `severity`, `message`, `hints`, its place where it has one, `about` where it is plain.

    One that needs nothing of a pattern to be said has a key to `say` and its `fields`, in whatever language is spoken.
    """
    return [_told(note) for note in once(notes)[:MOST_SHOWN]]


def _told(note: Note) -> dict[str, Any]:
    said: dict[str, Any] = {
        "severity": note.severity.value,
        "message": shortly(visible(note.message)),
        "hints": [shortly(visible(hint)) for hint in note.hints],
    }
    if isinstance(note, PlainNote):
        said["about"] = note.about
    elif note.plainly and all(isinstance(part, Typed) for part in note.plainly.parts.values()):
        said["say"] = f"notes.{note.plainly.key}"
        said["fields"] = {name: part.text for name, part in note.plainly.parts.items() if isinstance(part, Typed)}
    return said | place_of(note.span) if note.span else said


def place_of(span: Span) -> dict[str, Any]:
    """Lines and columns from 1, the end not included, and offsets from 0."""
    line, column = span.source.place(span.start)
    end_line, end_column = span.source.place(span.end)
    return {
        "file": span.source.name,
        "line": line,
        "column": column,
        "end_line": end_line,
        "end_column": end_column,
        "start": span.start,
        "end": span.end,
    }
