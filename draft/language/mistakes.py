"""Words for a line that cannot be read: what stands there, what was expected, and a fix."""

from __future__ import annotations

import re

from lark import UnexpectedCharacters, UnexpectedInput, UnexpectedToken

from draft.base.ending import ending
from draft.base.notes import Note, Span, either, error, nearest
from draft.base.units import UNITS
from draft.language.booklet_slips import notion_slip, step_slip, use_slip
from draft.language.characters import odd_character
from draft.language.going_on import BLOCKS, SECTIONS
from draft.language.grammar import RESERVED, words
from draft.language.slips import TIMES, WAYS, cut_slip, opening_slip, slip

_INPUT_KINDS = ("length", "angle", "number", "direction", "point", "edge")
_SHOWN = {
    "NAME": "a name",
    "QUANTITY": "a quantity such as `3 cm`",
    "NUMBER": "a number",
    "STRING": 'a text in "..."',
    "_NL": "the end of the line",
    "_INDENT": "an indented line",
    "CORNER_KIND": "`carried`, `cut` or `stepped`",
    "CUT_AS": "`as a pair`, `right side up`",
    "ON_SIDE": "`on the left`, `on the right`",
    "OPEN_FOR": "`for a slit` or the like",
    "PLACED": "`after`, `before`, `instead of`",
    "AS_LAYER": "`as outside`, `as inside`",
    "INPUT_KIND": either([f"`{kind}`" for kind in _INPUT_KINDS]),
    "EQUALS": "`equals`",
    "AT_LEAST": "`at least`",
    "AT_MOST": "`at most`",
    "LPAR": "`(`",
    "RPAR": "`)`",
    "COMMA": "`,`",
    "COLON": "`:`",
    "EQUAL": "`=`",
    "DIVIDED": "`/`",
    "DOT": "`.`",
}
_GOING_ON = {"PLUS", "MINUS", "STAR", "DIVIDED", "ABOVE", "BELOW", "ROUNDED", "ONLY"}
"""What can follow most values and lines: naming it helps nobody while something else is expected."""
_UNSAID = {"BROKEN", "_DEDENT", "$END", "DOT", "WHEN", "WITHOUT"}
_VALUE = {"NAME", "QUANTITY", "NUMBER", "LPAR", "MINUS", "LENGTH"}
_OF_LINES = (cut_slip, use_slip, opening_slip, step_slip, notion_slip)
_BEGINNINGS = f"or begin a block with {either(BLOCKS)}"
_INSIDE = {
    **dict.fromkeys(("title", "maker", "chart", "uses", "allowance", "version", "edition", "wearer"), "pattern"),
    **dict.fromkeys(("points", "outline", "cut", "grain", "stretch"), "piece"),
    "input": "template",
    **dict.fromkeys(("text", "picture", "licence", "link", "step", "about"), "booklet"),
}
_EDGE = r"[A-Za-z]\w*\s+[\w.]+\s+to\s+[\w.]+$"
_COMMENT = re.compile(r"//|/\*|--")  # how other notations begin one
_MANY = 6  # a longer list of what was expected helps nobody

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
    token = mistake.token
    allowed = set(mistake.accepts or mistake.expected)
    expected = allowed - _GOING_ON or allowed
    if token.type == "_INDENT":
        return _nothing_opened(span)
    if token.type in ("_NL", "$END", "_DEDENT") or expected == {"_INDENT"}:
        return _too_short(expected, span)
    return _of_its_line(str(token), expected, span) or _amount(span) or _word(str(token), expected, allowed, span)


def _of_its_line(word: str, expected: set[str], span: Span) -> Note | None:
    """The note for what stands where how a piece is cut, or what is left open of a join, does not go on so."""
    text, place = _line(span)
    fixes = next(filter(None, (slip_of(word, expected, text[:place], text[place:]) for slip_of in _OF_LINES)), ())
    return error(f"{_wanted(expected)} was expected, but `{word}` stands here", span, *fixes) if fixes else None


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
    close = nearest(written, SECTIONS) if "EQUAL" in expected and " " not in written else ()
    return error(f"the line ends too soon: {_wanted(expected)} is missing", span, *close)


def _word(word: str, expected: set[str], allowed: set[str], span: Span) -> Note:
    text, place = _line(span)
    if found := _COMMENT.search(re.sub(r'"[^"]*"', lambda quoted: " " * len(quoted[0]), text[: place + 2])):
        return error(f"`{found[0]}` does not begin a comment", _at(span, found, 0), "a comment begins with `#`")
    if place == 0 and "PATTERN" in expected:
        return _no_block(word, span)
    keywords = [name.lower() for name in expected if name not in _SHOWN and name.isalpha()]
    keywords += _INPUT_KINDS if "INPUT_KIND" in expected else ()
    own = set(keywords) <= {"to", "then", "reversed", "onto"} or ("down" in keywords and word in WAYS)
    close = () if own else nearest(word, keywords)
    if word in words() and not close:
        if "NAME" in expected:
            return error(f"`{word}` is a word of the language, so it cannot be a name", span, f"try `{word}_1`")
        if "COMMA" in expected and not text[:place].rstrip().endswith(","):
            return error(f"there is no comma before `{word}`", span, f"try `, {word}`")
    if "_NL" in expected and not close and not text[:place].strip():
        return _nothing_opened(
            span, *(("or end that with a comma, if it goes on here",) if "COMMA" in expected else ())
        )
    fact = f"{_wanted(expected)} was expected, but `{word}` stands here"
    return error(fact, span, *(close or _slip(word, expected, allowed, text, place)))


def _slip(word: str, expected: set[str], allowed: set[str], text: str, place: int) -> tuple[str, ...]:
    """A hint for what people often write where the language has it otherwise."""
    before, rest = text[:place], text[place:]
    if expected == {"STRING"}:
        return (f'try `"{rest.strip()}"`',)
    if found := slip(word, expected | allowed, before, rest):
        return found
    if {"COMMA", "_NL"} <= expected and word.isidentifier():
        return (f"try `, {word}`",)
    if joined := _two_words(word, before, rest):
        return (f"try `{joined}`",)
    opens_block = text.split()[0] in BLOCKS and not text.startswith(" ")
    return ("begin a new line before it, indented further",) if expected - {"FROM"} == {"_NL"} and opens_block else ()


def _two_words(word: str, before: str, rest: str) -> str:
    """The name that was meant where it was written in two words or with a hyphen, or an empty text."""
    hyphen = re.search(r"([A-Za-z]\w*)-([A-Za-z]\w*)", before[-80:] + rest[:80])
    if word == "-" and hyphen:
        return f"{hyphen[1]}_{hyphen[2]}"
    pair = f"{before} {word}" if word.isidentifier() else before
    found = re.match(r"\s*(?:pattern |piece |template )?\s*([A-Za-z]\w*)\s+([A-Za-z]\w*)\s*$", pair)
    if found and found[1] + found[2] in words():
        return found[1] + found[2]
    apart = found and (found[2] in words() or found[1] in (*BLOCKS, *SECTIONS, *RESERVED))
    return f"{found[1]}_{found[2]}" if found and not apart else ""


def _no_block(word: str, span: Span) -> Note:
    if word in _INSIDE:
        return error(f"`{word}` does not begin a block", span, f"indent it under `{_INSIDE[word]}`")
    close = nearest(word.lower(), BLOCKS) or ("indent it if it belongs to the block above", _BEGINNINGS)
    return error(f"`{word}` does not begin a block", span, *close)


def _wanted(expected: set[str]) -> str:
    said = sorted(expected - _UNSAID)
    if set(said) >= {"NAME", "QUANTITY", "NUMBER"}:
        said = ["a value", *(s for s in said if s not in _VALUE and s in ("_NL", "STRING", "COMMA"))]
    elif set(said) >= {"ARC", "CURVE"}:
        said = ["a leg such as `straight`", "an option such as `allowance 1 cm`"]
    elif set(said) >= {"ACROSS", "DOWN"}:
        said = ["a direction such as `down`"]
    elif set(said) >= {"CUT_AS", "AS_LAYER"}:
        said = ["more of the cut such as `as a pair`"]
    elif set(said) >= {"QUARTERS", "EASED"}:
        said = ["an option of the join such as `notch at 50 %`"]
    elif set(said) >= {"ONTO", "THEN", "TO"}:
        said = ["`to` and the other side of the seam"]
    elif set(said) >= {"INPUT_KIND", "CHOICE"}:
        said = [*(f"`{kind}`" for kind in _INPUT_KINDS), "`choice of a, b`"]
        return either(said)
    elif set(said) >= {"AT", "MIDWAY"}:
        said = ["where the point lies, as in `from nape: 3 cm down`,"]
    words = [_SHOWN.get(name, name if " " in name else f"`{name.strip('_').lower()}`") for name in said]
    if len(words) > _MANY:
        words = [*words[:_MANY], "the like"]
    return either(words) if words else "something else"
