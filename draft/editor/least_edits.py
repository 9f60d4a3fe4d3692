"""One text made into another by changing no more than differs, so that a cursor and its marks stay where they are."""

from __future__ import annotations

from collections.abc import Iterator
from difflib import SequenceMatcher
from itertools import accumulate

from draft.base.record import dataclass


@dataclass(frozen=True)
class Edit:
    """What stands between two offsets of a text is to be this."""

    start: int
    end: int
    text: str


def least_edits(before: str, after: str) -> list[Edit]:
    """The edits that make one text into the other, line by line; a line that only differs somewhere is edited there."""
    old, new = before.splitlines(keepends=True), after.splitlines(keepends=True)
    starts = [0, *accumulate(map(len, old))]
    found: list[Edit] = []
    for tag, i1, i2, j1, j2 in SequenceMatcher(None, old, new, autojunk=False).get_opcodes():
        if tag == "replace" and i2 - i1 == j2 - j1:
            found += [_within(starts[i1 + k], old[i1 + k], new[j1 + k]) for k in range(i2 - i1)]
        elif tag != "equal":
            found.append(Edit(starts[i1], starts[i2], "".join(new[j1:j2])))
    return found


def within(edits: list[Edit], start: int, end: int) -> Iterator[Edit]:
    """Those edits that touch a stretch of the text."""
    return (edit for edit in edits if edit.start <= end and start <= edit.end)


def _within(start: int, old: str, new: str) -> Edit:
    least = min(len(old), len(new))
    same = next((k for k in range(least) if old[k] != new[k]), least)
    rest = next((k for k in range(least - same) if old[-1 - k] != new[-1 - k]), least - same)
    return Edit(start + same, start + len(old) - rest, new[same : len(new) - rest])
