"""The words of the page in one language, from the same file as those on paper."""

from __future__ import annotations

from functools import cache

from draft.paper.drawing.wording import Wording

_SIT = tuple(f"sit.{key}" for key in ("section", "settling", "drawn", "words", "change"))
SECTIONS = (
    "screen.",
    "notes.",
    "design.",
    "measures.",
    "how.",
    "names.",
    "choosing.otherwise_text",
    "measuring.drawn",
    *_SIT,
)


@cache
def page_words(language: str) -> dict[str, str]:
    """All texts that a browser may show, by `section.key`. Raises Problems for a language that has no file."""
    return Wording(language).texts(SECTIONS)
