"""Points whose place is written in plain numbers: they may be dragged, and the numbers follow.

A point `at 3 cm, 4 cm` goes anywhere; one `from top: 3 cm across, depth down` only along what is a plain number.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import replace
from functools import lru_cache

from draft.base.notes import Span
from draft.base.record import dataclass
from draft.page.designing.numbers_written import NUMBER, read_written

_BARE = re.sub(r"\?P<\w+>", "?:", NUMBER)
_AT = re.compile(rf"\w+[ \t]+at[ \t]+({_BARE})[ \t]*,[ \t]*({_BARE})[ \t]*(?:#.*)?$")
_FROM = re.compile(r"\w+[ \t]+from[ \t]+[\w.]+[ \t]*:[ \t]*(.+?)[ \t]*(?:#.*)?$")
_OFFSET = re.compile(rf"({_BARE})[ \t]+(across|inward|up|down)$")
_WAYS = {"across": (0, 1.0), "inward": (0, -1.0), "up": (1, 1.0), "down": (1, -1.0)}


@dataclass(frozen=True)
class Handle:
    """A number that a point is placed by: along which axis, in which direction, and where it stands in the text."""

    axis: int
    sign: float
    start: int
    end: int
    text: str


def handles(span: Span) -> tuple[Handle, ...]:
    """The plain numbers of the line that places a point; none where it is placed by anything else."""
    found = in_row(span.text.split("\n", 1)[0])
    return tuple(replace(handle, start=span.start + handle.start, end=span.start + handle.end) for handle in found)


@lru_cache(maxsize=2000)  # the points of a few garments
def in_row(row: str) -> tuple[Handle, ...]:
    """The plain numbers of a line that places a point, by their places in the line."""
    plain = _AT.match(row)
    if plain:
        return tuple(Handle(axis, 1.0, plain.start(axis + 1), plain.end(axis + 1), plain[axis + 1]) for axis in (0, 1))
    found = _FROM.match(row)
    return tuple(_offsets(found[1], found.start(1))) if found else ()


def _offsets(text: str, start: int) -> Iterator[Handle]:
    """Those of the offsets that are a plain number along an axis; none where two of them run along the same one."""
    parts, at, found = text.split(","), start, list[Handle]()
    for part in parts:
        lead = len(part) - len(part.lstrip())
        offset = _OFFSET.match(part.strip())
        if offset:
            axis, sign = _WAYS[offset[2]]
            found.append(Handle(axis, sign, at + lead, at + lead + len(offset[1]), offset[1]))
        elif not re.search(r"\b(?:across|inward|up|down)$", part.strip()):
            return  # a slanting offset moves the point along both
        at += len(part) + 1
    axes = [handle.axis for handle in found]
    yield from (handle for handle in found if axes.count(handle.axis) == 1)


def moved_to(handle: Handle, by: float) -> str:
    """The number that moves its point by so many mm along the handle's axis, as finely as it is written."""
    written = read_written(handle.text)
    assert written is not None
    plain_zero = not written.unit
    if plain_zero:
        written = read_written(handle.text.strip() + " cm")  # `at 0, 0` has no unit until it is moved
        assert written is not None
    return written.at(written.engine + handle.sign * by)
