"""The papers, units and files that a studio's packs have where nobody asks for others."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace

from draft.base.notes import Problems
from draft.pack.paper_request import PaperRequest
from draft.paper.drawing.papers import paper
from draft.paper.drawing.spoken_languages import stop_unless_spoken, usual_units
from draft.paper.large.large import large_paper
from draft.studio.studio import Studio

_PROJECTOR = "projector"
USUAL = PaperRequest()


def studio_paper(studio: Studio | None, language: str | None = None) -> PaperRequest:
    """What a pack is printed on, in a language or the studio's first; as is usual where it says nothing.

    Raises `Problems` for what the studio says that cannot be had, with its place, and for a language without words.
    """
    if studio is None:
        spoken = USUAL.language if language is None else language
        return replace(USUAL, language=spoken, units=usual_units(spoken))
    _stop_unless_known(studio)
    spoken = next(iter(studio.languages), USUAL.language) if language is None else language
    return PaperRequest(
        pages=studio.pages or USUAL.pages,
        large=studio.large_papers,
        assembly=studio.assemble or USUAL.assembly,
        units=studio.units or usual_units(spoken),
        language=spoken,
        cloth=studio.cloth or None,
        large_print=studio.large_print,
        holds=studio.pack,
    )


def _stop_unless_known(studio: Studio) -> None:
    _each(studio, "languages", studio.languages, stop_unless_spoken)
    _each(studio, "pages", studio.pages, paper)
    _each(studio, "large_papers", [name for name in studio.large_papers if name != _PROJECTOR], large_paper)


def _each(studio: Studio, key: str, names: Sequence[str], look_up: Callable[[str], object]) -> None:
    """Look names up; raises `Problems` with the place of their line."""
    for name in names:
        try:
            look_up(name)
        except Problems as problems:
            raise Problems(replace(note, span=note.span or studio.places.get(key)) for note in problems.notes) from None
