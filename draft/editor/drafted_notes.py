"""What only the drawing tells: seams that do not fit, folds that are not square, checks that do not hold."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from contextlib import suppress
from dataclasses import replace
from pathlib import Path

from draft.base.notes import Note, Problems, Source, Span, once
from draft.base.record import dataclass
from draft.drafting.checked import draft_planned
from draft.drafting.planned import Planned
from draft.drafting.request import Request
from draft.editor.analysis import Analysis, analyse
from draft.editor.shelf import Shelf
from draft.plan.library import chart_of


@dataclass(frozen=True)
class Asked:
    """A text that is to be drafted, where it lies, and the texts of the files that are open beside it."""

    source: Source
    directory: Path
    open: Mapping[Path, Source]


def notes_on(asked: Asked, shelf: Shelf) -> tuple[Note, ...]:
    """The notes that drafting a text for all sizes of its chart adds to those that it has without."""
    shelf.open_are(asked.open)
    now = analyse(asked.source, asked.directory, shelf)
    return drafted_notes(now) if can_be_drafted(now) else ()


def can_be_drafted(now: Analysis) -> bool:
    """Whether a text is a pattern without mistakes, and says for whom."""
    if now.plan is None or now.texts is None or not now.texts.main.patterns:
        return False
    with suppress(Problems):
        return not now.plan.measures or chart_of(now.texts) is not None
    return False


def drafted_notes(now: Analysis) -> tuple[Note, ...]:
    """The notes that drafting a text adds to those that it has without."""
    assert now.plan and now.texts
    planned = Planned(Request(now.source.name), now.texts, None, now.plan)
    try:
        found = draft_planned(planned).notes
    except Problems as problems:
        found = problems.notes
    return tuple(note for note in once(found) if note not in now.notes)


def at_home(notes: tuple[Note, ...], source: Source) -> Iterator[Note]:
    """Notes that come from another process, on this text again where they are on its like."""

    def placed(span: Span) -> Span:
        return replace(span, source=source) if span.source == source else span

    for note in notes:
        related = tuple((placed(span), words) for span, words in note.related)
        yield replace(note, span=placed(note.span) if note.span else None, related=related)
