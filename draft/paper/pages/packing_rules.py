"""How pieces are to lie on printed pages, and where they came to lie."""

from __future__ import annotations

from draft.base.record import dataclass
from draft.paper.drawing.drawing import Turn

CELL = 4.25
"""About 1/6 in: 45 x 60 cells on a page of Letter, and the least distance between two pieces, room for scissors."""
COARSE = 6.4
"""The same on large paper, where there is room."""


@dataclass(frozen=True)
class Packing:
    """Where each piece lies, in the order given, and how many columns and rows of pages the sheet has."""

    turns: tuple[Turn, ...]
    columns: int
    rows: int


@dataclass(frozen=True)
class Rules:
    """What a packing must keep to beside the count of pages.

    `whole`: no piece crosses the edge of a page if it fits on one. `roll`: there is one column of pages, each a strip
    across a roll of paper, and what counts is the length of the roll. `upright` pieces are never turned, and those
    `together` lie whole on a page like all where that is the rule. `cell` is the side of a cell in mm.
    """

    whole: bool = False
    roll: bool = False
    upright: tuple[int, ...] = ()
    together: tuple[int, ...] = ()
    cell: float = CELL

    def is_whole(self, piece: int) -> bool:
        """Whether a piece may not cross the edge of a page that it fits on."""
        return self.whole or piece in self.together


TAPED = Rules()
"""Pages that are taped together: pieces may lie across them."""
