"""Giving a name of a file another name, everywhere that it stands and nowhere else."""

from __future__ import annotations

import re
from pathlib import Path

from draft.base.notes import Source, Span
from draft.editor.analysis import Analysis, analyse
from draft.editor.symbols import NameSort, Symbol
from draft.language.reserved import RESERVED

NAME = re.compile(r"[A-Za-z][A-Za-z0-9_]*")
_FIXED = {NameSort.MEASURE: "the name of a body measure is fixed", NameSort.PROPERTY: "the name of a property is fixed"}


class Refused(Exception):  # noqa: N818 - not a fault of the program
    """Why a name cannot be given."""


def renamable(now: Analysis, offset: int) -> Span:
    """The name at a place. Raises `Refused` where there is none that can be given another."""
    found = now.symbols.at(now.source, offset)
    if found is None:
        raise Refused("there is no name here")
    if found.symbol.sort in _FIXED:
        raise Refused(f"`{found.symbol.name}`: {_FIXED[found.symbol.sort]}")
    if not now.whole:
        raise Refused("mend the lines that cannot be read first: the name may stand there too")
    if any(o.span.source is not now.source for o in now.symbols.of(found.symbol)):
        raise Refused(f"`{found.symbol.name}` belongs to a file that this one uses")
    return found.span


def rename(now: Analysis, offset: int, name: str, directory: Path) -> list[Span]:
    """The places that a new name replaces. Raises `Refused`, with the reason, where it cannot be given."""
    span = renamable(now, offset)
    if not NAME.fullmatch(name):
        raise Refused(f"`{name}` cannot be a name: write it with letters, digits and `_`, beginning with a letter")
    if name in RESERVED:
        raise Refused(f"`{name}` is a word of the language, so it cannot be a name")
    if name == span.text:
        return []
    found = now.symbols.at(now.source, offset)
    assert found
    _refuse_shared(now, found.symbol)
    spans = sorted({o.span for o in now.symbols.of(found.symbol)}, key=lambda s: s.start)
    _check(now, found.symbol, spans, name, directory)
    return spans


def _refuse_shared(now: Analysis, symbol: Symbol) -> None:
    """Two templates of one piece, each for its own option, share the names by which the piece is spoken of."""
    own = {o.span for o in now.symbols.of(symbol)}
    other = next((o for o in now.symbols.occurrences if o.span in own and o.symbol != symbol), None)
    if other:
        where = other.symbol.scope or "the pattern"
        raise Refused(f"`{symbol.name}` is also a name of {where}, and some places mean both")


def _check(now: Analysis, symbol: Symbol, spans: list[Span], name: str, directory: Path) -> None:
    """Every name must mean afterwards what it meant before: none is taken twice, none hides another."""
    taken = Refused(f"`{name}` has another meaning in this file already")
    if any((scope, name) in now.symbols.declared for scope in (symbol.scope, *now.symbols.sharing(symbol.scope))):
        raise taken
    text = now.source.text
    for span in reversed(spans):
        text = text[: span.start] + name + text[span.end :]
    after = analyse(Source(now.source.name, text), directory)
    meant = {(place, _renamed(known, symbol, name), declares) for place, known, declares in _meanings(now)}
    if meant != _meanings(after) or len(after.notes) > len(now.notes):
        raise taken


def _meanings(now: Analysis) -> set[tuple[int, Symbol, bool]]:
    """What every name of the text means, by its number from the beginning."""
    own = [o for o in now.symbols.occurrences if o.span.source is now.source]
    numbers = {start: number for number, start in enumerate(sorted({o.span.start for o in own}))}
    return {(numbers[o.span.start], o.symbol, o.declares) for o in own}


def _renamed(old: Symbol, symbol: Symbol, name: str) -> Symbol:
    scope = old.scope
    for sort, word in ((NameSort.PIECE, "piece"), (NameSort.TEMPLATE, "template"), (NameSort.STYLE, "style")):
        if symbol.sort is sort:
            scope = re.sub(rf"\b{word} {symbol.name}$", f"{word} {name}", scope)
    return Symbol(scope, name if old == symbol else old.name, old.sort)
