"""What the parser would take next, so that a guess is offered only where the line could go on with it."""

from __future__ import annotations

import re
from functools import cached_property

from lark import Token, UnexpectedToken

from draft.base.record import dataclass
from draft.language.expected import GOING_ON
from draft.language.grammar import words

_SIGNS = {"=": "EQUAL", ":": "COLON", ",": "COMMA", "(": "LPAR", ".": "DOT", "+": "PLUS", "-": "MINUS", '"': "STRING"}


@dataclass(frozen=True)
class Ahead:
    """A place where reading stopped, with the terminals that may stand there."""

    mistake: UnexpectedToken
    allowed: frozenset[str]

    @cached_property
    def expected(self) -> frozenset[str]:
        """Those that are worth naming."""
        return self.allowed - GOING_ON or self.allowed

    def after(self, terminal: str) -> frozenset[str]:
        """The terminals that may stand behind one that may stand here; none where it may not."""
        if terminal not in self.allowed:
            return frozenset()
        # only the states matter here; what was read may be nested too deep to be copied
        parser = self.mistake.interactive_parser.copy(deepcopy_values=False)  # type: ignore[no-untyped-call]
        parser.feed_token(Token(terminal, ""))
        return frozenset(parser.accepts())


def begins(rest: str) -> frozenset[str]:
    """The terminals that the first word of the rest of a line may be."""
    rest = rest.split("#")[0].strip()
    if not rest:
        return frozenset({"_NL"})
    if word := re.match(r"[A-Za-z]\w*", rest):
        own = {word[0].upper()} if word[0] in words() else set()
        return frozenset(own | {"NAME"})
    return frozenset({"QUANTITY", "NUMBER"} if rest[0].isdigit() else {_SIGNS.get(rest[0], "")})
