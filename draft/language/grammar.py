"""The parser made from `grammar/piece.lark`, and the words that it reserves."""

from __future__ import annotations

from functools import cache

from lark import Lark
from lark.indenter import Indenter
from lark.lexer import PatternRE, PatternStr, TerminalDef

from draft.resources import folder

BROKEN = "\u2301"  # the mark that the grammar accepts in place of any line

_WITHIN = {"length", "angle", "number", "direction", "least", "most"}  # words that stand inside a pattern of several


class _Indents(Indenter):
    NL_type = "_NL"
    OPEN_PAREN_types = ["LPAR"]  # noqa: RUF012 - lark reads plain class attributes
    CLOSE_PAREN_types = ["RPAR"]  # noqa: RUF012
    INDENT_type = "_INDENT"
    DEDENT_type = "_DEDENT"
    tab_len = 4


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
