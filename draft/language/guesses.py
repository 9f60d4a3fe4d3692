"""Guesses at what a line lacks, each offered only where the line could go on with it."""

from __future__ import annotations

import re

from draft.base.notes import nearest
from draft.language.ahead import Ahead, begins
from draft.language.expected import NAMED
from draft.language.going_on import BLOCKS, BRANCHES, SECTIONS
from draft.language.grammar import words
from draft.language.reserved import RESERVED
from draft.language.verbs import OWN_MOVES

_HEADS = frozenset({*BLOCKS, *SECTIONS, *BRANCHES, *RESERVED, *OWN_MOVES, "without"})
_LINKS = frozenset(
    ["a", "an", "and", "as", "at", "by", "for", "from", "in", "into", "is", "of", "off", "on", "or", "over", "so",
     "that", "the", "to", "under", "with", "without"]
)  # fmt: skip
"""Words that tie others together, and are no part of a name by themselves."""
_BEFORE_NAMES = _LINKS | {":", "about", "onto"}
_SIGNS = {"EQUAL": "=", "COLON": ":", "COMMA": ","}


def guess(word: str, ahead: Ahead, before: str, rest: str) -> tuple[str, ...]:
    """What a line may lack at `word`, which stands where something else was expected: a comma, a word, a `_`."""
    behind = rest[len(word) :]
    return (
        _option(word, ahead)
        or _quoted(ahead, rest)
        or _comma(word, ahead)
        or _hyphen(word, before, rest)
        or _two_words(word, ahead, before, behind)
        or _one_word(word, ahead, before)
    )


def _quoted(ahead: Ahead, rest: str) -> tuple[str, ...]:
    return (f'try `"{rest.strip()}"`',) if ahead.expected == {"STRING"} else ()


def _option(word: str, ahead: Ahead) -> tuple[str, ...]:
    """An option behind a comma that is left out, its first word misspelt or not."""
    known = [name.lower() for name in ahead.after("COMMA") if name not in NAMED and name.isalpha()]
    if "_NL" not in ahead.expected or not word.isidentifier():
        return ()
    if word in known:
        return (f"try `, {word}`",)
    return tuple(hint.replace("`", "`, ", 1) for hint in nearest(word, known))


def _comma(word: str, ahead: Ahead) -> tuple[str, ...]:
    """A comma between two names of a list."""
    if not {"COMMA", "_NL"} <= ahead.expected or "NAME" not in ahead.after("COMMA"):
        return ()
    if word in ("and", "plus"):
        return ("try `,` in its place",)
    return (f"try `, {word}`",) if word.isidentifier() and word not in _LINKS else ()


def _one_word(word: str, ahead: Ahead, before: str) -> tuple[str, ...]:
    """The only word or sign that can stand here, put in before a name or an amount that can follow it."""
    said = ahead.expected - {"DOT", "AROUND"}
    if len(said) != 1 or word in _LINKS or word in words():
        return ()
    (only,) = said
    sign = _SIGNS.get(only, only.lower() if only not in NAMED and only.isalpha() else "")
    if not sign or before.split()[-1:] == [sign] or (word.isidentifier() and sign not in _BEFORE_NAMES):
        return ()
    return (f"try `{sign} {word}`",) if begins(word) & ahead.after(only) else ()


def _hyphen(word: str, before: str, rest: str) -> tuple[str, ...]:
    found = re.search(r"([A-Za-z]\w*)-([A-Za-z]\w*)", before[-80:] + rest[:80])
    return (f"try `{found[1]}_{found[2]}`",) if word == "-" and found else ()


def _two_words(word: str, ahead: Ahead, before: str, behind: str) -> tuple[str, ...]:
    """The name that was meant where it was written in two words, if what follows can follow a name here."""
    pair = _pair(word, before)
    if pair is None or {*pair} & _LINKS:
        return ()
    if "".join(pair) in words():
        return (f"try `{''.join(pair)}`",)
    goes_on = word != pair[1] or bool(begins(behind) & ahead.allowed)
    return (f"try `{'_'.join(pair)}`",) if goes_on and pair[0] not in _HEADS and pair[1] not in words() else ()


def _pair(word: str, before: str) -> tuple[str, str] | None:
    """The two words that a line begins with, the second at the place or right before a sign or an amount there."""
    head = r"\s*(?:pattern |piece |template |block )?\s*([A-Za-z]\w*)\s+"
    if word.isidentifier():
        one = re.match(head + "$", before)
        return (one[1], word) if one else None
    two = re.match(head + r"([A-Za-z]\w*)\s*$", before)
    return (two[1], two[2]) if two and word[:1] in "=:0123456789" else None
