"""A line of a text with a mark under some of it, never wider than a terminal, whatever stands in the line."""

from __future__ import annotations

from draft.base.visible import columns, visible

WIDEST = 160
"""Columns: the widest terminal in common use, and room for every line of a plain file."""
_GUTTER = 8
_DOTS = "..."
_ROOM = WIDEST - _GUTTER - 2 * len(_DOTS)
_BEFORE = 20
"""Columns that are kept before the mark where a line is too long to be shown."""
_MOST = 2 * WIDEST
"""Letters that are shown, as some take no column."""


def excerpt(line: str, number: int, start: int, length: int) -> list[str]:
    """The line with its number, and below it the mark under so many letters from `start` (counted from 0)."""
    first, last = _window(line, start)
    text = "".join(_shown(letter) for letter in line[first:last])
    before = "".join("\t" if letter == "\t" else " " * columns(_shown(letter)) for letter in line[first:start])
    under = "".join(" " if letter == "\t" else _shown(letter) for letter in line[start : min(start + length, last)])
    left, right = (_DOTS if cut else "" for cut in (first > 0, last < len(line)))
    return [f"{number:5d} | {left}{text}{right}", f"      | {' ' * len(left)}{before}{'^' * max(1, columns(under))}"]


def _window(line: str, start: int) -> tuple[int, int]:
    """From which letter to which the line is shown: all of it, or what is around the mark."""
    first = _reach(line, min(start, len(line)), 0, _BEFORE, _MOST // 4)
    if len(line) <= _MOST and columns("".join(map(_shown, line))) <= WIDEST - _GUTTER:
        return 0, len(line)
    last = _reach(line, first, len(line), _ROOM, _MOST)
    return (_reach(line, last, 0, _ROOM, _MOST) if last == len(line) else first), last


def _reach(line: str, start: int, end: int, room: int, letters: int) -> int:
    """How far one comes from `start` towards `end` over so many columns and letters."""
    step = 1 if end > start else -1
    at = start
    while at != end and abs(at - start) < letters:
        room -= columns(_shown(line[at if step > 0 else at - 1]))
        if room < 0:
            break
        at += step
    return at


def _shown(letter: str) -> str:
    return "\t" if letter == "\t" else visible(letter)
