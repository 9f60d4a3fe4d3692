"""The parser's tables as plain data: making them of the grammar takes longer than drafting a size, reading them little.

The wheel carries them; in a checkout they are kept for the user. Both are used only where they were made of the same
grammar, by the same version of Lark, as this file says.
"""

from __future__ import annotations

import hashlib
import json
from pathlib import Path
from typing import Any

import lark
from lark import Lark
from lark.grammar import Rule
from lark.lexer import PatternRE, PatternStr, TerminalDef

from draft.base.kept import keep, recalled, sealed, unsealed
from draft.base.resources import folder
from draft.language.by_place import PlaceLexer
from draft.language.token_lines import TokenLines

FILE = "piece.tables"
"""Beside the grammar, where the wheel carries them."""
_OURS = ("postlex", "edit_terminals", "_plugins")  # options that are code of ours, and no data


def ready_parser() -> Lark:
    """The parser of the piece language: of tables made before, or else made anew and kept."""
    grammar = (folder("grammar") / "piece.lark").read_text(encoding="utf-8")
    key = key_of(grammar)
    parser = _of_tables(_carried(key)) or _of_tables(recalled(FILE, key))
    if parser is None:
        parser = made(grammar)
        keep(FILE, key, packed(parser))
    return parser


def made(grammar: str) -> Lark:
    """The LALR parser of a grammar."""
    return Lark(
        grammar,
        parser="lalr",
        propagate_positions=True,
        maybe_placeholders=True,
        edit_terminals=_whole_words,
        **_code(),
    )


def sealed_tables() -> bytes:
    """What a wheel carries."""
    grammar = (folder("grammar") / "piece.lark").read_text(encoding="utf-8")
    return sealed(key_of(grammar), packed(made(grammar)))


def key_of(grammar: str) -> str:
    """Names all that tables depend on: the grammar, this file, Lark."""
    recipe = Path(__file__).read_text(encoding="utf-8")
    return hashlib.sha256("\n".join((lark.__version__, recipe, grammar)).encode()).hexdigest()


def packed(parser: Lark) -> bytes:
    """A parser's tables."""
    data, shared = parser.memo_serialize([TerminalDef, Rule])
    data["options"] = {name: value for name, value in data["options"].items() if name not in _OURS}
    data["parser"]["parser"] |= _in_order(data["parser"]["parser"])
    return json.dumps([data, shared], separators=(",", ":")).encode()


def unpacked(tables: bytes) -> Lark:
    """The parser of such tables."""
    data, shared = json.loads(tables)
    table = data["parser"]["parser"]
    table["states"] = {int(number): row for number, row in table["states"].items()}
    shared = {int(number): thing for number, thing in shared.items()}
    return Lark._load_from_dict(data, shared, **_code())  # type: ignore[no-any-return, no-untyped-call]


def _in_order(table: dict[str, Any]) -> dict[str, Any]:
    """A table with its tokens by name and its states as they are come to: Lark's own numbers differ each time."""
    names, (start,) = table["tokens"], table["start_states"].values()
    tokens = {name: number for number, name in enumerate(sorted(names.values()))}
    states: list[int] = [start]
    numbers = {start: 0}
    for state in states:  # which grows
        for _, (reduces, to) in sorted(table["states"][state].items(), key=lambda action: str(names[action[0]])):
            if not reduces and numbers.setdefault(to, len(states)) == len(states):
                states.append(to)
    rows = [{tokens[names[token]]: action for token, action in table["states"][state].items()} for state in states]
    return {
        "tokens": {number: name for name, number in tokens.items()},
        "states": {
            state: {token: (reduces, to if reduces else numbers[to]) for token, (reduces, to) in sorted(row.items())}
            for state, row in enumerate(rows)
        },
        **{key: {name: numbers[at] for name, at in table[key].items()} for key in ("start_states", "end_states")},
    }


def _carried(key: str) -> bytes | None:
    try:
        return unsealed(key, (folder("grammar") / FILE).read_bytes())
    except OSError:
        return None


def _of_tables(tables: bytes | None) -> Lark | None:
    if tables is None:
        return None
    try:
        return unpacked(tables)
    except (AttributeError, LookupError, TypeError, ValueError):  # what Lark says of data that are no tables
        return None


def _code() -> dict[str, Any]:
    return {"postlex": TokenLines(), "_plugins": {"ContextualLexer": PlaceLexer}}


def _whole_words(terminal: TerminalDef) -> None:
    """Let a fixed word match only where no letter follows: `lets` is one unknown word, not `let` and `s`."""
    pattern = terminal.pattern
    if isinstance(pattern, PatternStr) and pattern.value.isalpha():
        terminal.pattern = PatternRE(rf"{pattern.value}(?![A-Za-z0-9_])", raw=pattern.value)
        terminal.priority = 1  # before a name of the same letters
