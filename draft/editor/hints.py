"""What names come to, shown behind their lines: a value, a point's place, an edge's length, how far a style goes."""

from __future__ import annotations

import re
from collections.abc import Iterator

from draft.base.arrays import Floats
from draft.base.notes import Span
from draft.base.record import dataclass
from draft.base.units import Kind, in_centimetres, in_inches, in_words
from draft.editor.analysis import Analysis
from draft.editor.figures import Figures
from draft.editor.symbols import NameSort, Symbol, Symbols
from draft.geometry.length import length
from draft.language import tree

_SHOWN = frozenset({NameSort.VALUE, NameSort.POINT, NameSort.EDGE, NameSort.STYLE})
_MOST = 3
"""Figures on a line: the pieces of a template may each have another."""


@dataclass(frozen=True)
class Hint:
    """A figure behind a line: the offset where it ends, a few letters, and what they say."""

    place: int
    text: str
    words: str


def hints(now: Analysis, known: Symbols, figures: Figures, start: int, end: int) -> Iterator[Hint]:
    """The figures of the lines between two places of a text."""
    unit = _unit(now.source.text)
    for occurrence in now.symbols.occurrences:
        span, symbol = occurrence.span, occurrence.symbol
        if not occurrence.declares or span.source is not now.source or symbol.sort not in _SHOWN:
            continue
        if start <= span.start <= end and (hint := _hint(known, figures, symbol, span, unit)):
            yield hint


def _hint(known: Symbols, figures: Figures, symbol: Symbol, span: Span, unit: str) -> Hint | None:
    node = known.nodes.get(symbol)
    if node is None or _says_it(node):
        return None
    if isinstance(node, tree.StyleRange):
        said = {symbol.name: _of_range(node)}
    else:
        found = {full: figures.value(full) for full in known.full_names(symbol)}
        said = {full: _in_unit(*value, unit) for full, value in found.items() if value}
    texts = list(dict.fromkeys(filter(None, said.values())))
    if not texts:
        return None
    shown = " / ".join(texts[:_MOST]) + (" / ..." if texts[_MOST:] else "")
    rows = [f"{full}: {text}" for full, text in said.items()]
    return Hint(_end_of_row(span), shown, "\n".join([f"in size {figures.size}", *rows]))


def _says_it(node: tree.Named) -> bool:
    """Whether the line says the figure itself."""
    value = getattr(node, "value", None)
    if isinstance(value, tree.Call) and value.word == "at_position":
        return all(isinstance(part, tree.Literal) for part in value.args)
    return isinstance(value, tree.Literal)


def _of_range(node: tree.StyleRange) -> str:
    ends = (node.low, node.default, node.high)
    low, own, high = (part.value if isinstance(part, tree.Literal) else None for part in ends)
    if low is None or own is None or high is None or high <= low:
        return ""
    return f"{100 * (own - low) / (high - low):.0f} % of its range"


def _in_unit(value: Floats, kind: Kind, unit: str) -> str:
    if kind is Kind.LENGTH:
        return f"= {_length(float(value), unit)}"
    if kind is Kind.POINT:
        return f"at {_length(float(value[0]), unit)}, {_length(float(value[1]), unit)}"
    if kind is Kind.EDGE:
        return _length(float(length(value[None])[0]), unit)
    return f"= {in_words(float(value), kind)}" if kind in (Kind.NUMBER, Kind.ANGLE) else ""


def _length(mm: float, unit: str) -> str:
    if unit == "in":
        return in_inches(mm, 16)
    return f"{mm:.1f} mm".replace(".0 mm", " mm") if unit == "mm" else in_centimetres(mm)


def _unit(text: str) -> str:
    """The unit in which most lengths of a text are written."""
    units = re.findall(r"\d[ \t]*(mm|cm|in)\b", text)
    return max(("cm", "mm", "in"), key=units.count)


def _end_of_row(span: Span) -> int:
    text = span.source.text
    end = text.find("\n", span.end)
    row = text[span.end : end if end >= 0 else len(text)]
    return span.end + len(row.rstrip())
