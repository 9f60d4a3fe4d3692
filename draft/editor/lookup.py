"""The name at a place, also on a line that cannot be read."""

from __future__ import annotations

import re

from draft.base.ending import LOOK, ending
from draft.base.notes import Span
from draft.editor.analysis import Analysis
from draft.editor.surroundings import surroundings
from draft.editor.symbols import PIECES, Symbol, Symbols


def symbol_at(now: Analysis, known: Symbols, offset: int) -> tuple[Symbol, Span] | None:
    """The name at a place with its letters; `known` also has the names of lines that cannot be read now."""
    found = now.symbols.at(now.source, offset)
    if found:
        return found.symbol, found.span
    word = word_at(now, offset)
    symbol = _named(now, known, word) if word and not now.whole else None
    return (symbol, word) if symbol and word else None


def word_at(now: Analysis, offset: int) -> Span | None:
    """The word at a place, or that ends there; None within a quoted text or a comment."""
    text = now.source.text
    begun = ending(r"\w*$", text[max(0, offset - LOOK) : offset])
    start = offset - len(begun[0]) if begun else offset
    found = re.compile(r"\w+").match(text, start)
    before = re.sub(r'"[^"\n]*"', "", text[text.rfind("\n", 0, start) + 1 : start])
    return Span(now.source, start, found.end()) if found and not re.search(r'["#]', before) else None


def _named(now: Analysis, known: Symbols, word: Span) -> Symbol | None:
    before = now.source.text[max(0, word.start - LOOK) : word.start]
    member = ending(r"(\w+)\s*\.\s*$", before)
    visible = known.members(member[1]) if member else known.visible(surroundings(now.source.text, word.start).owner)
    found = next((symbol for symbol in visible if symbol.name == word.text), None)
    return found or known.declared.get((PIECES, word.text))
