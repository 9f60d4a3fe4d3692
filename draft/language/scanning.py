"""Which token begins at a place of the text, found without a regular expression for each state of the parser.

Lark makes one for each set of tokens that a state accepts, about a hundred of them, which takes longer than reading a
pattern. Here all states share three: the tokens that go before fixed words, a word, and the tokens that come after.
What the shared ones find is what Lark's would have found if the state accepts it; if not, Lark's own is asked.
"""

from __future__ import annotations

import re
from collections.abc import Collection, Iterable
from typing import Any

from lark.lexer import BasicLexer, ContextualLexer, PatternRE, TerminalDef
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
        if self.holds:
            self.before = _any_of(terminals[: fixed[0]])
            self.after = _any_of(terminals[fixed[-1] + 1 :])


class _StateLexer(BasicLexer):
    """The tokens that some states accept."""

    shared: _Shared | None = None
    callback: dict[str, Any] = {}  # noqa: RUF012 - lark's, which fills its own in where it makes a regular expression

    def share(self, shared: _Shared) -> None:
        self.accepted = frozenset(terminal.name for terminal in self.terminals)
        self.shared = shared if shared.holds and not self.user_callbacks else None

    def match(self, text: TextSlice[str], pos: int) -> Found | None:
        """The token that begins at a place of a text, of those that are accepted."""
        shared = self.shared
        if shared is None:
            return self._of_its_own(text, pos)
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
        return (found[0], kind) if kind in self.accepted else self._of_its_own(text, pos)

    def _of_its_own(self, text: TextSlice[str], pos: int) -> Found | None:
        return super().match(text, pos)  # type: ignore[no-any-return, no-untyped-call]


class Lexer(ContextualLexer):
    """Lark's lexer that knows what the parser accepts, with regular expressions shared by its states."""

    BasicLexer = _StateLexer

    def __init__(self, conf: Any, states: dict[int, Collection[str]], always_accept: Collection[str] = ()) -> None:
        super().__init__(conf, states, always_accept)
        assert isinstance(self.root_lexer, _StateLexer)
        shared = _Shared(self.root_lexer.terminals)
        for lexer in {id(lexer): lexer for lexer in self.lexers.values()}.values():
            assert isinstance(lexer, _StateLexer)
            lexer.share(shared)


def _is_fixed_word(terminal: TerminalDef) -> bool:
    pattern = terminal.pattern
    return isinstance(pattern, PatternRE) and pattern.value == rf"{pattern.raw}(?![A-Za-z0-9_])"


def _any_of(terminals: Iterable[TerminalDef]) -> re.Pattern[str]:
    return re.compile("|".join(f"(?P<{terminal.name}>{terminal.pattern.to_regexp()})" for terminal in terminals))
