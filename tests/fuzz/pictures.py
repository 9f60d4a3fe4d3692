"""Pictures that can be read, and are odd: other values of attributes, elements again, and one within the other."""

from __future__ import annotations

import random
import re

from tests.fuzz.mangling import GENTLE, NUMBERS

_ATTRIBUTE = re.compile(r'([\w-]+)="([^"]*)"')
_ELEMENT = re.compile(r"<(?:rect|circle|ellipse|path|polyline|text)\b[^>]*(?:/>|>[^<]*</\w+>)")
VALUES = (
    "", " ", "none", "url(#c)", "url(#g)", "url(#none)", "url(file:odd.svg)", "#c", "inherit", "currentColor", "100%",
    "-100%", "1em", "1e9em", "auto", "rotate(1e9)", "scale(0)", "scale(1e-9)", "scale(1e9)", "matrix(0 0 0 0 0 0)",
    "matrix(1 1 1 1 1 1)", "translate(nan)", "skewX(90)", "M0 0", "M", "Z", "M0 0 A0 0 0 1 1 5 5", "M0 0 L1e308 0 Z",
    "M0 0 C1 1", "M0 0 a1e-9 1e9 45 0 1 3 3", "0 0 0 0", "0 0 -5 5", "0 0 1e9 1e-9", "1 2 3", "0", "1,1", "1,1 2",
    "rgb(999,-1,0)", "rgba(1)", "#12", "#zzzzzz", "hsl(1e9,0,0)", "0 0 0 0 0 0", "1 -1", "0,0", "evenodd", "bold", "-1",
)  # fmt: skip
NAMES = (
    "transform", "d", "points", "viewBox", "width", "height", "fill", "stroke", "stroke-width", "stroke-dasharray",
    "clip-path", "opacity", "font-size", "font-family", "rx", "ry", "r", "cx", "x", "y", "dx", "rotate", "style",
    "class", "display", "visibility", "preserveAspectRatio", "gradientTransform", "gradientUnits", "offset",
    "textLength", "letter-spacing", "text-anchor", "href", "mask", "filter", "marker-end",
    "stroke-linecap", "overflow", "id",
)  # fmt: skip


def odd_picture(text: str, chance: random.Random) -> str:
    """The picture after one to four changes, of which most leave it well formed."""
    for _ in range(chance.randint(1, 4)):
        text = chance.choice((_value_changed, _value_changed, _added, _again, _wrapped, _nudged))(text, chance)
    return text


def _value(chance: random.Random) -> str:
    return chance.choice(VALUES + NUMBERS)


def _value_changed(text: str, chance: random.Random) -> str:
    found = chance.choice([one for one in _ATTRIBUTE.finditer(text) if one[1] != "xmlns"])
    return text[: found.start(2)] + _value(chance) + text[found.end(2) :]


def _added(text: str, chance: random.Random) -> str:
    """An attribute more on some element."""
    found = list(re.finditer(r"<\w+(?=[ />])", text))
    name, at = chance.choice(NAMES), chance.choice(found).end()
    rest = text[at : text.find(">", at)]
    return text if f" {name}=" in rest else f'{text[:at]} {name}="{_value(chance)}"{text[at:]}'


def _again(text: str, chance: random.Random) -> str:
    found = list(_ELEMENT.finditer(text))
    if not found:
        return text
    one = chance.choice(found)
    return text[: one.end()] + one[0] * chance.choice((1, 5, 300)) + text[one.end() :]


def _wrapped(text: str, chance: random.Random) -> str:
    """An element within many others."""
    found = list(_ELEMENT.finditer(text))
    if not found:
        return text
    one, times = chance.choice(found), chance.choice((1, 5, 100, 2000))
    name = chance.choice(("g", "a", "svg", "clipPath", "defs", "text"))
    before = chance.choice(("", ' transform="scale(2)"', ' clip-path="url(#c)"', ' opacity="0.5"'))
    return f"{text[: one.start()]}{f'<{name}{before}>' * times}{one[0]}{f'</{name}>' * times}{text[one.end() :]}"


def _nudged(text: str, chance: random.Random) -> str:
    return chance.choice(GENTLE[:4])(text, chance)
