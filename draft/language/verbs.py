"""What the hand does on paper, by the names that others have for it, and how the language says it there."""

from __future__ import annotations

import re

from draft.base.ending import ending
from draft.language.ahead import Ahead

_PIVOT = "a dart is turned by closing it: `close DART, open NAME on EDGE at PLACE`"
_SPREAD = "paper is spread along a line: `slash along LINE, spread 3 cm`"
_LAY = "one draft is laid on another: `lay DRAFT as NAME, EDGE on EDGE`"
_LONGER = "an edge is moved outwards by `extend EDGE by 3 cm as NAME`"
_MOVES = {
    **dict.fromkeys(("rotate", "pivot", "swing", "turn", "transfer", "move", "shift", "swivel"), _PIVOT),
    **dict.fromkeys(("spread", "fan", "open", "cut", "split", "expand", "widen"), _SPREAD),
    **dict.fromkeys(("place", "attach", "overlap", "fold", "merge", "match", "align"), _LAY),
    **dict.fromkeys(("offset", "add", "grow"), _LONGER),
    "lengthen": "paper is lengthened at a line: `slash along LINE, spread 3 cm`",
    "shorten": "paper is shortened at a line: `slash along LINE, spread -3 cm`",
}
OWN_MOVES = ("hold", "close", "slash", "lay", "extend")
_BOWED = "the legs of a dart are curves by `bowed 3 mm together`, or `bowed 8 mm towards EDGE`"
_CURVED = ("curve", "curved", "shaped", "hollow", "hollowed", "contoured", "rounded", "arched")
_SIDES = {
    **dict.fromkeys(("in", "inward", "inwards", "hollow"), "try `together`"),
    **dict.fromkeys(("out", "outward", "outwards", "full"), "try `apart`"),
}
_LEGS = {
    **dict.fromkeys(("parallel", "offset", "alongside"), "try `beside`"),
    **dict.fromkeys(("along", "like", "copy", "copied", "same", "follow", "follows"), "try `following`"),
    **dict.fromkeys(("line", "direct"), "try `straight`"),
    **dict.fromkeys(("circle", "circular"), "try `arc`"),
    **dict.fromkeys(("spline", "smooth", "bow", "bend"), "try `curve`"),
    **dict.fromkeys(("mirror", "reflect", "reflected"), "an edge is mirrored by `following mirrored EDGE over A to B`"),
    "mirrored": "try `following mirrored`",
    "turned": "try `following turned`",
}
_THROUGH = ("via", "with", "past", "by", "over", "touching")
_TURNED = "try `turned POINT about POINT: 30 deg`"
_MIRRORED = "try `mirrored POINT over A to B`"
_MEETING = "try `where A to B meets C to D`"
_SQUARE = "try `square from POINT onto A to B`"
_POINTS = {
    **dict.fromkeys(("rotate", "rotated", "pivot", "pivoted", "swing", "swung", "turn"), _TURNED),
    **dict.fromkeys(("mirror", "reflect", "reflected", "flip", "flipped"), _MIRRORED),
    **dict.fromkeys(("intersect", "intersection", "cross", "crossing", "meeting", "meets"), _MEETING),
    **dict.fromkeys(("perpendicular", "project", "projected", "foot", "drop"), _SQUARE),
    **dict.fromkeys(("mid", "middle", "midpoint", "half", "halfway", "centre", "between"), "try `midway A to B`"),
    **dict.fromkeys(("along", "part", "share", "divide"), "try `on A to B: 30 % from A`"),
    **dict.fromkeys(("offset", "move", "shift", "moved", "shifted"), "try `from POINT: 3 cm across, 2 cm up`"),
    **dict.fromkeys(("same", "copy", "equals"), "try `is POINT`"),
    **dict.fromkeys(OWN_MOVES, "a move such as `slash` is made under `moves`, before the points"),
}


def verb_slip(word: str, ahead: Ahead, before: str) -> tuple[str, ...]:
    """A fix for `word` where a move, or what places a point, should stand; or none."""
    if {"CLOSE", "SLASH"} <= ahead.expected:
        return (_MOVES[word],) if word in _MOVES else ()
    if {"AT", "MIDWAY"} <= ahead.expected:
        return _of_a_point(word, before)
    if fix := _of_a_leg(word, ahead, before):
        return (fix,)
    if ahead.expected == {"SHORT"}:
        return (_BOWED,) if (said := ending(r"(\w+)\s*$", before)) and said[1] in _CURVED else ()
    if "BOWED_AS" in ahead.expected:
        return (_SIDES[word],) if word in _SIDES else ()
    if ahead.expected == {"POINTS"} and (nameless := re.match(r"\s+(at|from|on)\s", before)):
        return (f"give the point a name first: `NAME {nameless[1]} ...`",)
    head = re.match(r"\s+(\w+)\s+$", before)
    other = ahead.expected <= {"EQUAL", "AROUND"} or {"COMMA", "FROM", "_NL"} <= ahead.expected
    return move_slip(head[1]) if head and other else ()


def _of_a_leg(word: str, ahead: Ahead, before: str) -> str:
    if {"ARC", "CURVE", "BESIDE"} <= ahead.expected:
        return _LEGS.get(word, "")
    passes = "THROUGH" in ahead.expected and ending(r"\bcurve\s*$", before)
    return "try `through`" if passes and word in _THROUGH else ""


def _of_a_point(word: str, before: str) -> tuple[str, ...]:
    head = re.match(r"\s*(\w+)\s+$", before)
    if head and head[1] in OWN_MOVES:
        return ("a move is written under `moves`",)
    if head and head[1] in ("at", "from", "on", "midway", "square", "mirrored", "turned", "laid", "where", "strike"):
        return (f"give the point a name first: `NAME {head[1]} {word} ...`",)
    return (_POINTS[word],) if word in _POINTS else ()


def move_slip(word: str) -> tuple[str, ...]:
    """A fix for a line that begins with what is done on paper, where no move can stand; or none."""
    if word not in _MOVES and word not in OWN_MOVES:
        return ()
    return ("a move is written under `moves` of a piece or block", *([_MOVES[word]] if word in _MOVES else ()))
