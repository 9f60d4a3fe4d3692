"""What belongs at a place where something else stands: its kind and an example, where it could be one of many words."""

from __future__ import annotations

from collections.abc import Collection

from draft.base.notes import either

GOING_ON = {"PLUS", "MINUS", "STAR", "DIVIDED", "ABOVE", "BELOW", "ROUNDED", "ONLY"}
"""What can follow most values and lines: naming it helps nobody while something else is expected."""
_UNSAID = {"BROKEN", "_DEDENT", "$END", "DOT", "WHEN", "WITHOUT", "OTHERWISE"}
_SHOWN = {
    "NAME": "a name",
    "QUANTITY": "a quantity such as `3 cm`",
    "NUMBER": "a number",
    "STRING": 'a text in "..."',
    "_NL": "the end of the line",
    "_INDENT": "an indented line",
    "CUT_AS": "`as a pair`, `right side up`",
    "ON_SIDE": "`on the left`, `on the right`",
    "OPEN_FOR": "`for a slit` or the like",
    "PLACED": "`after`, `before`, `instead of`",
    "AS_LAYER": "`as outside`, `as inside`",
    "BOWED_AS": "`together`, `apart`",
    "LET_OUT_AS": "`ease`, `gathers`, `flare`",
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
NAMED = frozenset(_SHOWN)
"""Terminals that are no plain words of the language."""
_VALUE = {"NAME", "QUANTITY", "NUMBER", "LPAR", "MINUS", "LENGTH"}
_VALUE_BEGINS = {"NAME", "QUANTITY", "NUMBER"}
_KINDS = (
    ("BODY JOIN PIECE", "a block such as `piece`"),
    ("CUT OUTLINE", "a part of the piece such as `outline`"),
    ("CHART MAKER", "a setting of the pattern such as `title`"),
    ("LICENCE STEP", "a line of the booklet such as `text`"),
    ("ARC CURVE ALLOWANCE", "a leg such as `straight`, or an option such as `allowance 1 cm`"),
    ("ARC CURVE", "a leg such as `straight`"),
    ("ALLOWANCE TURNED", "an option of the edge such as `allowance 1 cm`"),
    ("AT MIDWAY", "where the point lies, as in `from nape: 3 cm down`,"),
    ("ACROSS DOWN", "a direction such as `down`"),
    ("CLOSE SLASH", "a move such as `close`"),
    ("INTO OPEN", "where the dart goes, as in `open waist_dart on waist at 50 % from side`,"),
    ("DOUBLE ON", "where the notch lies, as in `on side: 8 cm from hem`,"),
    ("BUTTON DRILL", "the sort of the mark such as `drill`"),
    ("CORNER_KIND", "how the cutting line goes round the corner, such as `carried`,"),
    ("INPUT_KIND", "the kind of the input such as `length`"),
    ("CUT_AS AS_LAYER", "more of the cut such as `as a pair`"),
    ("AS_LAYER COMMA", "more of the cut such as `as outside`"),
    ("EASED QUARTERS", "an option of the join such as `notch at 50 %`"),
    ("ONTO TO", "`to` and the other side of the seam"),
    ("REVERSED COMMA _NL", "the end of the line, or more of the seam such as `, eased 1 cm`,"),
    ("THEN COMMA STRING _NL", "the end of the line, or more of the seam such as `, eased 1 cm`,"),
    ("ON_SIDE OPEN_FOR", "more of the opening such as `for a slit`"),
    ("OPEN_FOR COMMA", "more of the opening such as `for a slit`"),
    ("AT_LEAST EQUALS", "how the two compare, such as `at least`,"),
    ("OVER PASSING", "more of the measurement such as `over hip_girth`"),
    ("GOING _NL", "more of the measurement such as `going across`"),
    ("LAST MEETS", "`meets` and what it meets"),
    ("NEAREST _NL", "the end of the line, or `nearest` and a point,"),
    ("ARRIVING _NL", "the end of the line, or more of the curve such as `arriving down`,"),
    ("PLACED STRING", "the words of the step, or its place such as `after side`,"),
    ("LINK PICTURE", 'more of the step such as `picture "FILE"`'),
    ("ABOUT COMMA _NL", "the end of the line, or another measure behind a `,`,"),
    ("FROM COMMA _NL", "the end of the line, or another measure behind a `,`,"),
    ("IS OR _NL", "the end of the line, or more of the condition such as `or`,"),
    ("AT STRING OTHERWISE", "the option, level or size that comes next"),
    ("FROM IS _NL", "the end of the line, or what it is drawn after, as in `from front`,"),
    ("LET_OUT_AS", "what becomes of it, such as `ease`,"),
    ("COMMA THEN TO", "the end of the line, or more of the leg such as `to hip`,"),
    ("COMMA TO _NL", "the end of the line, or more of the leg such as `to hip`,"),
    ("COMMA OVER _NL", "the end of the line, or more of the seam such as `, eased 1 cm`,"),
)
"""What all of some words belong to, the first of them that is so."""


def wanted(expected: Collection[str]) -> str:
    """The words for what belongs at a place where any of the terminals `expected` may stand."""
    said = sorted(set(expected) - _UNSAID)
    if set(said) == _VALUE_BEGINS:
        return "what is usual, such as `3 cm` or the name of an option,"
    if set(said) >= _VALUE_BEGINS:
        said = ["a value", *(s for s in said if s not in _VALUE and s in ("_NL", "STRING", "COMMA"))]
    elif kind := next((words for all_of, words in _KINDS if set(all_of.split()) <= set(said)), ""):
        return kind
    shown = [_SHOWN.get(name, name if " " in name else f"`{name.strip('_').lower()}`") for name in said]
    return either(shown) if shown else "something else"
