"""What people write where the language has it otherwise, and what they mean."""

from __future__ import annotations

import re

from draft.base.ending import ending
from draft.language.grammar import words
from draft.language.laid_slips import laid_slip

# Ways that are said otherwise, on paper and by hand.
WAYS = {
    **dict.fromkeys(("right", "out", "outward", "outwards", "sideways", "over", "along"), "across"),
    **dict.fromkeys(("left", "in", "inwards", "back"), "inward"),
    **dict.fromkeys(("top", "upward", "upwards", "above", "higher"), "up"),
    **dict.fromkeys(("bottom", "downward", "downwards", "below", "lower"), "down"),
}
_WAY = r"(up|down|across|inward)"
_OF_A_POINT = ("at", "from", "on", "midway", "square", "mirrored", "turned", "laid", "where", "strike")
_BRANCHES = {"if": "when", "unless": "when ... is not ...", "elif": "otherwise when", "else": "otherwise"}
_NUMBERS = ("one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten")
_INSTEAD_OF_TO = ("with", "and", "into", "by", "at", "on", "plus")
_COMPARED = {
    **dict.fromkeys(("is", "are", "equal", "=", "same", "as"), "equals"),
    **dict.fromkeys(("more", "greater", "over", "above", "larger", "longer", "least", "min"), "at least"),
    **dict.fromkeys(("less", "under", "below", "smaller", "shorter", "most", "max"), "at most"),
}
TIMES = ("x", "times", "×", "·")


def slip(word: str, expected: set[str], before: str, rest: str) -> tuple[str, ...]:
    """A fix for `word`, which stands between two parts of its line where something else was expected; or none."""
    return (
        _branch(word, expected, before, rest)
        or _way(word, expected, before, rest)
        or _point(word, expected, before)
        or _compared(word, expected)
        or _usual(word, expected, before)
        or laid_slip(word, expected, before, rest)
        or _other(word, expected, before, rest)
    )


def cut_slip(word: str, expected: set[str], before: str, rest: str) -> tuple[str, ...]:
    """A fix for `word` in a line that says how often a piece is cut, and of which cloths; or none."""
    if not re.match(r"\s*cut\b", before):
        return ()
    if expected == {"NUMBER"}:
        return (_how_many(word),)
    if not {"CUT_AS", "AS_LAYER"} & expected and word != "of":
        return ()
    if word == "on":
        return ("write `on fold` behind the edge that lies on the fold",)
    if word in ("and", "plus"):
        return ("try `,` in its place",)
    if word == "of":
        return ("the cloth stands behind the number: `1 of shell as outside`",)
    if word == "as":
        layer = re.match(r"as\s+(?:the\s+)?(outer|upper|top|out|inner|under|lower|in|lining|facing)\b", rest)
        if layer:
            return (f"try `as {'outside' if layer[1] in ('outer', 'upper', 'top', 'out') else 'inside'}`",)
        return ("try `as a pair`, `as outside` or `as inside`",)
    if word in ("outside", "inside"):
        return (f"try `as {word}`",)
    return (f"try `of {word}`",) if "OF" in expected and word.isidentifier() else ()


def _how_many(word: str) -> str:
    """A fix for what stands where a number of pieces should."""
    if word in _NUMBERS:
        return f"try `{_NUMBERS.index(word) + 1}`"
    return "say how many: `1 of ...`" if word in words() else f"try `1 of {word}`"


def part_slip(word: str, expected: set[str], before: str, rest: str) -> tuple[str, ...]:
    """A fix for `word` behind an edge of which a seam has a part; or none."""
    if "THEN" not in expected:
        return ()
    edge = ending(r"([A-Za-z]\w*\.\w+)\s+$", before)
    if word == "reversed" and re.search(r"\bpart\s+of\b", before):
        return ("it is run from the first place to the second: name them the other way round",)
    if word in ("from", "between") and edge:
        return (f"write `part of {edge[1]} from PLACE to PLACE`",)
    return ()


def opening_slip(word: str, expected: set[str], before: str, rest: str) -> tuple[str, ...]:
    """A fix for `word` where a join says how much of it is left open, and where; or none."""
    if not ending(r",\s*open\b[^,]*$", before):
        return ()
    if ending(r"open\s+from\s*$", before):
        return ("say how much first: `open 18 cm from ...`",)
    if "FROM" in expected and word in ("at", "on", "below", "to"):
        return ("try `from`",)
    said = re.match(r"(?:on\s+)?(?:the\s+)?(left|right)\b", rest)
    return (f"try `on the {said[1]}`",) if "ON_SIDE" in expected and said else ()


def _branch(word: str, expected: set[str], before: str, rest: str) -> tuple[str, ...]:
    """Conditions as they are written elsewhere."""
    if found := re.match(r"\s*(if|unless|else|elif)\b", before + rest):
        return (f"try `{_BRANCHES[found[1]]}`",)
    if not re.match(r"\s*(?:otherwise\s+)?when\b", before):
        return ()
    if "IS" in expected:
        return (f"try `is {word}`",) if word.isidentifier() else ("try `is`",)
    return ("try `and` in its place",) if word == "," and "AND" in expected else ()


def _way(word: str, expected: set[str], before: str, rest: str) -> tuple[str, ...]:
    """Directions: by another name, or before the length."""
    if not {"ACROSS", "DOWN"} <= expected and "UP" not in expected:
        return ()
    if expected <= {"UP"}:
        return ("write `turned up`, wherever the edge lies",) if ending(r"turned\s*$", before) else ()
    said = ending(rf"{_WAY}\s*$", before)
    if said and word[:1].isdigit():
        return (f"try `{word} {said[1]}`",)
    return (f"try `{WAYS[word]}`",) if word in WAYS else ()


def _compared(word: str, expected: set[str]) -> tuple[str, ...]:
    """What two values of a promise are to one another."""
    return (f"try `{_COMPARED[word]}`",) if "AT_LEAST" in expected and word in _COMPARED else ()


def _usual(word: str, expected: set[str], before: str) -> tuple[str, ...]:
    """An amount where none stands: of a style it comes first, and of a body from a chart."""
    if {"COMMA", "_NL"} <= expected and expected <= {"COMMA", "_NL", "ABOUT", "FROM"} and re.match(r"[\d=]", word):
        fix = "a chart or a person says how much it is: take the amount out"
        return (fix, "or write `about` before it, where it is an estimate") if "ABOUT" in expected else ()
    if word == "=" and {"NAME", "QUANTITY"} <= expected and "LPAR" not in expected:
        return ("take the `=` out",)
    named = re.match(r"\s+(\w+)\s+(\w+)\s*$", before)
    if expected != {"OF"} or not named:
        return ()
    if named[2] == "from":
        return (f"the usual amount stands first: `{named[1]} {word} from ...`",)
    if named[2] == "of":
        return (f"the usual option stands first: `{named[1]} {word} of {word}, ...`",)
    return (f"say which there are: `{named[1]} {named[2]} of {named[2]}, ...`",) if word == "," else ()


def _point(word: str, expected: set[str], before: str) -> tuple[str, ...]:
    """A point among edges, or with an `=`."""
    name = re.match(r"\s*(\w+)\s+(\w+)\s*$", before)
    if "TO" in expected and name and name[2] in _OF_A_POINT:
        return ("a point belongs under `points`",)
    given = re.match(r"\s*(\w+)\s*=\s*(\w+)\s*$", f"{before} {word}" if word in _OF_A_POINT else before)
    if given and given[2] in _OF_A_POINT:
        return (f"a point has no `=`: under `points`, try `{given[1]} {given[2]} ...`",)
    return ()


def _other(word: str, expected: set[str], before: str, rest: str) -> tuple[str, ...]:
    if expected & {"SHORT", "LONG"} and (less := ending(r"(short|long)\s*$", before)):
        return (f"try `{word} {less[1]}`",)
    if expected == {"TOWARDS"} and word in ("to", "at", "on", "toward"):
        return ("try `towards`",)
    if "NEAREST" in expected and word in ("closest", "near"):
        return ("try `nearest`",)
    if word == "," and "AND" in expected and expected <= {"AND", "TO", "DOT"}:
        return ("try `and` in its place",)
    if word in TIMES and "STAR" in expected:
        return ("try `*`",)
    if fixes := _value(word, before):
        return fixes
    if "TO" in expected and expected <= {"TO", "THEN", "REVERSED", "ONTO", "DOT"} and word.isidentifier():
        return _side(word, expected, before, rest)
    if "ALLOWANCE" in expected and re.match(r"\w+\s+allowance\b", rest):
        return ("write `allowance` alone, with its width",)
    return ()


def _side(word: str, expected: set[str], before: str, rest: str) -> tuple[str, ...]:
    """A side of a seam or an end of an edge that goes on with a word that no `to` stands before."""
    if word in _INSTEAD_OF_TO:
        return ("try `to` in its place",)
    if link := ending(rf"\b({'|'.join(_INSTEAD_OF_TO)})\s*$", before):
        return (f"take `{link[1]}` out",)
    if ending(r"\bwithout\s*$", before):
        return ("`without` begins its line: `without NAME, NAME`",)
    if word in words():
        return ()
    if fixes := _layer(before):
        return fixes
    dotted = re.match(r"\w+\s+(to|then|reversed)\b", rest)
    goes_on = re.search(r"\bto\b", rest)
    pair = re.match(r"\s*(\w+)\s+(\w+)\s*$", before)
    if "THEN" not in expected and goes_on and pair and pair[2] not in words():
        return (f"try `{pair[1]}_{pair[2]}`",)
    if piece := dotted and ending(r"(?<![.\w])(\w+)\s*$", before):
        return (f"try `{piece[1]}.{word}`",)
    return () if goes_on else (f"try `to {word}`",)


def _value(word: str, before: str) -> tuple[str, ...]:
    """A value that is begun and wants more words, or parentheses."""
    if estimated := ending(r"(\w+),\s*about\s*$", before):
        return (f"take the comma out: `{estimated[1]} about {word} ...`",)
    if part := ending(r"\b(half|third|quarter|radius)\s*$", before):
        return (f"try `{part[1]} of {word}`",)
    if word == "of" and (compared := ending(r"\b(larger|smaller|run)\s*$", before)):
        return (f"put it into parentheses: `({compared[1]} of ...)`",)
    if ending(r"\bangle\s*$", before):
        return ("try `angle between a to b and a to c`",)
    return ()


def _layer(before: str) -> tuple[str, ...]:
    """The side of a piece said twice, or by another name."""
    if layer := ending(r"\bthen\s+(outside|inside)\s*$", before):
        return (f"the side is said once, before its first edge: take this `{layer[1]}` out",)
    if layer := ending(r"\b(outer|upper|inner|under)\s*$", before):
        return (f"try `{'outside' if layer[1] in ('outer', 'upper') else 'inside'}`",)
    return ()
