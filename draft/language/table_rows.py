"""The parser's tables as short texts, each row and rule made of its own when the parser first comes to it.

A grammar has thousands of rows and about a thousand rules; reading a pattern takes some hundreds of them.
"""

from __future__ import annotations

import json
from collections.abc import Sequence
from typing import Any, TypeAlias

from lark import Tree
from lark.grammar import NonTerminal, Rule, RuleOptions, Symbol, Terminal
from lark.lexer import PatternRE, PatternStr, TerminalDef
from lark.parse_tree_builder import ParseTreeBuilder
from lark.parsers.lalr_analysis import Reduce, Shift

TREES = {"propagate_positions": True, "maybe_placeholders": True}
"""How trees are built of what is read."""
Row: TypeAlias = dict[str, tuple[Any, Any]]
"""What a state does with each symbol: shift to a state, or reduce by a rule."""
_PATTERNS = {"str": PatternStr, "re": PatternRE}


def row_text(row: Row, numbers: dict[str, int], states: dict[int, int], rules: dict[Rule, int]) -> str:
    """A row as a list: the symbols that are shifted, where each leads to; then every rule and what it is reduced at."""
    shifts = {numbers[name]: states[to] for name, (action, to) in row.items() if action is Shift}
    reduced: dict[int, list[int]] = {}
    for name, (action, to) in row.items():
        if action is Reduce:
            reduced.setdefault(rules[to], []).append(numbers[name])
    symbols = sorted(shifts)
    told = [symbols, [shifts[symbol] for symbol in symbols]]
    return _short([*told, *(part for rule in sorted(reduced) for part in (rule, sorted(reduced[rule])))])


def rule_text(rule: Rule, numbers: dict[str, int]) -> str:
    """A rule as a list: its symbols by number, the one that it makes first, their sorts, and what Lark is to do."""
    symbols = [rule.origin, *rule.expansion]
    options = [getattr(rule.options, name) for name in RuleOptions.__serialize_fields__]
    return _short([[numbers[symbol.name] for symbol in symbols], list(map(_sort, symbols)), rule.alias, options])


def terminal_told(terminal: TerminalDef) -> list[Any]:
    """A terminal as a list."""
    pattern = terminal.pattern
    width = [pattern.min_width, pattern.max_width]
    return [terminal.name, terminal.priority, pattern.type, pattern.value, sorted(pattern.flags), pattern.raw, width]


def terminal_of(told: Sequence[Any]) -> TerminalDef:
    """The terminal of such a list."""
    name, priority, sort, value, flags, raw, width = told
    pattern = _PATTERNS[sort](value, flags, raw)
    if isinstance(pattern, PatternRE):
        pattern._width = width  # which Lark would parse the expression for
    return TerminalDef(name, pattern, priority)


class Rows(dict[int, Row]):
    """The rows of all states, each made when it is asked for, with the ways to build what its rules make."""

    def __init__(self, names: Sequence[str], rows: Sequence[str], rules: Sequence[str], builds: dict[Any, Any]) -> None:
        """Of the symbols' names and of `row_text` and `rule_text`; `builds` gets what builds each rule's tree."""
        self.names, self.rows, self.rules, self.builds = names, rows, rules, builds
        self.known: dict[int, Rule] = {}

    def __missing__(self, state: int) -> Row:
        symbols, states, *reduced = json.loads(self.rows[state])
        name = self.names.__getitem__
        row: Row = {name(symbol): (Shift, to) for symbol, to in zip(symbols, states, strict=True)}
        for rule, at in zip(reduced[::2], reduced[1::2], strict=True):
            row |= dict.fromkeys(map(name, at), (Reduce, self.rule(rule)))
        self[state] = row
        return row

    def values(self) -> Any:
        """The rows of all states, also of those that were never come to."""
        for state in range(len(self.rows)):
            self[state]
        return super().values()

    def rule(self, number: int) -> Rule:
        """A rule by its number."""
        if number not in self.known:
            rule = self.known[number] = self._made(number)
            self.builds |= ParseTreeBuilder([rule], Tree, **TREES).create_callback()  # type: ignore[no-untyped-call]
        return self.known[number]

    def _made(self, number: int) -> Rule:
        numbers, sorts, alias, options = json.loads(self.rules[number])
        origin, *expansion = (_symbol(self.names[name], sort) for name, sort in zip(numbers, sorts, strict=True))
        return Rule(origin, expansion, alias=alias, options=RuleOptions(*options))


class Rules(Sequence[Rule]):
    """All rules, each made when it is asked for."""

    def __init__(self, rows: Rows) -> None:
        self.rows = rows

    def __len__(self) -> int:
        return len(self.rows.rules)

    def __getitem__(self, number: Any) -> Any:
        if number >= len(self):
            raise IndexError(number)
        return self.rows.rule(number)


def _sort(symbol: Symbol) -> int:
    return 1 + symbol.filter_out if isinstance(symbol, Terminal) else 0


def _symbol(name: str, sort: int) -> Any:
    return Terminal(name, filter_out=sort == 2) if sort else NonTerminal(name)


def _short(told: list[Any]) -> str:
    return json.dumps(told, separators=(",", ":"))
