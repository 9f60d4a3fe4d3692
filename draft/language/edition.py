"""Editions of the piece language: a file may say for which it was written."""

from __future__ import annotations

import re

from draft.base.notes import Note, Source, Span, caution

EDITION = 2
"""The edition that this program reads; it reads earlier ones alike."""
_SAID = re.compile(r"^[ \t]+edition[ \t]+(\d{1,6})[ \t]*(?:#.*)?$", re.MULTILINE)


def newer(source: Source) -> list[Note]:
    """A caution where a text says that it was written for a later edition: what is new in it cannot be read."""
    said = _SAID.search(source.text)
    if said is None or int(said[1]) <= EDITION:
        return []
    fact = f"this file is written for edition {said[1]} of the language, and edition {EDITION} is what is known here"
    return [caution(fact, Span(source, said.start(1), said.end(1)), "use a newer plainseam")]
