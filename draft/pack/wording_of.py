"""The words of one garment in one language: those of the trade, and its designer's own."""

from __future__ import annotations

from draft.drafting.planned import Planned
from draft.paper.drawing.spoken_languages import Units, own_words
from draft.paper.drawing.wording import Wording
from draft.plan.library import find


def wording_of(planned: Planned | None, language: str, units: Units) -> Wording:
    """The wording, with what a pattern's designer, those of what it varies and her studio say in that language."""
    own: dict[str, str] = {}
    if planned:
        own |= own_words(planned.studio.file, language) if planned.studio else {}
        for file in (*planned.texts.bases, find(planned.request.pattern)):
            own |= own_words(file, language)
    return Wording(language, units, own)
