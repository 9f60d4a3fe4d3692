"""What is said or shown at a place of a document, apart from how it is set: for readers who hear it, and for HTML.

Items of a drawing point to their passage. Those of one passage are one paragraph, one cell or one figure, wherever
its lines came to stand; what points to none is ornament, such as a rule or a page's number.
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any, TypeVar

from draft.base.record import dataclass

_Item = TypeVar("_Item", bound=Any)
"""A path or a label, of which this file knows no more than that they may be said as a passage."""


@dataclass(frozen=True, eq=False)
class Passage:
    """One part of what is read: its role in the standard structure of PDF (ISO 32000-1, 14.8.4), and its words.

    `text` is a figure's alternative. `within` is what it is part of, a list or a row of a table; none for what stands
    by itself. `rows` is how many of a table
    a cell spans; a head is that of its row or else of its column.
    """

    role: str
    text: str = ""
    within: Passage | None = None
    rows: int = 1
    of_row: bool = False

    @property
    def chain(self) -> tuple[Passage, ...]:
        """What it is part of, the outermost first, and itself."""
        return (*(self.within.chain if self.within else ()), self)


class Headings:
    """Which level each heading has when none is left out: one below a heading two levels above it is a level nearer."""

    def __init__(self) -> None:
        self._open: list[int] = []

    def role(self, passage: Passage) -> str:
        """The role of the next passage in the order of reading; asked once of each heading."""
        if passage.role[:1] != "H" or not passage.role[1:].isdigit():
            return passage.role
        level = int(passage.role[1:])
        self._open = [*(above for above in self._open if above < level), level]
        return f"H{len(self._open)}"


def said_as(items: Iterable[_Item], passage: Passage) -> tuple[_Item, ...]:
    """Items that are one passage."""
    return tuple(item.said(passage) for item in items)
