"""What there is to say about the word under the pointer, as Markdown."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from textwrap import dedent

import numpy as np

from draft.base.notes import Span
from draft.bodies.measures import MEASURES
from draft.editor.analysis import Analysis
from draft.editor.figures import Figures, in_figures
from draft.editor.lookup import symbol_at, word_at
from draft.editor.symbols import NameSort, Symbol, Symbols
from draft.fabrics.properties import PROPERTIES
from draft.language import tree
from draft.language.indents import says_nothing
from draft.language.walking import nodes
from draft.reference.entries import ReferenceEntry, entries, entries_about


def hover(now: Analysis, known: Symbols, figures: Figures | None, offset: int) -> tuple[str, Span] | None:
    """Markdown and the words that it is about, or None where there is nothing to say."""
    found = symbol_at(now, known, offset)
    if found:
        return name_in_words(known, figures, found[0]), found[1]
    literal = _literal(now, offset)
    if literal:
        return in_figures(np.asarray(literal.value), literal.kind), literal.span
    word = word_at(now, offset)
    if word is None:
        return None
    said = _entries(now, word)
    return ("\n\n---\n\n".join(map(entry_in_words, said)), word) if said else None


# ---- names ----------------------------------------------------------------------------------------------------------


def name_in_words(known: Symbols, figures: Figures | None, symbol: Symbol) -> str:
    """A name: what it is of, what it comes to, how it is defined, its sentence."""
    node = known.nodes.get(symbol)
    steps = [step for full in known.full_names(symbol) if figures and (step := figures.step(full))]
    kinds = sorted({step.kind.value for step in steps if step.kind.value.split()[1] != symbol.sort.value})
    parts = [f"**{symbol.name}**: {', '.join([symbol.sort.value, *kinds])}"]
    if figures:
        parts += _values(figures, {step.name: said for step in steps if (said := figures.of(step.name))})
    return "\n\n".join([*parts, *(_definition(node) if node else []), *_sentence(symbol, node)])


def _values(figures: Figures, found: Mapping[str, str]) -> list[str]:
    """One line where all pieces of a template have the same, else one for each."""
    if len(set(found.values())) < 2:
        return [f"{said} in size {figures.size}" for said in set(found.values())]
    rows = "\n".join(f"- {full.split('.')[0]}: {said}" for full, said in found.items())
    return [f"in size {figures.size}:\n\n{rows}"]


def _definition(node: tree.Named) -> list[str]:
    if isinstance(node, tree.Piece | tree.Template):
        return ["\n".join(map(_input, node.body.inputs))] if node.body.inputs else []
    rows = node.span.text.split("\n")
    while len(rows) > 1 and says_nothing(rows[-1]):
        rows.pop()
    shown = _without_sentence(dedent("\n".join([" " * 8 + rows[0], *rows[1:]])).split("#")[0])
    if shown.strip() == node.name:
        return []
    close = re.sub(r"(?<=\S) {2,}", "  ", shown.strip()).replace("  =", " =")
    return [f"```\n{close}\n```"]


def _without_sentence(written: str) -> str:
    """A line without the quoted text at its end."""
    plain = written.rstrip()
    begin = plain.rfind('"', 0, -1) if plain.endswith('"') else -1
    return plain[:begin].rstrip() if begin >= 0 else written


def _input(line: tree.Input) -> str:
    default = f" = {line.default.span.text}" if line.default else ""
    return f"- `{line.name}`: {line.what}{default}{', ' if line.words else ''}{line.words}"


def _sentence(symbol: Symbol, node: tree.Named | None) -> list[str]:
    if symbol.sort is NameSort.MEASURE and symbol.name in MEASURES:
        measure = MEASURES[symbol.name]
        clause = f" (ISO 8559-1:2017, {measure.clause})" if measure.clause else ""
        return [f"{measure.how}{clause}"]
    words = getattr(node, "words", "")
    if not words and symbol.sort is NameSort.PROPERTY and symbol.name in PROPERTIES:
        words = PROPERTIES[symbol.name].how
    return [words] if words else []


# ---- words of the language ------------------------------------------------------------------------------------------


def entry_in_words(entry: ReferenceEntry) -> str:
    """The record of a form or word."""
    where = f" (under `{entry.inside}`)" if entry.inside and not entry.value else ""
    return f"```\n{entry.form}\n```\n\n{entry.words}\n\nExample{where}:\n\n```\n{entry.example}\n```"


def _literal(now: Analysis, offset: int) -> tree.Literal | None:
    literals = (node for node in _around(now, offset) if isinstance(node, tree.Literal))
    return next(literals, None)


def _entries(now: Analysis, word: Span) -> list[ReferenceEntry]:
    """The records of the words around a place that are written with this word; else those that begin with it."""
    known = {entry.name: entry for entry in entries()}
    around = [node.word for node in _around(now, word.start) if isinstance(node, tree.Call)]
    for name in reversed(around):
        if name in known and word.text in known[name].keywords:
            return [known[name]]
    two = re.compile(r"\w+[ \t]+\w+").match(now.source.text, word.start)
    pair, _ = entries_about(" ".join(two[0].split())) if two else ([], [])
    return pair[:1] or entries_about(word.text)[0][:2]


def _around(now: Analysis, offset: int) -> Iterable[tree.Node]:
    """The nodes that a place lies in, from the whole file inwards."""
    if now.file is None:
        return []
    return [n for n in nodes(now.file) if n.span.start <= offset < n.span.end and n.span.source is now.source]
