"""What may stand at a place: words of the language, names in scope, body measures.

The reader itself is asked what it would accept after the words before the place; only the lines that the place stands
under are given to it, so that mistakes elsewhere do not matter.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from functools import cache

from lark import UnexpectedInput

from draft.base.ending import ending
from draft.base.record import dataclass
from draft.bodies.measures import MEASURES
from draft.editor.analysis import Analysis
from draft.editor.surroundings import Surroundings, surroundings
from draft.editor.symbols import PIECES, NameSort, Symbol, Symbols
from draft.fabrics.properties import PROPERTIES
from draft.language.grammar import parser
from draft.reference.entries import entries

_OF_PIECES = frozenset({NameSort.POINT, NameSort.EDGE})
_DECLARING = frozenset(
    {"style", "let", "solve", "input", "points", "outline", "darts", "pleats", "marks", "join", "finished"}
)  # blocks whose lines begin with a name that is new


@dataclass(frozen=True)
class Completion:
    """One thing that may stand at a place."""

    text: str
    what: str
    """What it is, in a word or two."""
    words: str = ""


def complete(now: Analysis, symbols: Symbols, offset: int) -> list[Completion]:
    """What may stand at a place, the part of a word before it left aside; `symbols` are the last that were whole."""
    here = surroundings(now.source.text, offset)
    if _in_text(here.before):
        return []
    begun = ending(r"\w*$", here.before)
    before = here.before[: len(here.before) - len(begun[0])] if begun else here.before
    member = ending(r"(\w+)\s*\.\s*$", before)
    if member:
        sewn = here.block == "join" and not ending(r"\bonto\s+\w+\s*\.\s*$", before)
        members = symbols.members(member[1])
        return [_completion(symbol) for symbol in members if not sewn or symbol.sort is NameSort.EDGE]
    accepted = _accepted(Surroundings(here.above, before))
    return [*_names(here, before, symbols, accepted), *_words(accepted)]


def _in_text(before: str) -> bool:
    rest = re.sub(r'"[^"]*"', "", before)
    return '"' in rest or "#" in rest


# ---- words ----------------------------------------------------------------------------------------------------------


def _accepted(here: Surroundings) -> set[str]:
    """The terminals that the reader would accept at a place."""
    rows = [f"{' ' * 4 * k}{row}" for k, row in enumerate((*here.above, here.before))]
    text = "\n".join(rows)
    state = parser().parse_interactive(text)
    try:
        for token in state.lexer_thread.lex(state.parser_state):  # type: ignore[no-untyped-call]
            if token.type == "_DEDENT":  # made up by the reader where the text ends
                break
            state.feed_token(token)
    except (UnexpectedInput, KeyError):
        return set()
    return set(state.accepts())  # type: ignore[no-untyped-call]


def _words(accepted: Iterable[str]) -> Iterator[Completion]:
    sentences: dict[str, str] = {}
    for entry in entries():
        for word in entry.keywords[:1]:
            sentences.setdefault(word, entry.words)
    said = _said()
    for word in sorted({word for name in accepted for word in said.get(name, ())}):
        yield Completion(word, "word", sentences.get(word, sentences.get(word.split()[0], "")))


@cache
def _said() -> dict[str, list[str]]:
    """What is written for each terminal that stands for fixed words."""
    found = {}
    for terminal in parser().terminals:
        written = terminal.pattern.raw or terminal.pattern.to_regexp()
        written = re.sub(r"\(\?=.*\)$", "", written)  # what is to stand behind it
        plain = re.sub(r"^/|/$|\\b|\(\?:|\(\?!.*?\)|[()]", "", written.replace(r"[ \t]+", " ")).replace('"', "")
        words = [word.strip() for word in plain.split("|")]
        if all(re.fullmatch(r"[a-z]+( [a-z]+)*", word) for word in words):
            found[terminal.name] = words
    return found


# ---- names ----------------------------------------------------------------------------------------------------------


def _names(here: Surroundings, before: str, symbols: Symbols, accepted: set[str]) -> list[Completion]:
    if "NAME" not in accepted:
        return []
    if here.block == "body":
        listed = {symbol.name for symbol in symbols.declared.values() if symbol.sort is NameSort.MEASURE}
        return [Completion(m.name, "body measure", m.how) for m in MEASURES.values() if m.name not in listed]
    if here.block == "style":
        return []  # its options are the designer's to name
    if here.block == "fabric" and not before.strip():
        return [Completion(p.name, "property of cloth", p.how) for p in PROPERTIES.values() if p.drafts]
    if re.fullmatch(r"piece\s+\w+\s+is\s+", before):
        return [_completion(s) for s in symbols.declared.values() if s.sort is NameSort.TEMPLATE]
    if not before.strip():
        return _first_names(here, symbols, accepted)
    return _references(here, before, symbols, accepted)


def _first_names(here: Surroundings, symbols: Symbols, accepted: set[str]) -> list[Completion]:
    """What a line may begin with: a new name is the designer's to choose; in a piece it may be a template's input."""
    if len(here.above) == 1 and here.block == "piece":
        found = re.match(r"piece\s+\w+\s+is\s+(\w+)", here.above[0])
        scope = f"template {found[1]}" if found else ""
        return [
            _completion(s) for (where, _), s in symbols.declared.items() if where == scope and s.sort is NameSort.INPUT
        ]
    if here.block in _DECLARING or not here.above:
        return []
    return _references(here, "", symbols, accepted)


def _references(here: Surroundings, before: str, symbols: Symbols, accepted: set[str]) -> list[Completion]:
    """Names that mean something here. Where no amount could stand, only a point or an edge is meant."""
    style = ending(r"\b(?:by|only\s+for)\s+$", before)
    option = re.search(r"(?:\bfor\s+|\bby\s+)(\w+)\s*(?::|\s)", before)
    choices = {s.name for s in symbols.declared.values() if s.scope == f"style {option[1]}"} if option else set()
    if option and choices and "QUANTITY" not in accepted:
        scope = f"style {option[1]}"
        return [_completion(s) for (where, _), s in symbols.declared.items() if where == scope]
    # What a piece hands to its template is written outside of both
    owner = "" if here.block == "piece" and "=" in before else here.owner
    visible = [s for s in symbols.visible(owner) if s.name != before.split(" ")[0]]
    if style:
        return [
            _completion(s)
            for s in visible
            if s.sort is NameSort.STYLE or ("by" in style[0] and s.sort not in _OF_PIECES)
        ]
    pieces = [s for (where, _), s in symbols.declared.items() if where == PIECES]
    wanted = [s for s in visible if "QUANTITY" in accepted or s.sort in _OF_PIECES]
    return [_completion(s) for s in (*wanted, *pieces)]


def _completion(symbol: Symbol) -> Completion:
    sentence = MEASURES[symbol.name].how if symbol.sort is NameSort.MEASURE and symbol.name in MEASURES else ""
    return Completion(symbol.name, symbol.sort.value, sentence)
