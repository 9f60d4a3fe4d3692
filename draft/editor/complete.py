"""What may stand at a place: words of the language, names in scope, body measures.

The grammar itself is asked what it waits for after the words before the place; only the lines that the place stands
under are given to it, so that mistakes elsewhere do not matter.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from functools import cache

from draft.base.ending import ending
from draft.base.record import dataclass
from draft.editor.belonging import Wants, wanted
from draft.editor.candidates import KindOf, Names
from draft.editor.surroundings import Surroundings, surroundings
from draft.editor.symbols import Symbols
from draft.language.grammar import parser
from draft.language.standing import Standing
from draft.reference.entries import entries


@dataclass(frozen=True)
class Completion:
    """One thing that may stand at a place."""

    text: str
    what: str
    """What it is, in a word or two."""
    words: str = ""


def complete(text: str, symbols: Symbols, offset: int, kind_of: KindOf = lambda _: None) -> list[Completion]:
    """What may stand at a place, the part of a word before it left aside; `symbols` are the last that were whole."""
    here = surroundings(text, offset)
    if in_text(here.before):
        return []
    begun = ending(r"\w*$", here.before)
    before = here.before[: len(here.before) - len(begun[0])] if begun else here.before
    names = Names(symbols, here, before, kind_of)
    member = ending(r"(\w+)\s*\.\s*$", before)
    if member:
        standing = standing_at(here, before[: len(before) - len(member[0])])
        return [Completion(c.name, c.what, c.words) for c in names.members(member[1], _wants(standing))]
    standing = standing_at(here, before)
    found = [Completion(c.name, c.what, c.words) for c in names.wanted(_wants(standing))]
    return [*found, *_words(standing.accepted)]


def _wants(standing: Standing) -> Wants:
    return wanted(standing.parts())


def in_text(before: str) -> bool:
    """Whether a line's last words stand in a quoted text or a comment."""
    rest = re.sub(r'"[^"]*"', "", before)
    return '"' in rest or "#" in rest


# ---- words ----------------------------------------------------------------------------------------------------------


def standing_at(here: Surroundings, before: str) -> Standing:
    """What a place is a part of, behind some words of its line."""
    rows = [f"{' ' * 4 * k}{row}" for k, row in enumerate((*here.above, before))]
    return Standing("\n".join(rows))


def _words(accepted: Iterable[str]) -> Iterator[Completion]:
    said, sentences = spelled_words(), _sentences()
    for word in sorted({word for name in accepted for word in said.get(name, ())}):
        yield Completion(word, "word", sentences.get(word, sentences.get(word.split()[0], "")))


@cache
def _sentences() -> dict[str, str]:
    """What the reference says of each word that begins a form."""
    sentences: dict[str, str] = {}
    for entry in entries():
        for word in entry.keywords[:1]:
            sentences.setdefault(word, entry.words)
    return sentences


@cache
def spelled_words() -> dict[str, list[str]]:
    """What is written for each terminal that stands for fixed words."""
    found = {}
    for terminal in parser().terminals:
        words = list(_spelled(terminal.pattern.to_regexp()))
        if all(re.fullmatch(r"[a-z]+( [a-z]+)*", word) for word in words):
            found[terminal.name] = words
    return found


def _spelled(pattern: str) -> Iterator[str]:
    """The words that a terminal stands for, each with the `of` that must follow it."""
    own, ahead, follows = pattern.partition("(?=")
    of = " of" if ahead and r"of\b" in follows else ""
    plain = re.sub(r"\(\?!.*?\)", "", own.replace("[ \t]+", " ").replace(r"\b", ""))
    choice = re.fullmatch(r"([^|]*)\(\?:([^)]*)\)", plain)
    heads = [f"{choice[1]}{last}" for last in choice[2].split("|")] if choice else plain.split("|")
    return (f"{re.sub(r'[()?:]', '', head).strip()}{of}" for head in heads)
