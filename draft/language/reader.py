"""From text to tree.

A line that cannot be read is noted, marked as broken and left out, and the text is read again: so that all mistakes
of a file are shown at once, and one of them never hides the rest.
"""

from __future__ import annotations

import re

from lark import UnexpectedCharacters, UnexpectedInput, UnexpectedToken
from lark.indenter import DedentError

from draft.language import tree
from draft.language.builder import Builder
from draft.language.grammar import BROKEN, parser
from draft.language.mistakes import describe
from draft.notes import Note, Problems, Source, Span, error

MAX_MISTAKES = 20  # more than a reader mends in one go
MAX_NESTING = 60  # parentheses within parentheses; keeps every later walk of the tree shallow


def read(source: Source) -> tree.File:
    """The tree of a text. Raises `Problems` with every line that could not be read."""
    notes = _forbidden(source)
    text = source.text if source.text.endswith("\n") else source.text + "\n"
    parsed = None
    while not notes or (parsed is None and len(notes) < MAX_MISTAKES):
        try:
            parsed = parser().parse(text)
            break
        except UnexpectedInput as mistake:
            note, text = _set_aside(mistake, source, text, {n.span.start for n in notes if n.span})
        except DedentError:
            note, text = _uneven(source, text), ""
        notes += [note] if note else []
        if not note:
            break
    if notes or parsed is None:
        raise Problems(notes or [error(f"`{source.name}` cannot be read")])
    return Builder(source).transform(parsed)  # type: ignore[no-any-return]


def _forbidden(source: Source) -> list[Note]:
    """Characters and nesting that no file of ours needs."""
    notes = []
    for found in re.finditer(rf"^ *\t|[\x00-\x08\x0b-\x1f{BROKEN}]", source.text, re.MULTILINE):
        fact = "a line is indented with a tab" if found[0].endswith("\t") else "a control character stands here"
        fix = "indent with four spaces" if found[0].endswith("\t") else "take it out"
        notes.append(error(fact, Span(source, found.start(), found.end()), fix))
    depth = 0
    for offset, letter in enumerate(source.text):
        depth = max(0, depth + (letter == "(") - (letter == ")"))
        if depth > MAX_NESTING:
            notes.append(error("parentheses are nested too deeply", Span(source, offset, offset + 1)))
            break
    return notes[:MAX_MISTAKES]


def _set_aside(mistake: UnexpectedInput, source: Source, text: str, known: set[int]) -> tuple[Note | None, str]:
    """A note on the first line that cannot be read, and the text with that line marked broken."""
    offset = _offset(mistake, text)
    span = Span(source, *_words(mistake, source, offset))
    note = describe(mistake, span)
    start = text.rfind("\n", 0, offset) + 1
    return (None if span.start in known else note), _mark_broken(text, start)


def _offset(mistake: UnexpectedInput, text: str) -> int:
    """Where the reader stopped: for the end of a line or a change of indent, the place just before it."""
    if isinstance(mistake, UnexpectedToken):
        token = mistake.token
        if token.type in ("$END", "_DEDENT"):
            return max(0, len(text.rstrip()) - 1)
        if token.type == "_INDENT":
            return _first_word(text, (token.end_pos or 1) - 1)
        if token.type == "_NL":
            return max(0, (token.start_pos or 1) - 1)
    return min(mistake.pos_in_stream or 0, len(text) - 1)


def _first_word(text: str, offset: int) -> int:
    found = re.compile(r"[^\s]").search(text, offset)
    return found.start() if found else offset


def _words(mistake: UnexpectedInput, source: Source, offset: int) -> tuple[int, int]:
    """The stretch to be marked: the unexpected word, or the last word of a line that ended too soon."""
    if isinstance(mistake, UnexpectedToken) and mistake.token.type in ("_NL", "$END", "_DEDENT"):
        line_start = source.text.rfind("\n", 0, offset) + 1
        written = source.text[line_start : offset + 1].split("#")[0].rstrip()
        end = line_start + len(written)
        found = re.search(r"\S+$", written)
        return (end - len(found[0]), end) if found else (line_start, line_start + 1)
    if isinstance(mistake, UnexpectedCharacters):
        found = re.compile(r"\S+").match(source.text, offset)
        return offset, found.end() if found else offset + 1
    found = re.compile(r"\w+|\S").match(source.text, offset)
    return offset, max(offset + 1, found.end() if found else offset + 1)


def _mark_broken(text: str, start: int) -> str:
    """The text with the line at `start` marked broken; the lines nested under it are emptied."""
    lines = text[start:].split("\n")
    indent = len(lines[0]) - len(lines[0].lstrip(" "))
    lines[0] = (" " * indent + BROKEN).ljust(len(lines[0]))
    for number in range(1, len(lines)):
        written = lines[number].split("#")[0]
        if written.strip() and len(written) - len(written.lstrip(" ")) <= indent:
            break
        lines[number] = " " * len(lines[number])
    return text[:start] + "\n".join(lines)


def _uneven(source: Source, text: str) -> Note:
    """A line whose indent matches no block above it."""
    indents = [0]
    offset = 0
    for line in text.split("\n"):
        written = line.split("#")[0]
        depth = len(written) - len(written.lstrip(" "))
        if written.strip():
            if depth < indents[-1] and depth not in indents:
                span = Span(source, offset, offset + len(line))
                return error("this line's indent matches no block above it", span, "indent it like its neighbours")
            indents = [i for i in indents if i < depth] + [depth]
        offset += len(line) + 1
    return error("the indents of this text do not match", Span(source, 0, 1))
