"""What sort of name belongs to each part of a line: after `on` in a dart an edge, after `of` in `cut` a cloth.

For the words of points and values their records say it; for the rest of the language it stands here, by the rule of
the grammar and the symbol of it that stands before.
"""

from __future__ import annotations

from enum import Enum, auto

from draft.base.units import Kind
from draft.language.standing import Part
from draft.words import TWINS, WORDS
from draft.words.word import QUANTITIES


class Wanted(Enum):
    """What a name may be of, beside the kinds of values."""

    MEASURE = auto()
    NEW_MEASURE = auto()
    PROPERTY = auto()
    STYLE = auto()
    LEANT_ON = auto()
    OPTION = auto()
    CLOTH = auto()
    PIECE = auto()
    TEMPLATE = auto()
    JOIN = auto()
    TAKEUP = auto()
    MARKED_LINE = auto()
    TRACED_EDGE = auto()
    LAID = auto()
    GIVEN = auto()
    TAKEN_OUT = auto()
    END = auto()


Wants = frozenset[Kind | Wanted]

_POINT, _EDGE, _EITHER = frozenset({Kind.POINT}), frozenset({Kind.EDGE}), frozenset({Kind.POINT, Kind.EDGE})
_LENGTH, _NUMBER, _WAY = frozenset({Kind.LENGTH}), frozenset({Kind.NUMBER}), frozenset({Kind.DIRECTION})
_SHARE = _LENGTH | _NUMBER
_ANY = QUANTITIES | _WAY
_ROWS = frozenset({Kind.POINT, Kind.ROW})


def _one(wanted: Wanted) -> Wants:
    return frozenset({wanted})


_PARTS: dict[str, dict[str, Wants]] = {
    "measure": {"": _one(Wanted.NEW_MEASURE)},
    "estimate": {"ABOUT": _one(Wanted.MEASURE)},
    "property": {"": _one(Wanted.PROPERTY)},
    "definition": {"": _one(Wanted.GIVEN), "EQUAL": _ANY | _EITHER},
    "default": {"": _ANY},
    "unknown": {"FROM": QUANTITIES, "TO": QUANTITIES},
    "nearest": {"NEAREST": QUANTITIES},
    "relation": {"": QUANTITIES, "EQUALS": QUANTITIES, "AT_LEAST": QUANTITIES, "AT_MOST": QUANTITIES},
    "template": {"FROM": _one(Wanted.TEMPLATE)},
    "head_after": {"IS": _one(Wanted.TEMPLATE)},
    "made_after": {"IS": _one(Wanted.TEMPLATE)},
    "traced_from": {"FROM": _one(Wanted.PIECE)},
    "between": dict.fromkeys(("BETWEEN", "COMMA", "AND"), _one(Wanted.TRACED_EDGE)),
    "cut_part": {"OF": _one(Wanted.CLOTH)},
    "grain": {"GRAIN": _WAY},
    "stretch": {"STRETCH": _WAY},
    "hold": {"HOLD": _EDGE},
    "close": {"CLOSE": frozenset({Wanted.TAKEUP, Kind.NUMBER}), "OF": _one(Wanted.TAKEUP)},
    "merged": {"INTO": _one(Wanted.TAKEUP)},
    "opened": {"ON": _EDGE, "AT": _POINT},
    "let_out": {"ON": _EDGE, "AT": _POINT},
    "slash_along": {"ALONG": _EDGE},
    "slash_rows": {"SLASH": _EDGE, "TO": _EDGE, "": _EDGE},
    "spread": {"SPREAD": _LENGTH, "AT": _EDGE},
    "spread_more": {"": _LENGTH, "AT": _EDGE},
    "taken_up": {"FOLDED": _LENGTH},
    "lay": {"LAY": _one(Wanted.PIECE), "COMMA": _one(Wanted.LAID), "ON": _EITHER},
    "towards": {"": _one(Wanted.LAID), "TOWARDS": _POINT},
    "extend": {"EXTEND": _EDGE, "BY": _LENGTH},
    "on_place": {"": _SHARE, "FROM": _POINT},
    "place": {"BY": _one(Wanted.STYLE)},
    "place_row": {"": _one(Wanted.OPTION)},
    "edge": dict.fromkeys(("NAME", "TO"), _POINT),
    "edge_again": {"": _one(Wanted.TRACED_EDGE)},
    "straight": {"TO": _POINT},
    "curve": {"TO": _POINT},
    "through": dict.fromkeys(("THROUGH", "THEN"), _POINT),
    "arc": dict.fromkeys(("ROUND", "TO"), _POINT),
    "following": {"FOLLOWING": _EDGE, "TO": _POINT},
    "beside": {"BESIDE": _EDGE, "THEN": _EDGE, "TO": _POINT},
    "leaving": {"LEAVING": _WAY},
    "heading": {"HEADING": _WAY},
    "arriving": {"ARRIVING": _WAY},
    "square_to": {"TO": _EDGE},
    "measuring": {"MEASURING": _LENGTH},
    "gathered": {"GATHERED": _NUMBER},
    "only_for": {"FOR": _one(Wanted.STYLE), "style_name": _one(Wanted.OPTION), "OR": _one(Wanted.OPTION)},
    "choice_is": {"": _one(Wanted.STYLE), "IS": _one(Wanted.OPTION), "NOT": _one(Wanted.OPTION)},
    "or_choice": {"OR": _one(Wanted.OPTION)},
    "dart": {"ON": _EDGE, "COLON": _LENGTH, "AT": _POINT, "TO": _POINT},
    "pleat": {"ON": _EDGE, "COLON": _LENGTH, "AT": _POINT, "FOLDED": _LENGTH},
    "pressed": {"TOWARDS": _EITHER},
    "short": {"": _LENGTH},
    "bowed": {"BOWED": _LENGTH},
    "bowed_towards": {"TOWARDS": _EITHER},
    "laid_towards": {"TOWARDS": _EITHER},
    "set_notch": {"ON": _EDGE, "COLON": _SHARE, "FROM": _POINT},
    "fastening": {"AT": _ROWS},
    "hole": {"COMMA": _LENGTH, "": _LENGTH},
    "drill": {"AT": _ROWS},
    "placement": dict.fromkeys(("LINE", "FOLD", "TO"), _POINT),
    "across_line": {"AT": _POINT},
    "corner": {"": _POINT},
    "part": {"": _EDGE},
    "rejoined": {"ALONG": _EDGE},
    "patch": {"ONTO": frozenset({Wanted.MARKED_LINE, Wanted.JOIN})},
    "left_open": {"OPEN": _LENGTH, "FROM": _POINT},
    "stretched": {"STRETCHED": _NUMBER},
    "eased": {"EASED": _NUMBER},
    "notch": {"AT": _SHARE},
    "double_notch": {"AT": _SHARE},
    "matched_notch": {"AT": _SHARE},
    "over_length": {"": _LENGTH},
    "finished": {"EQUAL": QUANTITIES},
    "worn_over": {"OVER": _LENGTH},
    "passing": dict.fromkeys(("PASSING", "THEN"), _LENGTH),
    "running": {"GOING": _WAY},
    "allowance": {"ALLOWANCE": _LENGTH},
    "cloth_allowance": {"ALLOWANCE": _LENGTH},
    "advice": {"STEP": frozenset({Wanted.JOIN, Wanted.PIECE})},
    "without": dict.fromkeys(("WITHOUT", "COMMA"), _one(Wanted.TAKEN_OUT)),
    "by": {"BY": _one(Wanted.LEANT_ON)},
    "by_choice": {"": _one(Wanted.OPTION), "OR": _one(Wanted.OPTION), "NAME": _ANY},
    "by_level": {"AT": QUANTITIES, "_atom": _ANY},
    "by_size": {"STRING": _ANY},
    "by_rest": {"OTHERWISE": _ANY},
}


def wanted(parts: set[Part]) -> Wants:
    """What a name may be of where it is one of these parts; empty where the name is a new one."""
    found: set[Kind | Wanted] = set()
    for part in parts:
        if part.rule in WORDS:
            found |= _of_word(part)
        elif part.rule in _PARTS:
            known = _PARTS[part.rule]
            found |= known.get(part.behind, frozenset())
    return frozenset(found)


def _of_word(part: Part) -> Wants:
    """By its record; a word that only begins here with a value says no more than what waits for the value."""
    word = WORDS[part.rule]
    if not word.takes or (not part.behind and word.gives is not Kind.STEP and _taken(word.takes[0]) <= QUANTITIES):
        return frozenset()
    if word.from_end and part.behind == "FROM":
        return _one(Wanted.END)
    twin = WORDS[TWINS[part.rule]] if part.rule in TWINS else word
    kinds = {kind for each in (word, twin) for kind in _taken(each.takes[min(part.number, len(each.takes) - 1)])}
    return frozenset(Kind.POINT if kind is Kind.LINE else kind for kind in kinds)


def _taken(takes: object) -> frozenset[Kind]:
    return takes if isinstance(takes, frozenset) else QUANTITIES
