"""What a place in a text is a part of: the rules of the grammar that are begun there, and what they wait for.

The parser says only which tokens it would take. Its grammar knows more: after `on` in a dart comes an edge, and after
`to` a point. Both are found here from the grammar itself, so that a new rule of it is known at once.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from functools import cache
from typing import Any

from lark import UnexpectedInput
from lark.grammar import Rule

from draft.base.record import dataclass
from draft.language.grammar import parser

_BEHIND = ("x", "1 cm", "")
"""What may follow a place: a name, an amount, nothing."""
_DEEPEST = 8
"""Rules within one another that end with the same word."""

Items = frozenset[tuple[int, int]]
"""Rules by their numbers, each with how many of its symbols are there."""


@dataclass(frozen=True)
class Part:
    """A part that a rule waits for: behind which symbol of it, and the how-manieth that is kept."""

    rule: str
    behind: str
    number: int


@dataclass(frozen=True)
class Begun:
    """A rule that is begun: its symbols so far, those of the rules within it that are parts of it left out."""

    rule: str
    symbols: tuple[str, ...]


class Standing:
    """A place behind some words, which are the last of a text that can be read as far as them."""

    def __init__(self, before: str) -> None:
        self._state, self.reads = _read(before)
        """Whether all the words before the place can be read."""
        self._symbols = _symbols(self._state.parser_state.state_stack)
        self._sets = _sets(self._symbols) if self.reads else []

    @property
    def accepted(self) -> set[str]:
        """The terminals that may come next."""
        return set(self._state.accepts()) if self.reads else set()

    def parts(self) -> set[Part]:
        """The parts that a name may be here."""
        if "NAME" not in self.accepted:
            return set()
        return {part for sets in _settled(self._symbols) for part in self._named(sets)}

    def _named(self, sets: list[Items]) -> Iterator[Part]:
        named = _leading_to_names()
        for number, dot in sets[-1]:
            rule = _rules()[number]
            if dot < len(rule.expansion) and rule.expansion[dot].name in named:
                yield from _parents(sets, number, dot, len(sets) - 1)

    def begun(self) -> list[Begun]:
        """The rules that are begun and not ended, the innermost first."""
        found: dict[tuple[str, int], Begun] = {}
        seen: set[tuple[int, int]] = set()
        last = len(self._sets) - 1
        waiting = [(number, dot, last) for number, dot in sorted(self._sets[-1] if self._sets else ()) if dot]
        while waiting:
            number, dot, here = waiting.pop(0)
            rule, start = _rules()[number], here - dot
            if (number, start) in seen:
                continue
            seen.add((number, start))
            if dot and not _is_inlined(rule.origin.name):
                found.setdefault((rule.origin.name, start), Begun(rule.origin.name, tuple(self._symbols[start:last])))
            waiting += [(parent, at, start) for parent, at in _waiting_for(self._sets, rule.origin.name, start)]
        return [begun for _, begun in sorted(found.items(), key=lambda each: -each[0][1])]


def _read(before: str) -> tuple[Any, bool]:
    """The parser's state behind some words. A word that may also be a name is told by what stands behind it."""
    for behind in _BEHIND:
        state = parser().parse_interactive(before + behind)
        if _fed(state, len(before)):
            return state, True
    return state, False


def _fed(state: Any, end: int) -> bool:
    try:
        for token in state.lexer_thread.lex(state.parser_state):
            if token.type == "_DEDENT" or (token.type not in ("_NL", "_INDENT") and (token.start_pos or 0) >= end):
                break
            state.feed_token(token)
    except UnexpectedInput as reason:
        return (reason.pos_in_stream or 0) >= end
    except KeyError:
        return False
    return True


def _parents(sets: list[Items], number: int, dot: int, here: int) -> Iterator[Part]:
    """The rules whose part stands at the dot: those that a rule without a name of its own is a part of."""
    rule = _rules()[number]
    behind = rule.expansion[dot - 1].name if dot else ""
    if not _is_inlined(rule.origin.name):
        yield Part(rule.origin.name, behind, _kept(rule, dot))
    elif dot or behind:
        for parent, at in _waiting_for(sets, rule.origin.name, here - dot):
            for part in _parents(sets, parent, at, here - dot):
                yield Part(part.rule, behind if dot else part.behind, part.number)


def _waiting_for(
    sets: list[Items], symbol: str, here: int, seen: frozenset[str] = frozenset()
) -> Iterator[tuple[int, int]]:
    for number, dot in sets[here]:
        rule = _rules()[number]
        if dot < len(rule.expansion) and rule.expansion[dot].name == symbol and rule.origin.name not in seen:
            if not dot and _is_inlined(rule.origin.name):
                yield from _waiting_for(sets, rule.origin.name, here, seen | {symbol})
            elif rule.origin.name != symbol:
                yield number, dot


def _settled(symbols: Sequence[str], depth: int = 0) -> Iterator[list[Items]]:
    """The rules that are begun, also those that would be if the last ones were ended by what comes next."""
    sets = _sets(symbols)
    yield sets
    for number, dot in sets[-1] if depth < _DEEPEST else ():
        rule = _rules()[number]
        if dot == len(rule.expansion) and dot:
            yield from _settled([*symbols[: len(symbols) - dot], rule.origin.name], depth + 1)


# ---- the grammar ----------------------------------------------------------------------------------------------------


@cache
def _rules() -> Sequence[Rule]:
    return tuple(parser().rules)


@cache
def _by_origin() -> dict[str, list[int]]:
    found: dict[str, list[int]] = {}
    for number, rule in enumerate(_rules()):
        found.setdefault(rule.origin.name, []).append(number)
    return found


def _is_inlined(rule: str) -> bool:
    return rule.startswith("_")


def _kept(rule: Rule, dot: int) -> int:
    """How many of a rule's symbols before the dot come to stand in the tree."""
    return sum(not getattr(symbol, "filter_out", False) for symbol in rule.expansion[:dot])


@cache
def _leading_to_names() -> frozenset[str]:
    """The symbols that can begin with a name, by rules that leave no node of their own."""
    found = {"NAME", "ref", "style_name", "names"}
    before = 0
    while before < len(found):
        before = len(found)
        found |= {r.origin.name for r in _rules() if _is_inlined(r.origin.name) and r.expansion[0].name in found}
    return frozenset(found)


@cache
def _accessed_by() -> dict[int, str]:
    """The symbol that leads to each of the parser's states."""
    table = parser().parser.parser._parse_table.states
    return {
        target: symbol
        for moves in table.values()
        for symbol, (action, target) in moves.items()
        if re.fullmatch("Shift", str(action))
    }


def _symbols(states: Sequence[int]) -> list[str]:
    return [_accessed_by()[state] for state in states[1:]]


@cache
def _closed(kernel: Items) -> Items:
    found, waiting = set(kernel), list(kernel)
    while waiting:
        number, dot = waiting.pop()
        expansion = _rules()[number].expansion
        if dot < len(expansion):
            new = [(other, 0) for other in _by_origin().get(expansion[dot].name, ()) if (other, 0) not in found]
            found.update(new)
            waiting += new
    return frozenset(found)


@cache
def _after(items: Items, symbol: str) -> Items:
    kernel = frozenset(
        (number, dot + 1)
        for number, dot in items
        if dot < len(_rules()[number].expansion) and _rules()[number].expansion[dot].name == symbol
    )
    return _closed(kernel)


def _sets(symbols: Sequence[str]) -> list[Items]:
    """The rules that are begun before each symbol and behind the last."""
    found = [_closed(frozenset((number, 0) for number in _by_origin()["start"]))]
    for symbol in symbols:
        found.append(_after(found[-1], symbol))
    return found
