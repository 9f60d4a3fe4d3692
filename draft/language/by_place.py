"""Whether a word of the language is one where it stands, or a name: what stands behind it tells.

So a designer may call an edge `wide`, a part `last` or a length `length`. A word is a name where the line reads on
further with a name in its place, and a word of the language wherever both read on as far.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from typing import Any

from lark import Token
from lark.lexer import ContextualLexer, LexerState
from lark.parsers.lalr_analysis import Shift
from lark.parsers.lalr_parser_state import ParserState
from lark.utils import TextSlice

from draft.language.scanning import Lexer

AHEAD = 4
"""So many tokens behind a word are looked at, or as many as are left of its line."""
_NAME, _NL = "NAME", "_NL"
_GAP = re.compile(r"(?:[ \t]|#[^\n]*)*")
_ROWS = re.compile(r"(?:\s|#[^\n]*)*")

States = tuple[int, ...]
Table = Mapping[int, Mapping[str, Any]]


class ByPlace(ContextualLexer):
    """A lexer that knows what the parser accepts, where a fixed word may also be a name."""

    def lex(self, lexer_state: LexerState, parser_state: ParserState[int]) -> Iterator[Token]:
        table = parser_state.parse_conf.states
        for token in super().lex(lexer_state, parser_state):
            if token.type == _NL and lexer_state.text.text[token.end_pos : (token.end_pos or 0) + 1] == "=":
                continue  # no line begins so: the name above, which stands alone, is given a value below
            if token.type != _NAME and _NAME in table[parser_state.position] and token.isidentifier():
                behind = _Behind(self, table, lexer_state.text)
                if behind.reads_as_name(tuple(parser_state.state_stack), token.type, lexer_state.line_ctr.char_pos):
                    token.type = _NAME
            yield token


class PlaceLexer(ByPlace, Lexer):
    """The same, with regular expressions shared by its states."""


class _Behind:
    """What stands behind a word, tried in the parser's tables."""

    def __init__(self, lexer: ContextualLexer, table: Table, text: TextSlice[str]) -> None:
        self.lexer, self.table, self.text = lexer, table, text

    def reads_as_name(self, states: States, word: str, place: int) -> bool:
        """Whether the line reads on further with a name where a word ends at a place of the text."""
        named = self._shifted(states, _NAME)
        fixed = self._shifted(states, word)
        if named is None or fixed is None:
            return fixed is None and named is not None
        for ahead in range(1, AHEAD + 1):  # one token mostly tells
            if self._reach(named, place, ahead) < ahead:
                return False
            if self._reach(fixed, place, ahead) < ahead:
                return True
        return False

    def _reach(self, states: States, place: int, most: int) -> int:
        """How many tokens can follow, `most` at most; a line that may end here has got as far as it can."""
        if not most:
            return 0
        start = self._after(_GAP, place)
        if self.text.text[start : start + 1] in ("\n", "\r", ""):
            if self._shifted(states, _NL) is not None:
                return most
            start = self._after(_ROWS, start)
        found = self.lexer.lexers[states[-1]].match(self.text, start)  # type: ignore[attr-defined]
        if found is None:
            return 0
        written, kind = found
        nexts = [self._shifted(states, each) for each in {kind, _NAME if written.isidentifier() else kind}]
        end = start + len(written)
        return max((1 + self._reach(after, end, most - 1) for after in nexts if after is not None), default=0)

    def _after(self, what: re.Pattern[str], place: int) -> int:
        found = what.match(self.text.text, place)
        return found.end() if found else place

    def _shifted(self, states: States, token: str) -> States | None:
        """The parser's states once it has taken a token, or None where it cannot."""
        stack = list(states)
        while True:
            action, to = self.table[stack[-1]].get(token, (None, 0))
            if action is None:
                return None
            if action is Shift:
                return (*stack, to)
            if to.expansion:
                del stack[-len(to.expansion) :]
            stack.append(self.table[stack[-1]][to.origin.name][1])
