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
from lark.lexer import PatternRE, PatternStr, TerminalDef
from lark.parsers.lalr_analysis import Shift

from draft.base.kept import keep, recalled, sealed, unsealed
from draft.base.resources import folder
from draft.language import table_rows
from draft.language.by_place import PlaceLexer
from draft.language.table_rows import TREES, Row, Rows, Rules, row_text, rule_text, terminal_of, terminal_told
from draft.language.token_lines import TokenLines

FILE = "piece.tables"
"""Beside the grammar, where the wheel carries them."""
_READING = {"parser": "lalr", "lexer": "contextual", "start": ["start"], **TREES}
_PLAIN = {"g_regex_flags": 0, "use_bytes": False, "lexer_type": "contextual"}


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
        edit_terminals=_whole_words,
        **TREES,
        **_code(),
    )


def sealed_tables() -> bytes:
    """What a wheel carries."""
    grammar = (folder("grammar") / "piece.lark").read_text(encoding="utf-8")
    return sealed(key_of(grammar), packed(made(grammar)))


def key_of(grammar: str) -> str:
    """Names all that tables depend on: the grammar, this file and that of the rows, Lark."""
    recipe = [Path(file).read_text(encoding="utf-8") for file in (__file__, table_rows.__file__)]
    return hashlib.sha256("\n".join((lark.__version__, *recipe, grammar)).encode()).hexdigest()


def packed(parser: Lark) -> bytes:
    """A parser's tables: what is read at once, and the texts of its rules and rows."""
    table = parser.parser.parser._parse_table
    (start,), (end,) = table.start_states.values(), table.end_states.values()
    names = sorted({symbol.name for rule in parser.rules for symbol in (rule.origin, *rule.expansion)} | {"$END"})
    numbers = {name: number for number, name in enumerate(names)}
    states = _in_order(table.states, start)
    rules = {rule: number for number, rule in enumerate(parser.rules)}
    tables = {
        "terminals": [terminal_told(terminal) for terminal in parser.terminals],
        "ignore": list(parser.lexer_conf.ignore),
        "end": states[end],
        "names": names,
        "rules": [rule_text(rule, numbers) for rule in rules],
        "rows": [row_text(table.states[state], numbers, states, rules) for state in states],
    }
    return json.dumps(tables, separators=(",", ":")).encode()


def unpacked(tables: bytes) -> Lark:
    """The parser of such tables."""
    told = json.loads(tables)
    terminals = dict(enumerate(map(terminal_of, told["terminals"])))
    lexing = {"terminals": [{"@": number} for number in terminals], "ignore": told["ignore"]}
    parsing = {"rules": [], "start": ["start"], "parser_type": "lalr"}
    table = {"tokens": {}, "states": {}, "start_states": {"start": 0}, "end_states": {"start": told["end"]}}
    data = {"parser": {"lexer_conf": lexing | _PLAIN, "parser_conf": parsing, "parser": table}, "rules": []}
    parser = Lark._load_from_dict(data | {"options": _READING}, terminals, **_code())  # type: ignore[no-untyped-call]
    rows = Rows(told["names"], told["rows"], told["rules"], parser._callbacks)
    parser.parser.parser._parse_table.states = rows
    parser.parser.lexer.lexer.states = rows
    parser.rules = Rules(rows)
    return parser  # type: ignore[no-any-return]


def _in_order(rows: dict[int, Row], start: int) -> dict[int, int]:
    """The states numbered as they are come to, their tokens by name: Lark's own numbers differ each time."""
    numbers = {start: 0}
    states = [start]
    for state in states:  # which grows
        for _, (action, to) in sorted(rows[state].items(), key=lambda told: told[0]):
            if action is Shift and numbers.setdefault(to, len(states)) == len(states):
                states.append(to)
    return numbers


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
