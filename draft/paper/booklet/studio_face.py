"""The face of a studio made ready for its documents: its mark drawn, its texts in their language."""

from __future__ import annotations

from functools import lru_cache

from draft.base.notes import Note, Problems, Severity, Source, Span, caution
from draft.base.textfile import read_source
from draft.paper.booklet.pictures import pages_of
from draft.paper.drawing.face import NO_FACE, Face
from draft.paper.drawing.picture_page import PicturePage
from draft.paper.drawing.wording import Wording
from draft.studio.studio import Studio


def face_of(studio: Studio | None, wording: Wording) -> tuple[Face, tuple[Note, ...]]:
    """The face, and a caution where the mark cannot be shown: documents then go without it."""
    if studio is None:
        return NO_FACE, ()
    mark, notes = _mark(studio)
    return Face(
        name=studio.name,
        mark=mark,
        headings=studio.colours.headings,
        lines=studio.colours.lines,
        address=tuple(map(wording.named, studio.address)),
        link=studio.link,
        terms=tuple(map(wording.named, studio.terms)),
    ), notes


def _mark(studio: Studio) -> tuple[PicturePage | None, tuple[Note, ...]]:
    if studio.mark is None:
        return None, ()
    try:
        source = read_source(studio.mark, "mark")
    except Problems as problems:
        return None, tuple(_left_out(note) for note in problems.notes)
    return _drawn(source, studio.places.get("mark") or Span(source, 0, 0))


@lru_cache(maxsize=8)
def _drawn(source: Source, span: Span) -> tuple[PicturePage | None, tuple[Note, ...]]:
    """The mark as a page; drawn once for all packs of a run."""
    try:
        (page,), notes = pages_of([(source, span)], "the documents")
    except Problems as problems:
        return None, tuple(_left_out(note) for note in problems.notes)
    return page, tuple(notes)


def _left_out(note: Note) -> Note:
    if note.severity is not Severity.ERROR:
        return note
    return caution(f"the documents are made without the studio's mark: {note.message}", note.span, *note.hints)
