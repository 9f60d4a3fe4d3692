"""A number of the text while it is moved: the plan from before is followed with another value in its place.

Reading and planning anew takes as long as drafting, and a moved number changes neither. What comes out is what the text
itself gives, which is drafted as soon as the number rests.
"""

from __future__ import annotations

import re
from collections.abc import Mapping

from draft.base.notes import Span
from draft.base.units import QuantityError, read_quantity
from draft.language import tree
from draft.language.walking import nodes
from draft.page.designing.numbers_written import AMOUNT

_TOKEN = re.compile(rf"(?:{AMOUNT})[ \t]*(?:mm|cm|m|in|ft|yd|deg|%)(?![A-Za-z0-9_])")


class Moved(dict[Span, float]):
    """The value of a moved number by its place; `is_used` tells whether anything was drafted with it."""

    is_used = False

    def get(self, span: Span, usual: float) -> float:  # type: ignore[override]
        """The value in the place of a number, or its own."""
        found = super().get(span)
        if found is None:
            return usual
        self.is_used = True
        return found


def literals(file: tree.File) -> Mapping[int, tree.Literal]:
    """The quantities of a file by where they begin."""
    return {node.span.start: node for node in nodes(file) if isinstance(node, tree.Literal)}


def moved(before: str, after: str, known: Mapping[int, tree.Literal]) -> Moved | None:
    """The number in which two texts differ, with its new value; None where that is not all."""
    start = _same(before, after)
    row = before.rfind("\n", 0, start) + 1
    for token in _TOKEN.finditer(before, row):
        if token.start() > start:
            return None
        other = _TOKEN.match(after, token.start())
        if start <= token.end() and other and before[token.end() :] == after[other.end() :]:
            return _instead(known.get(token.start()), other[0])
    return None


def _instead(known: tree.Literal | None, text: str) -> Moved | None:
    try:
        value = read_quantity(text)
    except QuantityError:
        return None
    return Moved({known.span: value.value}) if known and value.kind is known.kind else None


def _same(before: str, after: str) -> int:
    """How many letters two texts have in common at their beginnings."""
    low, high = 0, min(len(before), len(after))
    while low < high:
        middle = (low + high + 1) // 2
        low, high = (middle, high) if before[:middle] == after[:middle] else (low, middle - 1)
    return low
