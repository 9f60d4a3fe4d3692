"""How the line that is being written goes on: the form of its record, and which part of it comes next."""

from __future__ import annotations

import re
from collections.abc import Sequence

from draft.base.ending import ending
from draft.base.record import dataclass
from draft.editor.complete import in_text, spelled_words, standing_at
from draft.editor.surroundings import surroundings
from draft.language.standing import Begun
from draft.reference.entries import ReferenceEntry, entries

_MARKS = {"COLON": ":", "COMMA": ",", "EQUAL": "=", "DOT": ".", "LPAR": "(", "RPAR": ")"}
_TOKEN = re.compile(r'"[A-Z ]+"|[A-Z]+(?:[.|][A-Z]+)*|[a-z]+|[:,=]|\.\.\.')
_FORMS = {
    **dict.fromkeys(("opened", "merged", "let_out", "close"), "close"),
    **dict.fromkeys(("slash", "slash_along", "slash_rows", "spread", "spread_more", "taken_up"), "slash"),
    **dict.fromkeys(("style_range", "style_choice"), "style"),
    **dict.fromkeys(("unknown", "wanted"), "solve"),
    **dict.fromkeys(("drill", "placement"), "marks"),
    "across_line": "lines across",
    "place": "points",
    "place_row": "by, of a point",
    "edge": "outline",
    "dart": "darts",
    "pleat": "pleats",
    "set_notch": "notches",
    "fastening": "buttons, buttonholes and snaps",
    "corner": "corners",
    "patch": "onto",
    "rejoined": "along, of a join",
    "promise": "check",
    "definition": "let",
    "own_measure": "body, a measure of its own",
    "property": "fabric",
    "cloth": "fabric, one of several",
    "left_open": "open",
    "notch": "notch at",
    "double_notch": "double notch at",
    "matched_notch": "matched notch at",
    "worn_over": "worn over",
    "running": "going",
    "advice": "step",
    "condition": "when",
    "choice_is": "when",
}
"""The forms of rules that have another name."""
MEANT = {
    "POINT": "a point: its name",
    "EDGE": "an edge or a line: its name, in a join with its piece, `front.side`",
    "LENGTH": "a length: `3 cm`, a value, or a sum of them",
    "ANGLE": "an angle: `20 deg`, or a value",
    "SHARE": "a share: `40 %`, or a number",
    "DIRECTION": "a direction: `down`, `across`, `along a to b`, `20 deg below across`",
    "WAY": "a direction, or `square to EDGE`",
    "VALUE": "an amount, a name, or a sum of them",
    "STYLE": "the name of a style with choices",
    "CHOICE": "one of the choices of the style",
    "NAME": "a name of your own",
    "SENTENCE": "what it is, in a sentence for whoever reads the pattern",
    "LEG": "how it runs: `straight`, `curve`, `arc`, `following`",
    "OPTION": "what else is said of it",
    "TEMPLATE": "the name of a template",
    "DRAFT": "the name of a block or a piece",
    "FABRIC": "the name of a cloth",
    "DART": "the name of a dart",
    "NUMBER": "how many",
}
"""What stands for the words in capitals."""


@dataclass(frozen=True)
class Signature:
    """A line of a form, what it says, the places of its parts in it, and which of them comes next."""

    form: str
    words: str
    parts: tuple[tuple[int, int], ...]
    next: int

    def meant(self, part: tuple[int, int]) -> str:
        """What stands for a part."""
        names = self.form[slice(*part)].strip('"').split("|")
        if len(names[0]) == 1:
            return MEANT["POINT" if " to " in self.form or " from " in self.form else "VALUE"]
        return ", or ".join(MEANT[name] for name in names if name in MEANT)


def signature(text: str, offset: int) -> Signature | None:
    """What is being written at a place; None where that has no record."""
    here = surroundings(text, offset)
    if in_text(here.before):
        return None
    begun = ending(r"\w*$", here.before)
    standing = standing_at(here, here.before[: len(here.before) - len(begun[0])] if begun else here.before)
    records = {entry.name: entry for entry in entries()}
    for rule in standing.begun() if standing.reads else ():
        name = rule.rule.partition("{")[0]
        record = records.get(_FORMS.get(name, name)) or records.get(name.replace("_", " "))
        if record and "_NL" not in rule.symbols:
            return _signature(record, rule)
    return None


def _signature(record: ReferenceEntry, rule: Begun) -> Signature:
    rows = [row.strip() for row in record.form.split("\n")]
    lines = rows[1:] if rows[1:] and rows[0].isalpha() else rows
    followed = [(_follow(line, rule.symbols), line) for line in lines]
    (_, at), line = max(followed, key=lambda each: each[0][0])
    parts = tuple(found.span() for found in _TOKEN.finditer(line))
    return Signature(line, record.words, parts, min(at, len(parts) - 1))


def _follow(line: str, symbols: Sequence[str]) -> tuple[int, int]:
    """How many symbols are found in a line of a form one after another, and the part behind the last."""
    parts = [found[0] for found in _TOKEN.finditer(line)]
    at = matched = 0
    for symbol in symbols:
        if symbol == "fastening_kind":  # one of several words
            continue
        written = _written(symbol)
        new = next((k for k in range(at, len(parts)) if _is(parts[k], written)), None)
        if new is not None:
            at, matched = new + len(written or ("one",)), matched + 1
    return matched, at


def _written(symbol: str) -> tuple[str, ...]:
    """The words of a symbol that is written as it stands; none for what a designer writes."""
    if symbol in _MARKS:
        return (_MARKS[symbol],)
    return tuple(spelled_words().get(symbol, [""])[0].split())


def _is(part: str, written: tuple[str, ...]) -> bool:
    return part == written[0] if written else not part.islower() and part not in (":", ",", "=", "...")
