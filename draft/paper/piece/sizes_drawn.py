"""The sizes that are drawn together, and what the names of them take up."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from draft.base.arrays import Floats
from draft.base.record import dataclass
from draft.paper.drawing.drawing import PT, Label, Path
from draft.paper.drawing.room import Spot, words_at
from draft.paper.piece.blocks_of_names import Names
from draft.paper.piece.leaders import leader_drawn
from draft.paper.piece.names_gathered import Grounds
from draft.paper.piece.sized_marks import Anchor
from draft.paper.piece.surface import Surface
from draft.paper.piece.tag_places import name_high, name_wide
from draft.paper.piece.tags import name_of_size
from draft.paper.piece.title_block import SMALLEST

_NARROW = 2.2
"""A piece narrower than twice so many heights of names has none of its marks' on it."""


@dataclass(frozen=True)
class Sizes:
    """The sizes that are drawn together: their names, and the shapely shapes that each is cut to."""

    names: Sequence[str]
    shapes: Sequence[Any]
    surface: Surface
    grounds: Grounds

    @property
    def high(self) -> float:
        """The height of a name, mm."""
        return name_high(self.surface)

    @property
    def narrow(self) -> bool:
        """Whether names are so large beside the piece that they stand on the paper about it."""
        if not self.surface.level:
            return False
        return all(shape.buffer(-_NARROW * self.high).is_empty for shape in self.shapes)

    def said(self, anchor: Anchor) -> str:
        """What is said of a mark: its size, behind its own word if it has one."""
        return f"{anchor.word} {self.names[anchor.size]}".strip()

    def wide(self, anchor: Anchor) -> float:
        """The width of what is said of a mark, mm."""
        return name_wide(self.said(anchor), self.surface, anchor.bold)

    def spot(self, anchor: Anchor, middle: Floats) -> Spot:
        """The place of that about a point `(2,)`."""
        return Spot(float(middle[0]), float(middle[1]), self.wide(anchor), self.high, self.surface.upright)

    def names_of(self, anchors: Sequence[Anchor]) -> Names:
        """What the names of marks take up."""
        wide = [self.wide(anchor) for anchor in anchors]
        return Names(wide, self.high, [self.shapes[anchor.size] for anchor in anchors], self.surface)

    def label(self, anchor: Anchor, spot: Spot) -> Label:
        """What is said of a mark, in its place and its size's ink: lighter than the names of cutting lines."""
        return name_of_size(self.said(anchor), anchor.size, spot, self.surface, anchor.bold)

    def heading(self, word: str, spot: Spot) -> Label:
        """A word that stands above names of sizes, bold and of no size's ink."""
        return words_at(spot, word, SMALLEST * PT * self.surface.enlarged, bold=True)

    def led(self, anchor: Anchor, spot: Spot, leader: Any) -> tuple[Label, Path]:
        """The same, and the shapely line that leads to it from its mark."""
        return self.label(anchor, spot), leader_drawn(anchor, leader, self.said(anchor), self.surface.enlarged)
