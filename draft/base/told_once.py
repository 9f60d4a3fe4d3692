"""One mistake in a template, found again in every piece made from it, told once with the pieces named.

Only what is the same but for the piece is put together: the place, the fact, the figures and the fix.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import replace

from draft.base.notes import Note, either

_OF_A_PIECE = re.compile(r"`([A-Za-z]\w*)\.(?=[A-Za-z])")
_NAMED = 8
"""More names are counted: nobody reads them all."""


def told_once(notes: Iterable[Note]) -> list[Note]:
    """The notes in order, those alike in the place of the first; it says for which pieces else it holds."""
    alike: dict[object, list[tuple[str, Note]]] = {}
    for number, note in enumerate(dict.fromkeys(notes)):
        piece = _piece(note)
        key: object = number if piece is None else replace(note, message=_unnamed(note.message), hints=_hints(note))
        alike.setdefault(key, []).append((piece or "", note))
    return [_together(found) for found in alike.values()]


def _piece(note: Note) -> str | None:
    """The piece that a note on a line of a file is about; None if there is none, or more than one."""
    names = {name for text in (note.message, *note.hints) for name in _OF_A_PIECE.findall(text)}
    return names.pop() if len(names) == 1 and note.span else None


def _unnamed(text: str) -> str:
    return _OF_A_PIECE.sub("`.", text)


def _hints(note: Note) -> tuple[str, ...]:
    return tuple(map(_unnamed, note.hints))


def _together(found: list[tuple[str, Note]]) -> Note:
    (_, first), *others = found
    if not others:
        return first
    names = [f"`{name}`" for name, _ in others]
    shown = names if len(names) <= _NAMED else [*names[: _NAMED - 1], f"{len(names) - _NAMED + 1} more"]
    said = either(shown).replace(" or ", " and ")
    return replace(first, hints=(*first.hints, f"look at {said} too, where it is the same"))
