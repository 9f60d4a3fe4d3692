"""Odd texts made of sound ones: each function takes a text and a source of chance, and gives another text."""

from __future__ import annotations

import random
import re

NUMBER = re.compile(r"(?<![\w.])\d+(?:\.\d+)?(?:[eE][-+]?\d+)?")
WORD = re.compile(r"[A-Za-z_]\w*")
TOKEN = re.compile(r'\w+|"[^"\n]*"|[^\w\s]')
UNIT = re.compile(r"(?<=[\d ])(?:cm|mm|m|in|deg|%)(?!\w)")
UNITS = ("cm", "mm", "m", "in", "ft", "deg", "rad", "%", "", "km", "kg")
NUMBERS = (
    "0", "-0", "-1", "1", "1e-9", "1e-300", "1e9", "1e18", "1e308", "1e309", "9" * 400, "0." + "0" * 60 + "1", "nan",
    "inf", "-inf", "1_000", "0x10", "1/0", "0/0", "1 1/2", "3 1/0", "1e", ".", "..", "1,5", "½", "٣", "²", "1000000",
    "99999",
)  # fmt: skip
LETTERS = (
    "\x00", "\x07", "\x1b[2J", "\x1b]0;x\x07", "\x7f", "\x85", "\x9b31m", "\u00ad", "\u200b", "\u200f", "\u202e",
    "\u2066", "\u2028", "\u2029", "\ufeff", "\ufffe", "\U000e0041", "\U0001f9f5", "e\u0301\u0301\u0301", "\u0130",
    "\u1e9e", "\r", "\r\n", "\t", "\u00a0", "\u3000", "$", "`", "\\", "'", "&amp;", "<b>", "%s", "{0}", "{x}", "../",
    "/", "=1+1", "@x", ";", "|", "~",
)  # fmt: skip


def number_blown_up(text: str, chance: random.Random) -> str:
    return _replaced(text, NUMBER, chance.choice(NUMBERS), chance)


def number_scaled(text: str, chance: random.Random) -> str:
    """A figure times some power of ten, or with its sign turned."""
    found = _one(text, NUMBER, chance)
    if found is None:
        return text
    factor = chance.choice((-1, 0.001, 0.01, 0.1, 10, 100, 1000))
    return text[: found.start()] + f"{float(found[0]) * factor:.10g}" + text[found.end() :]


def number_nudged(text: str, chance: random.Random) -> str:
    """A figure up to twice as large, or down to nothing: many patterns stand that."""
    found = _one(text, NUMBER, chance)
    if found is None:
        return text
    return text[: found.start()] + f"{float(found[0]) * chance.uniform(0, 2):.4g}" + text[found.end() :]


def unit_swapped(text: str, chance: random.Random) -> str:
    return _replaced(text, UNIT, chance.choice(UNITS), chance)


def word_swapped(text: str, chance: random.Random) -> str:
    """A name or word put where another stood."""
    other = _one(text, WORD, chance)
    return _replaced(text, WORD, other[0], chance) if other else text


def token_swapped(text: str, chance: random.Random) -> str:
    other = _one(text, TOKEN, chance)
    return _replaced(text, TOKEN, other[0], chance) if other else text


def token_lost(text: str, chance: random.Random) -> str:
    return _replaced(text, TOKEN, "", chance)


def word_lengthened(text: str, chance: random.Random) -> str:
    found = _one(text, WORD, chance)
    long = (found[0] if found else "a") * chance.choice((3, 30, 300, 3000))
    return _replaced(text, WORD, long, chance)


def letters_put_in(text: str, chance: random.Random) -> str:
    """Controls, marks of direction and other letters that matter to somebody, anywhere or within a quotation."""
    places = [found.start() + 1 for found in re.finditer(r'"[^"\n]+"', text)] if chance.random() < 0.5 else []
    at = chance.choice(places) if places else chance.randint(0, len(text))
    return text[:at] + chance.choice(LETTERS) + text[at:]


def lines_lost(text: str, chance: random.Random) -> str:
    lines = text.split("\n")
    at, many = chance.randrange(len(lines)), chance.choice((1, 1, 1, 2, 5, 20))
    return "\n".join(lines[:at] + lines[at + many :])


def lines_doubled(text: str, chance: random.Random) -> str:
    lines = text.split("\n")
    at, many = chance.randrange(len(lines)), chance.choice((1, 1, 2, 5, 20))
    times = chance.choice((1, 1, 1, 2, 40))
    return "\n".join(lines[:at] + lines[at : at + many] * times + lines[at:])


def lines_exchanged(text: str, chance: random.Random) -> str:
    lines = text.split("\n")
    one, other = chance.randrange(len(lines)), chance.randrange(len(lines))
    lines[one], lines[other] = lines[other], lines[one]
    return "\n".join(lines)


def indent_changed(text: str, chance: random.Random) -> str:
    lines = text.split("\n")
    at = chance.randrange(len(lines))
    lines[at] = chance.choice(("", "  ", "    ", "        ", "\t")) + lines[at].lstrip()
    return "\n".join(lines)


def nested(text: str, chance: random.Random) -> str:
    """Something wrapped in many brackets, signs or sums."""
    before, after = chance.choice((("(", ")"), ("-", ""), ("1 + (", ")"), ("length of ", ""), ("[", "]"), ("{", "}")))
    times = chance.choice((1, 2, 20, 200))
    found = _one(text, TOKEN, chance)
    if found is None:
        return text
    return text[: found.start()] + before * times + found[0] + after * times + text[found.end() :]


def cut_off(text: str, chance: random.Random) -> str:
    return text[: chance.randint(0, len(text))]


GENTLE = (number_nudged, number_nudged, number_nudged, number_scaled, word_swapped, lines_lost, unit_swapped)
"""What leaves most texts readable, so that odd garments are drawn."""
HARSH = (
    number_blown_up, number_scaled, number_nudged, unit_swapped, word_swapped, word_swapped, token_swapped, token_lost,
    word_lengthened, letters_put_in, lines_lost, lines_doubled, lines_exchanged, indent_changed, nested, cut_off,
)  # fmt: skip


def mangled(text: str, chance: random.Random, gentle: bool = False) -> str:
    """The text after one to four changes."""
    for _ in range(chance.choice((1, 1, 1, 2, 2, 3, 4))):
        text = chance.choice(GENTLE if gentle else HARSH)(text, chance)
    return text


def mangled_bytes(text: str, chance: random.Random, gentle: bool = False) -> bytes:
    """The text mangled, as bytes; now and then some of these are odd too."""
    data = bytearray(mangled(text, chance, gentle).encode("utf-8", "surrogatepass"))
    if not gentle and data and chance.random() < 0.03:
        for _ in range(chance.choice((1, 4, 40))):
            data[chance.randrange(len(data))] = chance.randrange(256)
    return bytes(data)


def _one(text: str, pattern: re.Pattern[str], chance: random.Random) -> re.Match[str] | None:
    """One place of a pattern; the search begins at a line by chance, as long texts have thousands of places."""
    at = chance.randint(0, len(text))
    return pattern.search(text, at) or pattern.search(text)


def _replaced(text: str, pattern: re.Pattern[str], other: str, chance: random.Random) -> str:
    found = _one(text, pattern, chance)
    return text[: found.start()] + other + text[found.end() :] if found else text
