"""Where lines begin and end among the tokens: an indent opens a block, unless the line above goes on below."""

from __future__ import annotations

from collections.abc import Iterator

from lark import Token
from lark.indenter import Indenter

from draft.language.going_on import opens
from draft.language.indents import depth


class TokenLines(Indenter):
    """Lark's indents, for a language whose lines go on where they stand deeper and nothing is opened."""

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
