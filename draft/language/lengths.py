"""How long names and texts may be: whatever a pattern says comes to stand on paper, in a table or on a terminal."""

from __future__ import annotations

from lark import Token

from draft.base.notes import Note, Source, Span, error

NAME = 60
SENTENCE = 300
_TEXTS = {"title": 120, "maker": 120, "version": 20, "text": 2000, "licence": 2000, "advice": 2000, "topic": 2000,
          "link": 2000}  # fmt: skip
"""Letters of a text by the rule of the grammar that it stands in; any other is a sentence."""


def overlong(token: Token, rule: str, source: Source) -> list[Note]:
    """A note on a name or a text, quotes and all, that is longer than it may be."""
    span = Span(source, token.start_pos or 0, token.end_pos or 0)
    if token.type == "NAME" and len(token) > NAME:
        return [error(f"this name has {len(token)} letters, more than {NAME}", span, "give it a shorter one")]
    most = _TEXTS.get(rule, SENTENCE)
    if token.type == "STRING" and len(token) - 2 > most:
        return [error(f"this text has {len(token) - 2} letters, more than {most}", span, "say it in fewer words")]
    return []
