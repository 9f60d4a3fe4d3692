"""Letters of a pattern that no font here has: told before a page of them is printed."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import fields, is_dataclass

from draft.base.notes import Note, Source, Span, caution
from draft.drafting.drafting import Drafted
from draft.paper.drawing import font, system_fonts
from draft.paper.drawing.ink import clean
from draft.paper.drawing.wording import Wording

_SHOWN = 8
"""Letters that a note names."""


def letters_missing(drafted: Drafted, wording: Wording) -> list[Note]:
    """A caution for the letters that will be an empty box in the documents, if there are any."""
    booklet = drafted.planned.plan.booklet if drafted.planned else None
    texts = (*_texts(drafted.to_cut), *_texts(booklet), *wording.own.values())
    used = {letter for text in texts for letter in clean(text) if not letter.isspace()}
    missing = sorted(letter for letter in used - font.letters() if not system_fonts.with_letter(letter))
    if not missing:
        return []
    shown = " ".join(missing[:_SHOWN]) + (" and others" if len(missing) > _SHOWN else "")
    fix = f"install a font that has them, or name its file in the environment as `{system_fonts.CHOSEN}`"
    if not system_fonts.can_shape():
        fix = "install the package `uharfbuzz`, which sets words in other fonts"
    return [caution(f"no font here has the letters {shown}: they are printed as empty boxes", None, fix)]


def _texts(thing: object) -> Iterator[str]:
    """All texts in a record, and in the records in it; not where it was written."""
    if isinstance(thing, str):
        yield thing
    elif isinstance(thing, Mapping):
        for value in thing.values():
            yield from _texts(value)
    elif isinstance(thing, tuple | list):
        for part in thing:
            yield from _texts(part)
    elif is_dataclass(thing) and not isinstance(thing, Span | Source):
        for field in fields(thing):
            yield from _texts(getattr(thing, field.name))
