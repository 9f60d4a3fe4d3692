"""What only the drawing tells of a pattern: seams that do not fit, folds that are not square, checks that do not hold.

Drafting all sizes takes longer than a keystroke may, so it is done once the typing pauses, in a process of its own.
"""

from __future__ import annotations

import multiprocessing
from collections.abc import Callable, Iterator
from contextlib import suppress
from dataclasses import replace

from draft.base.aside import aside
from draft.base.notes import Note, Problems, Source, Span
from draft.drafting.checked import draft_planned
from draft.drafting.planned import Planned
from draft.drafting.request import Request
from draft.editor.analysis import Analysis
from draft.plan.library import chart_of

SECONDS = 10
"""Of the processor: a pattern that takes longer is not for an editor to draft."""


def begin_drafting(now: Analysis) -> Callable[[], tuple[Note, ...]] | None:
    """Begin to draft a text; the function returned waits for the notes. None where there is nothing to draft."""
    if now.plan is None or now.texts is None or not now.texts.main.patterns:
        return None
    with suppress(Problems):
        if now.plan.measures and chart_of(now.texts) is None:
            return None  # nobody said for whom
    return aside(lambda: _within_limits(now), last=True)


def _within_limits(now: Analysis) -> tuple[Note, ...]:
    if multiprocessing.parent_process() is not None:  # in a process of its own
        with suppress(ImportError, ValueError, OSError):
            import resource

            resource.setrlimit(resource.RLIMIT_CPU, (SECONDS, SECONDS))
    return drafted_notes(now)


def drafted_notes(now: Analysis) -> tuple[Note, ...]:
    """The notes that drafting a text for all sizes of its chart adds to those that it has."""
    assert now.plan and now.texts
    planned = Planned(Request(now.source.name), now.texts, None, now.plan)
    try:
        found = draft_planned(planned).notes
    except Problems as problems:
        found = problems.notes
    return tuple(note for note in dict.fromkeys(found) if note not in now.notes)


def at_home(notes: tuple[Note, ...], source: Source) -> Iterator[Note]:
    """Notes that come from another process, on this text again where they are on its like."""

    def placed(span: Span) -> Span:
        return replace(span, source=source) if span.source == source else span

    for note in notes:
        related = tuple((placed(span), words) for span, words in note.related)
        yield replace(note, span=placed(note.span) if note.span else None, related=related)
