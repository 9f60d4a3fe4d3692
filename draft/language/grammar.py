"""The parser made from `grammar/piece.lark`, and its words."""

from __future__ import annotations

from functools import cache

from lark import Lark

from draft.language.parse_tables import ready_parser

_WITHIN = {"length", "angle", "number", "direction", "least", "most"}  # words that stand inside a pattern of several


@cache
def parser() -> Lark:
    """The LALR parser of the piece language."""
    return ready_parser()


@cache
def terminal(name: str) -> str:
    """The regular expression of one of the grammar's terminals."""
    return next(t.pattern.to_regexp() for t in parser().terminals if t.name == name)


@cache
def words() -> frozenset[str]:
    """The words that the grammar itself uses; most may be names too."""
    fixed = (str(t.pattern.raw) for t in parser().terminals if t.pattern.raw)
    return frozenset(word for word in fixed if word.isalpha()) | _WITHIN
