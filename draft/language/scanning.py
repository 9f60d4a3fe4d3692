"""Which token begins at a place of the text, found without a regular expression for each state of the parser.

Lark makes one for each set of tokens that a state accepts, about a hundred of them, which takes longer than reading a
pattern. Here all states share three: the tokens that go before fixed words, a word, and the tokens that come after.
What the shared ones find is what Lark's would have found if the state accepts it; if not, those that it accepts are
tried one by one.
"""

from __future__ import annotations

import re
from collections.abc import Collection, Iterable, Mapping
from functools import cached_property
from typing import Any

from lark.lexer import AbstractBasicLexer, BasicLexer, ContextualLexer, PatternRE, TerminalDef
from lark.utils import TextSlice

Found = tuple[str, str]
"""The text of a token and its type."""
_WORD = re.compile("[A-Za-z0-9_]+")


class _Shared:
    """What all states have in common."""

    def __init__(self, all_terminals: Iterable[TerminalDef]) -> None:
        """Of all terminals, in the order in which Lark tries them."""
        terminals = list(all_terminals)
        fixed = [number for number, terminal in enumerate(terminals) if _is_fixed_word(terminal)]
        together = terminals[fixed[0] : fixed[-1] + 1] if fixed else []
        self.holds = len(together) == len(fixed) > 0
        """Whether fixed words stand together in that order, so that a look-up can take their place."""
        self.words = {str(terminal.pattern.raw): terminal.name for terminal in together}
        self.fixed = frozenset(self.words.values())
        self.expressions: dict[str, re.Pattern[str]] = {}
        if self.holds:
            self.before = _any_of(terminals[: fixed[0]])
            self.after = _any_of(terminals[fixed[-1] + 1 :])

    def expression(self, terminal: TerminalDef) -> re.Pattern[str]:
        """The regular expression of one terminal alone."""
        if terminal.name not in self.expressions:
            self.expressions[terminal.name] = re.compile(terminal.pattern.to_regexp())
        return self.expressions[terminal.name]


class _StateLexer(BasicLexer):
    """The tokens that some states accept."""

    def __init__(self, root: BasicLexer, accepted: frozenset[str], shared: _Shared) -> None:
        """Of the lexer of all tokens, whose rules for lines and for what is ignored hold here too."""
        vars(self).update(vars(root))
        self._scanner = None
        self.callback: dict[str, Any] = {}  # lark's, which fills its own in where it makes a regular expression
        self.all_terminals = vars(self).pop("terminals")
        self.accepted = accepted
        self.shared = shared if shared.holds and not self.user_callbacks else None

    @cached_property
    def terminals(self) -> list[TerminalDef]:  # type: ignore[override]
        """Those that are accepted, in the order in which Lark tries them."""
        return [terminal for terminal in self.all_terminals if terminal.name in self.accepted]

    def match(self, text: TextSlice[str], pos: int) -> Found | None:
        """The token that begins at a place of a text, of those that are accepted."""
        shared = self.shared
        if shared is None:
            return super().match(text, pos)  # type: ignore[no-any-return, no-untyped-call]
        whole, end = text.text, text.end
        found = shared.before.match(whole, pos, end)
        if found is None:
            word = _WORD.match(whole, pos, end)
            if word and shared.words.get(word[0]) in self.accepted:
                return word[0], shared.words[word[0]]
            found = shared.after.match(whole, pos, end)
        if found is None:
            return None
        kind = found.lastgroup
        return (found[0], kind) if kind in self.accepted else self._one_by_one(shared, text, pos)

    def _one_by_one(self, shared: _Shared, text: TextSlice[str], pos: int) -> Found | None:
        """The first of the accepted tokens that is found, as one regular expression of them all would choose it."""
        word = _WORD.match(text.text, pos, text.end)
        for terminal in self.terminals:
            if terminal.name in shared.fixed:
                found = word if word and word[0] == terminal.pattern.raw else None
            else:
                found = shared.expression(terminal).match(text.text, pos, text.end)
            if found:
                return found[0], terminal.name
        return None


class _ByState(dict[int, AbstractBasicLexer]):
    """The lexer of each state, made when it is first come to."""

    def __init__(self, lexer: Lexer) -> None:
        self.lexer = lexer

    def __missing__(self, state: int) -> _StateLexer:
        made = self[state] = self.lexer.of_state(state)
        return made


class Lexer(ContextualLexer):
    """Lark's lexer that knows what the parser accepts, with regular expressions shared by its states."""

    def __init__(self, conf: Any, states: Mapping[int, Collection[str]], always_accept: Collection[str] = ()) -> None:
        """Terminals that are not known to be good are looked at once, all together."""
        super().__init__(conf, {} if conf.skip_validation else {0: conf.terminals_by_name}, always_accept)
        assert isinstance(self.root_lexer, BasicLexer)
        self.states = states
        """The tokens that each state accepts."""
        self.always = frozenset([*always_accept, *conf.ignore])
        self.shared = _Shared(self.root_lexer.terminals)
        self.lexers = _ByState(self)

    def of_state(self, state: int) -> _StateLexer:
        """The lexer of a state."""
        assert isinstance(self.root_lexer, BasicLexer)
        return _StateLexer(self.root_lexer, self.always.union(self.states[state]), self.shared)


def _is_fixed_word(terminal: TerminalDef) -> bool:
    pattern = terminal.pattern
    return isinstance(pattern, PatternRE) and pattern.value == rf"{pattern.raw}(?![A-Za-z0-9_])"


def _any_of(terminals: Iterable[TerminalDef]) -> re.Pattern[str]:
    return re.compile("|".join(f"(?P<{terminal.name}>{terminal.pattern.to_regexp()})" for terminal in terminals))
