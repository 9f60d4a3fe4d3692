"""The parser made from `grammar/piece.lark`, and the words that it reserves."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache

from lark import Lark, Token
from lark.indenter import Indenter
from lark.lexer import PatternRE, PatternStr, TerminalDef

from draft.base.resources import folder
from draft.language.going_on import opens
from draft.language.indents import depth

_WITHIN = {"length", "angle", "number", "direction", "least", "most"}  # words that stand inside a pattern of several


class _Indents(Indenter):
    NL_type = "_NL"
    OPEN_PAREN_types = ["LPAR"]  # noqa: RUF012 - lark reads plain class attributes
    CLOSE_PAREN_types = ["RPAR"]  # noqa: RUF012
    INDENT_type = "_INDENT"
    DEDENT_type = "_DEDENT"
    tab_len = 4

    def process(self, stream: Iterator[Token]) -> Iterator[Token]:
        self.above: list[list[str]] = []
        self.line: list[str] = []
        yield from super().process(self._noted(stream))  # type: ignore[no-untyped-call]

    def _noted(self, stream: Iterator[Token]) -> Iterator[Token]:
        """The same tokens, their words noted for the line that they stand on."""
        for token in stream:
            if token.type != self.NL_type:
                self.line.append(str(token))
            yield token

    def handle_NL(self, token: Token) -> Iterator[Token]:  # noqa: N802 - lark's name
        """A line that goes on below ends where that does."""
        if self.paren_level or self._goes_on(token):
            return
        for made in super().handle_NL(token):
            if made.type == self.INDENT_type:
                self.above.append(self.line)
            elif made.type == self.DEDENT_type:
                self.above.pop()
            yield made
        self.line = []

    def _goes_on(self, token: Token) -> bool:
        deeper = depth(token.rsplit("\n", 1)[1]) > self.indent_level[-1]
        return deeper and bool(self.line) and not opens(self.above, self.line)


def _whole_words(terminal: TerminalDef) -> None:
    """Let a fixed word match only where no letter follows: `lets` is one unknown word, not `let` and `s`."""
    pattern = terminal.pattern
    if isinstance(pattern, PatternStr) and pattern.value.isalpha():
        terminal.pattern = PatternRE(rf"{pattern.value}(?![A-Za-z0-9_])", raw=pattern.value)
        terminal.priority = 1  # before a name of the same letters


@cache
def parser() -> Lark:
    """The LALR parser of the piece language."""
    grammar = (folder("grammar") / "piece.lark").read_text(encoding="utf-8")
    return Lark(
        grammar,
        parser="lalr",
        postlex=_Indents(),
        propagate_positions=True,
        maybe_placeholders=True,
        edit_terminals=_whole_words,
    )


@cache
def terminal(name: str) -> str:
    """The regular expression of one of the grammar's terminals."""
    return next(t.pattern.to_regexp() for t in parser().terminals if t.name == name)


@cache
def reserved_words() -> frozenset[str]:
    """The words that the grammar itself uses; none of them can be a name."""
    fixed = (str(t.pattern.raw) for t in parser().terminals if t.pattern.raw)
    return frozenset(word for word in fixed if word.isalpha()) | _WITHIN
