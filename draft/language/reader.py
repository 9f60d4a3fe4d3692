"""From text to tree.

A line that cannot be read is noted, marked as broken and left out, and the text is read again: so that all mistakes
of a file are shown at once, and one of them never hides the rest.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from typing import Any

from lark import ParseTree, Token, UnexpectedInput, UnexpectedToken
from lark.indenter import DedentError

from draft.base.ending import LOOK, ending
from draft.base.notes import Note, Problems, Source, Span, error
from draft.base.record import dataclass
from draft.base.units import QuantityError, read_quantity
from draft.language import tree
from draft.language.builder import Builder
from draft.language.edition import newer
from draft.language.going_on import BRANCHES, heads
from draft.language.grammar import parser
from draft.language.indents import depth, says_nothing
from draft.language.lengths import overlong
from draft.language.mistakes import mistake_note
from draft.language.repeated import repeated
from draft.language.shape import BROKEN, first_look, set_aside
from draft.language.unclear import unclear

MAX_MISTAKES = 20  # more than a reader mends in one go
MAX_PARTS = 100  # parts of one value within one another; keeps every later walk of the tree shallow


def read(source: Source) -> tree.File:
    """The tree of a text. Raises `Problems` with every line that could not be read."""
    file, notes = read_partly(source)
    if notes or file is None:
        raise Problems(notes)
    return file


def read_partly(source: Source) -> tuple[tree.File | None, list[Note]]:
    """The tree of the lines that can be read, and notes on the others; None where there is none."""
    parsed = parsed_partly(source)
    file = Builder(source).transform(parsed.tree) if parsed.tree is not None and not parsed.unfit else None
    return file, notes_of(source, [parsed])


@dataclass(frozen=True)
class Parsed:
    """What Lark made of a text or of a part of one, and notes on what it could not read, or nobody could follow."""

    tree: ParseTree | None
    shape: tuple[Note, ...]
    lines: tuple[Note, ...]
    unfit: tuple[Note, ...]


def parsed_partly(source: Source) -> Parsed:
    """The parse of the lines that can be read; none where there are too many mistakes."""
    shape, text = first_look(source)
    notes: list[Note] = []
    parsed = None
    while parsed is None and len(shape) + len(notes) < MAX_MISTAKES:
        try:
            parsed = parser().parse(text + "\n")
        except UnexpectedInput as mistake:
            note, shorter = _set_aside(mistake, source, text)
            notes.append(note)
            if shorter == text:
                break
            text = shorter
        except DedentError:
            notes.append(error("the indents of this text do not match", Span(source, 0, 1)))
            break
    looks = (_unfit_values, repeated, unclear)
    unfit = [note for look in looks for note in look(parsed, source)] if parsed is not None else []
    return Parsed(parsed, tuple(shape), tuple(notes), tuple(unfit))


def notes_of(source: Source, parts: Iterable[Parsed]) -> list[Note]:
    """The notes on the parts of a text, in the order in which they are looked for; no more than can be mended."""
    every = list(parts)
    found = [note for sort in ("shape", "lines", "unfit") for part in every for note in getattr(part, sort)]
    return [*newer(source), *found[:MAX_MISTAKES]] if found else []


def _set_aside(mistake: UnexpectedInput, source: Source, text: str) -> tuple[Note, str]:
    """A note on the first line that cannot be read, and the text with that line set aside."""
    start, end = _place(mistake, text)
    note = mistake_note(mistake, Span(source, start, end))
    lines = text.split("\n")
    number = heads(source.text)[text.count("\n", 0, start)]
    lost = isinstance(mistake, UnexpectedToken) and mistake.token.type == "_INDENT"
    mark = "" if lost or BROKEN in lines[number] else BROKEN
    set_aside(lines, number, mark, depth(lines[number]))
    if source.text.split("\n")[number].split()[:1] in ([word] for word in BRANCHES):
        _set_aside_branches(lines, number)
    return note, "\n".join(lines)


def _set_aside_branches(lines: list[str], number: int) -> None:
    """Empty what goes with a `when` that could not be read: each `otherwise` as deep as it."""
    here = depth(lines[number])
    for below in range(number + 1, len(lines)):
        if says_nothing(lines[below]) or depth(lines[below]) > here:
            continue
        if depth(lines[below]) < here or lines[below].split()[0] != "otherwise":
            break
        set_aside(lines, below, "", here)


def _place(mistake: UnexpectedInput, text: str) -> tuple[int, int]:
    """The stretch to be marked: the unexpected word, or the last word of a line that ended too soon."""
    if isinstance(mistake, UnexpectedToken):
        token = mistake.token
        if token.type == "_INDENT":
            start = _first_word(text, (token.end_pos or 1) - 1)
            return start, _end_of(r"\S+", text, start)
        if token.type in ("_NL", "$END", "_DEDENT") or set(mistake.accepts or ()) == {"_INDENT"}:
            return _last_word(text, len(text) if token.start_pos is None else token.start_pos)
        return token.start_pos or 0, token.end_pos or 0
    offset = min(mistake.pos_in_stream or 0, len(text) - 1)
    if text[offset] == '"':
        return offset, _end_of(r"[^\n]*\S", text, offset)
    begun = ending(r"\w*$", text[max(0, offset - LOOK) : offset])
    start = offset - len(begun[0]) if begun and re.match(r"\w", text[offset]) else offset
    return start, _end_of(r"\w+|.", text, start)


def _end_of(pattern: str, text: str, start: int) -> int:
    found = re.compile(pattern).match(text, start)
    return found.end() if found else start + 1


def _first_word(text: str, offset: int) -> int:
    found = re.compile(r"\S").search(text, offset)
    return found.start() if found else offset


def _last_word(text: str, stop: int) -> tuple[int, int]:
    """The last word before `stop` that is not part of a comment."""
    while stop > 0:
        start = text.rfind("\n", 0, stop) + 1
        words = [w for w in re.finditer(r'"[^"]*"|#.*|[^\s"#]+', text[start:stop]) if w[0][0] != "#"]
        if words:
            return start + words[-1].start(), start + words[-1].end()
        stop = start - 1
    return 0, 1


def _unfit_values(parsed: ParseTree, source: Source) -> list[Note]:
    """Quantities that are none, names and texts that are too long, and values so long that no one could follow them."""
    notes = []
    waiting: list[tuple[Any, int, str]] = [(parsed, 0, "")]
    while waiting:
        node, level, rule = waiting.pop()
        if isinstance(node, Token):
            notes += overlong(node, rule, source)
            notes += _unfit_quantity(node, source) if node.type in ("QUANTITY", "NUMBER") else []
        elif node is not None:
            if level == MAX_PARTS:
                span = Span(source, node.meta.start_pos, node.meta.end_pos)
                notes.append(error("this value has too many parts", span, "give some of them a name under `let`"))
                break
            waiting += [(child, level + 1, node.data) for child in node.children]
    return notes


def _unfit_quantity(token: Token, source: Source) -> list[Note]:
    try:
        read_quantity(str(token))
    except QuantityError as reason:
        return [error(str(reason), Span(source, token.start_pos or 0, token.end_pos or 0))]
    return []
