"""Doing to a piece file what the tutorial tells its reader to do by hand.

A new line goes under its heading, a new heading at the end; a line whose name is already there takes its place.
"""

from __future__ import annotations

from dataclasses import field

from draft.base.record import dataclass

_LISTS = {"body", "check", "corners", "notches", "moves"}  # blocks whose lines have no names: they only grow
_NAMED = {"piece", "block", "template", "pattern"}  # headings that are told apart by a name


@dataclass
class Line:
    """A line with the lines that are indented under it."""

    text: str
    under: list[Line] = field(default_factory=list)

    def key(self, heading: str) -> str:
        """What the line is known by under its heading."""
        words = self.text.split()
        if words[0] == "#" or heading.split(" ")[0] in _LISTS:
            return self.text
        return " ".join(words[:2]) if words[0] in _NAMED and not heading else words[0]


def merged(before: str, change: str) -> str:
    """The file after the change."""
    lines = _lines(before)
    _merge(lines, _lines(change), "")
    return _written(lines)


def _lines(text: str) -> list[Line]:
    found = Line("")
    open_lines = [(-1, found)]
    for row in text.splitlines():
        if not row.strip():
            continue
        depth = len(row) - len(row.lstrip(" "))
        while open_lines[-1][0] >= depth:
            open_lines.pop()
        line = Line(row.strip())
        open_lines[-1][1].under.append(line)
        open_lines.append((depth, line))
    return found.under


def _merge(lines: list[Line], changes: list[Line], heading: str) -> None:
    for change in changes:
        known = {line.key(heading): place for place, line in enumerate(lines)}
        key = change.key(heading)
        if key not in known:
            lines.append(change)
        elif _is_heading(change, heading):
            old = lines[known[key]]
            old.text = change.text
            _merge(old.under, change.under, key)
        else:
            lines[known[key]] = change


def _is_heading(line: Line, heading: str) -> bool:
    """Whether the lines under it are kept: so in a block, not in an edge of several legs."""
    return bool(line.under) and heading.split(" ")[0] in ("", "piece", "block", "template")


def _written(lines: list[Line], depth: int = 0) -> str:
    rows: list[str] = []
    for line in lines:
        if depth == 0 and rows:
            rows.append("\n")
        rows.append("    " * depth + line.text + "\n")
        rows.append(_written(line.under, depth + 1))
    return "".join(rows)
