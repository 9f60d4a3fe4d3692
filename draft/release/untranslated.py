"""Texts of a designer's that a language has no translation of, where she has begun to translate into it."""

from __future__ import annotations

from collections.abc import Iterator

from draft.base.notes import Note, caution
from draft.drafting.drafting import Drafted
from draft.pack.wording_of import wording_of

_SHOWN, _LETTERS = 4, 48
"""So many texts are told, each with so many letters."""


def untranslated(drafted: Drafted, language: str) -> list[Note]:
    """A caution with the texts that come out in her own words in a release in another language.

    None where nothing at all is translated: then the language may be the one that she writes in.
    """
    own = wording_of(drafted.planned, language, "cm").own
    lacking = [text for text in dict.fromkeys(_texts(drafted)) if text and text not in own] if own else []
    if not lacking:
        return []
    shown = ", ".join(f"“{_short(text)}”" for text in lacking[:_SHOWN]) + (" and others" if lacking[_SHOWN:] else "")
    many = "a text has" if len(lacking) == 1 else f"{len(lacking)} texts have"
    fact = f"{many} no translation into `{language}`: {shown}"
    return [caution(fact, None, f"write a line for each into the file that ends with `.{language}.toml`")]


def _texts(drafted: Drafted) -> Iterator[str]:
    """What is printed of the designer's own words and of her studio's; names are her own in every language."""
    plan, studio = drafted.plan, drafted.planned.studio if drafted.planned else None
    yield plan.title
    yield from (*plan.booklet.texts, plan.booklet.licence)
    yield from (text for _, text in plan.booklet.topics)
    yield from (advice.text for advice in plan.booklet.advice)
    yield from (note.words for note in plan.changed)
    yield from (style.words for style in plan.styles)
    yield from (notch.words for piece in plan.pieces for notch in piece.notches)
    yield from (notch.words for join in plan.joins for notch in join.notches)
    if studio:
        yield from (*studio.terms, studio.licence)


def _short(text: str) -> str:
    return text if len(text) <= _LETTERS else text[: _LETTERS - 1].rstrip() + "…"
