"""Reading a TOML table so that a mistake can be shown on its line.

Python's reader gives a tree without places, and stops at the first fault of syntax.
"""

from __future__ import annotations

import re
import tomllib

from draft.base.naming import shortened
from draft.base.notes import Note, Problems, Source, Span, error

_UNQUOTED = re.compile(
    r"^[ \t]*(?P<key>[A-Za-z0-9_-]+)[ \t]*=[ \t]*(?P<value>[-+]?\.?\d[\d./, ]*[a-z\"%]+)[ \t]*(?:#.*)?$", re.M
)
MOST_POINTS = 200
"""In one line: more than the longest text that is printed has."""
_PLACE = re.compile(r"\s*\(at (?:line (\d+), column \d+|end of document)\)$")


def read_toml(source: Source, example: str) -> dict[str, object]:
    """The tree of a TOML text. Raises Problems, with `example` as a line that would be right."""
    _stop_if_deep(source)
    try:
        return tomllib.loads(source.text)
    except RecursionError:
        raise Problems([error(f"`{source.name}` is nested too deeply")]) from None
    except ValueError as reason:
        raise Problems(_unquoted(source) or [_syntax(source, str(reason), example)]) from None


def _stop_if_deep(source: Source) -> None:
    """Each point in a key opens a table within the last, and Python's reader takes the square of their number."""
    start = 0
    for line in source.text.split("\n"):
        if line.count(".") > MOST_POINTS:
            span = Span(source, start, start + len(line))
            raise Problems(
                [error(f"this line has more than {MOST_POINTS} points", span, "write plain names, in quotes")]
            )
        start += len(line) + 1


def place(source: Source, key: str, below: str = "") -> Span | None:
    """Where a key stands: the line that it begins, its `[header]`, or the first place of the word itself.

    With `below` it is looked for from that header on.
    """
    word = re.escape(key)
    header = re.search(rf"^[ \t]*\[[ \t]*{re.escape(below)}[ \t]*\]", source.text, re.M) if below else None
    start = header.end() if header else 0
    for pattern in (
        rf"^[ \t]*(?:[\w-]+[ \t]*\.[ \t]*)?(?P<it>[\"']?{word}[\"']?[ \t]*=.*)$",
        rf"^[ \t]*(?P<it>\[[ \t\"']*{word}[ \t\"']*\])",
        rf"(?<![\w-])(?P<it>{word})(?![\w-])",
    ):
        if found := re.compile(pattern, re.M).search(source.text, start):
            return Span(source, *found.span("it"))
    return None


def _unquoted(source: Source) -> list[Note]:
    """The likeliest slip, on every line that has it: a quantity without quotes around it."""
    notes = []
    for found in _UNQUOTED.finditer(source.text):
        value = found["value"].replace('"', " in")
        hint = f'try `{found["key"]} = "{value}"`'
        fact = f"{shortened(found['value'])} needs quotes around it"
        notes.append(error(fact, Span(source, *found.span("value")), hint))
    return notes[:20]  # more are no help


def _syntax(source: Source, reason: str, example: str) -> Note:
    at = _PLACE.search(reason)
    said = _PLACE.sub("", reason)
    number = int(at[1]) if at and at[1] else source.text.rstrip().count("\n") + 1
    start = sum(len(line) + 1 for line in source.text.split("\n")[: number - 1])
    end = start + len(source.line(number))
    fact = f"this is not TOML: {said[:1].lower()}{said[1:80]}"
    return error(fact, Span(source, start, end), f"write each line as `{example}`")
