"""What a sewist is told of a bundled pattern: she measured somebody, and has never seen its file."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from dataclasses import replace

from draft.base.notes import Note, Problems
from draft.drafting.request import Request
from draft.drafting.telling import WIDEN
from draft.plan.library import bundled_files

AGAIN = "measure once more; if that is right, this pattern is not cut for such a figure in this style"


@contextmanager
def in_her_words(request: Request) -> Iterator[None]:
    """What stops the work is told without its places in a bundled file."""
    try:
        yield
    except Problems as problems:
        raise Problems(without_places(request, problems.notes)) from None


def without_places(request: Request, notes: Sequence[Note]) -> tuple[Note, ...]:
    """Notes as who never saw a bundled pattern's file reads them; her own files keep their places."""
    if request.pattern not in bundled_files():
        return tuple(notes)
    return tuple(_without_place(note, WIDEN) for note in notes)


def _without_place(note: Note, of_designers: str) -> Note:
    related = tuple(one for one in note.related if not one[0].source.name.endswith(".piece"))
    in_pattern = note.span is not None and note.span.source.name.endswith(".piece")
    span = None if in_pattern else note.span
    hints = tuple(hint for hint in note.hints if not hint.endswith(of_designers))
    if hints == note.hints:
        return replace(note, span=span, related=related)
    return replace(note, span=span, related=related, hints=(*hints, AGAIN))
