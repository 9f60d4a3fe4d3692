"""Words for a line that cannot be read: what stands there, what was expected, and a fix."""

from __future__ import annotations

import re

from lark import UnexpectedCharacters, UnexpectedInput, UnexpectedToken

from draft.base.ending import ending
from draft.base.notes import Note, Span, either, error, nearest
from draft.base.units import UNITS
from draft.language.ahead import Ahead
from draft.language.booklet_slips import notion_slip, step_slip, use_slip
from draft.language.characters import odd_character
from draft.language.expected import NAMED, wanted
from draft.language.going_on import BLOCKS, SECTIONS
from draft.language.grammar import words
from draft.language.guesses import guess
from draft.language.laid_slips import laid_too_soon
from draft.language.slips import TIMES, WAYS, cut_slip, opening_slip, part_slip, slip
from draft.language.verbs import move_slip, verb_slip

_INPUT_KINDS = ("length", "angle", "number", "direction", "point", "edge")
_OF_LINES = (cut_slip, use_slip, opening_slip, part_slip, step_slip, notion_slip)
_BEGINNINGS = f"or begin a block with {either(BLOCKS)}"
_INSIDE = {
    **dict.fromkeys(
        ("title", "maker", "chart", "uses", "allowance", "version", "changed", "edition", "wearer"), "pattern"
    ),
    **dict.fromkeys(("points", "outline", "cut", "grain", "stretch"), "piece"),
    "input": "template",
    **dict.fromkeys(("text", "picture", "licence", "link", "step", "about"), "booklet"),
}
_EDGE = r"[A-Za-z]\w*\s+[\w.]+\s+to\s+[\w.]+$"
_COMMENT = re.compile(r"//|/\*|--")  # how other notations begin one

# What people write for a unit that the language writes otherwise; without the `s` of a plural.
_MEANT = {
    **dict.fromkeys(('"', "inch", "inche"), "in"),
    **dict.fromkeys(("'", "foot", "feet"), "ft"),
    **dict.fromkeys(("°", "degree"), "deg"),
    "yard": "yd",
    "percent": "%",
    **dict.fromkeys(("centimetre", "centimeter"), "cm"),
    **dict.fromkeys(("millimetre", "millimeter"), "mm"),
    **dict.fromkeys(("metre", "meter"), "m"),
}
_AMOUNT = re.compile(r"(?P<amount>(?:\d+[ \t]+)?\d+/\d+|\d+(?:\.\d+)?)[ \t]*(?P<unit>[A-Za-z]\w*|[\"'°])?")


def mistake_note(mistake: UnexpectedInput, span: Span) -> Note:
    """The note for one place where reading stopped."""
    if isinstance(mistake, UnexpectedCharacters):
        return _amount(span) or _character(span)
    assert isinstance(mistake, UnexpectedToken)
    token, ahead = mistake.token, Ahead(mistake, frozenset(mistake.accepts or mistake.expected))
    if token.type == "_INDENT":
        return _nothing_opened(span)
    if token.type in ("_NL", "$END", "_DEDENT") or ahead.expected == {"_INDENT"}:
        return _too_short(set(ahead.expected), span)
    return _of_its_line(str(token), set(ahead.expected), span) or _amount(span) or _word(str(token), ahead, span)


def _of_its_line(word: str, expected: set[str], span: Span) -> Note | None:
    """The note for what stands where how a piece is cut, or what is left open of a join, does not go on so."""
    text, place = _line(span)
    fixes = next(filter(None, (slip_of(word, expected, text[:place], text[place:]) for slip_of in _OF_LINES)), ())
    return error(f"{wanted(expected)} was expected, but `{word}` stands here", span, *fixes) if fixes else None


def _nothing_opened(span: Span, *more: str) -> Note:
    fact = "this line is indented, but nothing above it opens a block"
    return error(fact, span, "start it, or the line above it, where its neighbours start", *more)


# ---- amounts --------------------------------------------------------------------------------------------------------


def _amount(span: Span) -> Note | None:
    """The note for an amount written in a way that the language does not know, if there is one at the place."""
    text, place = _line(span)
    point = re.match(r"\.\d+", text[place:])
    if point and not text[:place][-1:].isdigit():
        here = Span(span.source, span.start, span.start + len(point[0]))
        return error(f"`{point[0]}` has no digit before its point", here, f"try `0{point[0]}`")
    whole = ending(r"[\d.]+$", text[:place])
    if whole and text[place : place + 1] == ".":
        here = Span(span.source, span.start - len(whole[0]), span.end)
        return error(f"`{here.text}` is not a number", here, f"try `{whole[0]}`")
    for found in _AMOUNT.finditer(text):
        if found.start() <= place <= found.end() and not re.match(r"\w|\.", text[: found.start()][-1:]):
            return _unit(found, span) or _decimals(text, found, span)
    return None


def _unit(found: re.Match[str], span: Span) -> Note | None:
    unit = found["unit"]
    if unit is None and "/" in found["amount"] and " " in found["amount"]:
        return error(f"`{found['amount']}` has no unit", _at(span, found, "amount"), f"try `{found['amount']} in`")
    if unit is None or unit in UNITS or unit in words():
        return None
    if found.start() == len(found.string) - len(found.string.lstrip()):
        fact, fix = f"`{found[0]}` begins with a digit, but a name begins with a letter", f"try `n{found[0]}`"
        return error(fact, _at(span, found, 0), fix)
    word = unit.lower().removesuffix("s")
    if unit in TIMES:
        return error(f"`{unit}` is not a unit", _at(span, found, "unit"), "if it is to be multiplied, try `*`")
    if unit == "point":
        return error("`point` does not begin a row of points", _at(span, found, "unit"), "try `points`")
    close = (f"try `{_MEANT[word]}`",) if word in _MEANT else nearest(unit.lower(), UNITS)
    return error(f"`{unit}` is not a unit", _at(span, found, "unit"), *(close or ("try `cm` or `in`",)))


def _decimals(text: str, found: re.Match[str], span: Span) -> Note | None:
    """A decimal comma, or a comma between thousands."""
    comma = re.match(r"(\d+),(\d+)(?!\d)", text[found.start() :])
    if comma:
        fixes = [f"try `{comma[1]}.{comma[2]}`"]
        if len(comma[2]) == 3:
            fixes.append(f"or `{comma[1]}{comma[2]}`, if the comma parts the thousands")
        here = Span(span.source, _start(span) + found.start(), _start(span) + found.start() + comma.end())
        return error("a number is written without a comma", here, *fixes)
    return None


def _start(span: Span) -> int:
    return span.source.text.rfind("\n", 0, span.start) + 1


def _line(span: Span) -> tuple[str, int]:
    """The line of a span up to its comment, and where in it the span begins."""
    start = _start(span)
    return span.source.text[start:].split("\n", 1)[0], span.start - start


def _at(span: Span, found: re.Match[str], group: str | int) -> Span:
    return Span(span.source, _start(span) + found.start(group), _start(span) + found.end(group))


# ---- characters, lines and words ------------------------------------------------------------------------------------


def _character(span: Span) -> Note:
    if span.text.startswith('"'):
        return error('this text has no closing `"`', span, f'try `{span.text}"`')
    return odd_character(span)


def _too_short(expected: set[str], span: Span) -> Note:
    text, place = _line(span)
    written = text[: place + span.end - span.start].strip()
    if expected == {"_INDENT"}:
        if re.match(_EDGE, written):
            name = written.split()[0]
            return error(f"`{name}` does not say how it runs", span, f"try `{written} straight`, or `curve`")
        return error("this block is empty", span, "add an indented line below it, or take it out")
    if named := re.match(r"without\s+(\w+)\.(\w+)", written):
        fix = f"write `without {named[2]}` inside of `{named[1]}`"
        return error(f"`without` takes names alone, and `{named[1]}.{named[2]}` is none", span, fix)
    close = (
        nearest(written, SECTIONS) if "EQUAL" in expected and " " not in written else laid_too_soon(written, expected)
    )
    return error(f"the line ends too soon: {wanted(expected)} is missing", span, *close)


def _word(word: str, ahead: Ahead, span: Span) -> Note:
    text, place = _line(span)
    if found := _COMMENT.search(re.sub(r'"[^"]*"', lambda quoted: " " * len(quoted[0]), text[: place + 2])):
        return error(f"`{found[0]}` does not begin a comment", _at(span, found, 0), "a comment begins with `#`")
    if place == 0 and "PATTERN" in ahead.expected:
        return _no_block(word, span)
    close = _misspelt(word, ahead)
    if not close and (said := _word_of_the_language(word, ahead, text[:place], span)):
        return said
    if "_NL" in ahead.expected and not close and not text[:place].strip():
        goes_on = "COMMA" in ahead.expected
        return _nothing_opened(span, *(("or end that with a comma, if it goes on here",) if goes_on else ()))
    fact = f"{wanted(ahead.expected)} was expected, but `{word}` stands here"
    return error(fact, span, *(close or _slip(word, ahead, text, place)))


def _misspelt(word: str, ahead: Ahead) -> tuple[str, ...]:
    """The word of the language that was meant by another like it, unless that one means something here."""
    keywords = [name.lower() for name in ahead.expected if name not in NAMED and name.isalpha()]
    keywords += _INPUT_KINDS if "INPUT_KIND" in ahead.expected else ()
    own = set(keywords) <= {"to", "then", "reversed", "onto"} or ("down" in keywords and word in WAYS)
    return () if own or len(word) == 1 else nearest(word, keywords)


def _word_of_the_language(word: str, ahead: Ahead, before: str, span: Span) -> Note | None:
    """The note for a word of the language where a name or a comma should stand, if it is one."""
    if word not in words():
        return None
    if "NAME" in ahead.expected:
        return error(f"`{word}` is a word of the language, so it cannot be a name", span, f"try `{word}_1`")
    behind = {word.upper(), "NAME"} & ahead.after("COMMA")
    if behind and word not in ("and", "with") and not before.rstrip().endswith(","):
        return error(f"there is no comma before `{word}`", span, f"try `, {word}`")
    return None


def _slip(word: str, ahead: Ahead, text: str, place: int) -> tuple[str, ...]:
    """A hint for what people often write where the language has it otherwise."""
    before, rest = text[:place], text[place:]
    found = verb_slip(word, ahead, before) or slip(word, set(ahead.allowed), before, rest)
    if found := found or guess(word, ahead, before, rest):
        return found
    opens_block = text.split()[0] in BLOCKS and not text.startswith(" ")
    ended = ahead.expected - {"FROM"} == {"_NL"}
    return ("begin a new line before it, indented further",) if ended and opens_block else ()


def _no_block(word: str, span: Span) -> Note:
    if word in _INSIDE:
        return error(f"`{word}` does not begin a block", span, f"indent it under `{_INSIDE[word]}`")
    if moved := move_slip(word):
        return error(f"`{word}` does not begin a block", span, *moved)
    close = nearest(word.lower(), BLOCKS) or ("indent it if it belongs to the block above", _BEGINNINGS)
    return error(f"`{word}` does not begin a block", span, *close)
