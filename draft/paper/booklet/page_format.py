"""How the booklet's pages are divided: two columns as usual, or one with letters twice as large.

A large page is laid out at half its size, as one column of a usual page, and shown at twice of that: whatever is set in
a column stands on both.
"""

from __future__ import annotations

from dataclasses import replace

from draft.base.record import dataclass
from draft.paper.drawing.drawing import INK
from draft.paper.drawing.face import Face
from draft.paper.drawing.flow import Type

WIDTH, HEIGHT = 210.0, 279.4
"""As wide as A4 and as high as Letter: it prints on either without being scaled."""


@dataclass(frozen=True)
class PageFormat:
    """A page in mm before it is enlarged: its edges, its columns, how often it is enlarged, and its largest type."""

    enlarged: float
    left: float
    top: float
    bottom: float
    columns: int
    gutter: float
    title: Type
    head: Type
    rule: str = INK
    """The colour of the line under a heading."""

    @property
    def width(self) -> float:
        """Of the page."""
        return WIDTH / self.enlarged

    @property
    def height(self) -> float:
        """Of the page."""
        return HEIGHT / self.enlarged

    @property
    def full(self) -> float:
        """Of the text, from edge to edge."""
        return self.width - 2 * self.left

    @property
    def column(self) -> float:
        """Of one column: 50 letters of the body's size, which two of a page have room for."""
        return (self.full - self.gutter * (self.columns - 1)) / self.columns

    def in_colours(self, face: Face) -> PageFormat:
        """The same with a studio's colours for headings and the lines under them."""
        title, head = (replace(one, colour=face.headings) for one in (self.title, self.head))
        return replace(self, title=title, head=head, rule=face.lines)

    def share(self, count: int) -> float:
        """Of one of so many blocks beside one another."""
        return (self.full - self.gutter * (count - 1)) / count


REGULAR = PageFormat(
    1.0, 16.0, 15.0, HEIGHT - 18.0, 2, 8.0,
    title=Type(44.0, bold=True, leading=1.08), head=Type(21.0, bold=True, leading=1.15),
)  # fmt: skip
LARGE = PageFormat(
    2.0, 8.0, 8.0, HEIGHT / 2 - 10.0, 1, 8.0,
    title=Type(24.0, bold=True, leading=1.1), head=Type(15.0, bold=True, leading=1.15),
)  # fmt: skip
