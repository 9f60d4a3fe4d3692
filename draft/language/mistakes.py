"""Words for a line that cannot be read: what stands there, what was expected, and a fix."""

from __future__ import annotations

from lark import UnexpectedCharacters, UnexpectedInput, UnexpectedToken

from draft.language.grammar import reserved_words
from draft.notes import Note, Span, error, nearest
from draft.units import UNITS

_SHOWN = {
    "NAME": "a name",
    "QUANTITY": "a quantity such as `3 cm`",
    "NUMBER": "a number",
    "STRING": 'a text in "..."',
    "_NL": "the end of the line",
    "_INDENT": "an indented line",
    "CORNER_KIND": "`carried`, `cut` or `stepped`",
    "INPUT_KIND": "`length`, `angle`, `number` or `direction`",
    "EQUALS": "`equals`",
    "AT_LEAST": "`at least`",
    "AT_MOST": "`at most`",
    "LPAR": "`(`",
    "RPAR": "`)`",
    "COMMA": "`,`",
    "COLON": "`:`",
    "EQUAL": "`=`",
    "DOT": "`.`",
}
_OPERATORS = {"PLUS", "MINUS", "STAR", "SLASH"}
_UNSAID = {"BROKEN", "_DEDENT", "$END", "DOT"}
_VALUE = {"NAME", "QUANTITY", "NUMBER", "LPAR", "MINUS", "LENGTH"}
_BLOCKS = ("pattern", "body", "style", "let", "solve", "template", "piece", "join", "finished", "check")
_MANY = 6  # a longer list of what was expected helps nobody


def describe(mistake: UnexpectedInput, span: Span) -> Note:
    """The note for one place where reading stopped."""
    if isinstance(mistake, UnexpectedCharacters):
        return _character(span)
    assert isinstance(mistake, UnexpectedToken)
    token = mistake.token
    expected = set(mistake.accepts or mistake.expected)
    if token.type == "_INDENT":
        return error(
            "this line is indented, but nothing above it opens a block",
            span,
            "start it where its neighbours start",
        )
    if token.type in ("_NL", "$END", "_DEDENT"):
        return _too_short(expected, span)
    return _word(str(token), expected, span)


def _character(span: Span) -> Note:
    if span.text.startswith('"'):
        return error('this text has no closing `"`', span, f'try `{span.source.line(_line(span)).strip()}"`')
    return error(f"`{span.text}` cannot be read here", span, "take it out, or put it after a `#` as a comment")


def _line(span: Span) -> int:
    return span.source.place(span.start)[0]


def _too_short(expected: set[str], span: Span) -> Note:
    if expected == {"_INDENT"}:
        return error("this block is empty", span, "add an indented line below it, or take it out")
    return error(f"the line ends too soon: {_wanted(expected)} is missing", span)


def _word(word: str, expected: set[str], span: Span) -> Note:
    before = span.source.text[: span.start].rstrip(" ")
    if before[-1:].isdigit() and word.isalpha():
        return error(f"`{word}` is not a unit", span, *(nearest(word, UNITS) or ("try `cm` or `in`",)))
    at_start = not before or before.endswith("\n")
    if at_start and "PATTERN" in expected:
        return error(
            f"`{word}` does not begin a block",
            span,
            *(nearest(word, _BLOCKS) or (f"a file is made of {_listed(_BLOCKS)}",)),
        )
    keywords = [name.lower() for name in expected if name not in _SHOWN and name.isalpha()]
    close = nearest(word, keywords)
    if word in reserved_words() and "NAME" in expected and not close:
        return error(f"`{word}` is a word of the language and cannot be a name here", span, f"try `{word}_1`")
    return error(f"{_wanted(expected)} was expected, but `{word}` stands here", span, *close)


def _wanted(expected: set[str]) -> str:
    said = sorted(expected - _UNSAID - (_OPERATORS if expected - _OPERATORS else set()))
    if set(said) >= {"NAME", "QUANTITY", "NUMBER"}:
        said = ["a value", *(s for s in said if s not in _VALUE and s in ("_NL", "STRING", "COMMA"))]
    words = [_SHOWN.get(name, name if " " in name else f"`{name.strip('_').lower()}`") for name in said]
    if len(words) > _MANY:
        words = [*words[:_MANY], "or the like"]
    return _listed(words) if words else "something else"


def _listed(words: tuple[str, ...] | list[str]) -> str:
    return " or ".join([", ".join(words[:-1]), words[-1]]) if len(words) > 1 else words[0]
