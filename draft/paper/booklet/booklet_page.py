"""The booklet's page: a narrow column for headings and small drawings, a wide one for words, tables across both."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import field, replace

from draft.base.record import dataclass
from draft.geometry.cubic import lines_through
from draft.paper.drawing.document import Link
from draft.paper.drawing.drawing import Drawing, Item, Label, Path, Stroke, Turn
from draft.paper.drawing.flow import Flow, Frame, Type, stacked
from draft.paper.drawing.font import fitted_text
from draft.paper.drawing.line_styles import GREY

WIDTH, HEIGHT = 210.0, 279.4
"""As wide as A4 and as high as Letter: it prints on either without being scaled."""
LEFT, TOP, BOTTOM = 16.0, 16.0, HEIGHT - 19.0
FULL = WIDTH - 2 * LEFT
SIDE = 46.0
MAIN_X = 52.0
MAIN = FULL - MAIN_X
"""About 75 letters of the body's size: an easy line to read."""

BODY = Type(10.0, leading=1.45)
STRONG = Type(10.0, bold=True, leading=1.45)
HEAD = Type(22.0, bold=True, leading=1.2)
SIDE_HEAD = Type(11.0, bold=True, leading=1.3)
SMALL = Type(8.5, leading=1.35, colour=GREY)
FIGURE = Type(9.0, leading=1.34)
FIGURE_HEAD = Type(9.0, bold=True, leading=1.34)
RULE = Stroke(0.2, colour="#8c8c8c")
_GAP = 4.0
_WIDEST = 24.0
"""Of a column of figures, in mm: further apart they are hard to read across."""
_FOOT = 9.0
_NUMBER = 12.0  # mm at the right of the foot that are the page number's
"""From the foot of the text to the baseline of the page number, in mm."""


@dataclass(frozen=True)
class PlacedPicture:
    """A picture from a file: which, its top left corner and its width in mm."""

    picture: int
    x: float
    y: float
    width: float


@dataclass(frozen=True)
class Block:
    """Things drawn from a top left corner, and their height, in mm; also pictures from files, and links."""

    items: tuple[Item, ...]
    height: float
    pictures: tuple[PlacedPicture, ...] = ()
    links: tuple[Link, ...] = ()

    def moved(self, x: float, y: float) -> Block:
        """The same things elsewhere."""
        return Block(
            tuple(item.moved(Turn(0, x, y)) for item in self.items),
            self.height,
            tuple(replace(one, x=one.x + x, y=one.y + y) for one in self.pictures),
            tuple(replace(one, x=one.x + x, y=one.y + y) for one in self.links),
        )


NOTHING = Block((), 0.0)


def paragraph(text: str, setting: Type = BODY, width: float = MAIN) -> Block:
    """A paragraph."""
    labels, height = stacked(setting.lines(text, width), setting)
    return Block(tuple(labels), height)


def column(blocks: Sequence[Block], gap: float = 1.8) -> Block:
    """Blocks one below the other."""
    found, y = list[Block](), 0.0
    for block in blocks:
        if block.height:
            y += gap if y else 0.0
            found.append(block.moved(0.0, y))
            y += block.height
    return replace(combined(found), height=y)


def combined(blocks: Sequence[Block]) -> Block:
    """Blocks as one, each where it lies."""
    return Block(
        tuple(item for block in blocks for item in block.items),
        max((block.height for block in blocks), default=0.0),
        tuple(one for block in blocks for one in block.pictures),
        tuple(one for block in blocks for one in block.links),
    )


def to_fit(drawing: Drawing, width: float, height: float, largest: float = 9.0) -> Block:
    """A drawing made to fit a box, its lines as thick as they are, and no more than `largest` times as large."""
    scale = min(width / drawing.width, height / drawing.height, largest)
    items = tuple(scaled(item, scale) for item in drawing.items())
    return Block(items, drawing.height * scale)


def scaled(item: Item, scale: float) -> Item:
    """An item smaller or larger about the origin; the width of its line stays."""
    if isinstance(item, Label):
        return replace(item, x=item.x * scale, y=item.y * scale, size=item.size * scale)
    return replace(item, runs=tuple(run * scale for run in item.runs))


@dataclass
class Book:
    """The pages while they are filled."""

    title: str
    pages: dict[int, list[Item]] = field(default_factory=dict)
    pictures: dict[int, list[PlacedPicture]] = field(default_factory=dict)
    links: dict[int, list[Link]] = field(default_factory=dict)
    bookmarks: list[tuple[str, int]] = field(default_factory=list)

    def __post_init__(self) -> None:
        self.flow = Flow(_frames(), self.pages)

    @property
    def page(self) -> int:
        """The page that is being filled."""
        return self.flow.frame.page

    def put(self, block: Block, x: float = 0.0) -> None:
        """Set a block so many mm from the left of the text."""
        self.flow.put(block.moved(x, 0.0).items, block.height)
        there = block.moved(self.flow.frame.x + x, self.flow.y - block.height)
        self.pictures.setdefault(self.page, []).extend(there.pictures)
        self.links.setdefault(self.page, []).extend(there.links)

    def section(self, title: str, room: float = HEIGHT) -> None:
        """A heading over both columns, on a new page unless so many mm are left on this one."""
        if self.flow.room < room and not self.flow.at_top:
            self.flow.next_frame()
        self.flow.gap(12.0)
        self.bookmarks.append((title, self.page))
        heading = paragraph(title, HEAD, FULL)
        rule = Path((lines_through([(0.0, heading.height + 1.5), (FULL, heading.height + 1.5)]),), RULE)
        self.put(Block((*heading.items, rule), heading.height + 1.5))
        self.flow.y += _GAP + 1.0

    def entry(self, side: str | Block, *body: str | Block, gap: float = _GAP) -> None:
        """Something in the narrow column and words beside it, kept together if they fit on one page."""
        beside = paragraph(side, SIDE_HEAD, SIDE) if isinstance(side, str) else side
        blocks = [paragraph(block) if isinstance(block, str) else block for block in body]
        main = column(blocks)
        height = max(beside.height, main.height)
        if height > self.flow.frame.bottom - self.flow.frame.y:
            self._broken(beside, blocks)
            return
        self.put(replace(combined([beside, main.moved(MAIN_X, 0.0)]), height=height))
        self.flow.gap(gap)

    def _broken(self, beside: Block, blocks: Sequence[Block]) -> None:
        """An entry longer than a page: block after block, the longest of them line after line."""
        self.flow.need(beside.height)
        self.put(replace(beside, height=0.0))
        for block in blocks:
            if block.height > self.flow.frame.bottom - self.flow.frame.y:
                for row in _rows(block):
                    self.put(row, MAIN_X)
            else:
                self.put(block, MAIN_X)
            self.flow.gap(1.8)
        self.flow.gap(_GAP)

    def full_width(self, block: Block, gap: float = _GAP) -> None:
        """Something over both columns."""
        self.put(block)
        self.flow.gap(gap)

    def table(self, head: Sequence[str], rows: Sequence[Sequence[str]], first: float = 0.0) -> None:
        """Rows under a head that is repeated on each page: a name, a unit, and figures in columns of one width.

        A row whose name is empty goes with the one above. A table too wide for the page is set in parts.
        """
        left = max(first, *(FIGURE_HEAD.width(row[0]) + 4.0 for row in (head, *rows)))
        named = min(left, FULL * 0.45)
        left = named + max(FIGURE.width(row[1]) for row in (head, *rows)) + 1.0
        least = max((FIGURE.width(cell) + 3.0 for row in (head, *rows) for cell in row[2:]), default=1.0)
        parts = -(-(len(head) - 2) // max(1, int((FULL - left) / least)))
        each = -(-(len(head) - 2) // max(1, parts))
        for k in range(0, len(head) - 2, each):
            shown = slice(2 + k, 2 + k + each)
            self._part(head[shown], [(row[0], row[1], row[shown]) for row in rows], named, left)
            self.flow.gap(_GAP)

    def _part(
        self, head: Sequence[str], rows: Sequence[tuple[str, str, Sequence[str]]], named: float, left: float
    ) -> None:
        step = min(_WIDEST, (FULL - left) / max(1, len(head)))
        ends = [left + step * (k + 1) for k in range(len(head))]
        page = -1
        for number, (name, unit, cells) in enumerate(rows):
            follows = number + 1 < len(rows) and not rows[number + 1][0]
            lines = FIGURE_HEAD.lines(name, named - 2.0) if name else []
            high = max(1, len(lines)) * FIGURE.line_height + 0.7
            self.flow.need(high * (2 if follows else 1) + (0.0 if page == self.page else FIGURE.line_height + 2.0))
            if page != self.page:
                page = self.page
                self.flow.put(_head(head, ends), FIGURE.line_height + 2.0)
            setting = FIGURE if name else replace(FIGURE, colour=GREY)
            items: list[Item] = [
                FIGURE_HEAD.label(t, 0.0, FIGURE.size + FIGURE.line_height * i) for i, t in enumerate(lines)
            ]
            texts = [unit, *cells], [left, *ends]
            items += [setting.label(t, x, FIGURE.size, "end") for t, x in zip(*texts, strict=True)]
            if name and number:
                items.append(Path((lines_through([(0.0, -0.7), (ends[-1], -0.7)]),), replace(RULE, width=0.1)))
            self.flow.put(items, high)

    def footed(self) -> dict[int, list[Item]]:
        """All pages, with their numbers at the foot of all but the first."""
        title = fitted_text(self.title, SMALL.size, FULL - _NUMBER, SMALL.bold)
        for number, items in self.pages.items():
            if number:
                at = LEFT + FULL, BOTTOM + _FOOT
                items.append(SMALL.label(str(number + 1), *at, "end"))
                items.append(SMALL.label(title, LEFT, BOTTOM + _FOOT))
        return self.pages


def table_height(rows: Sequence[Sequence[str]]) -> float:
    """About how high a table becomes, in mm, if no first cell needs two lines."""
    return (len(rows) + 1) * (FIGURE.line_height + 0.7) + _GAP


def _head(head: Sequence[str], ends: Sequence[float]) -> list[Item]:
    items: list[Item] = [FIGURE_HEAD.label(text, x, FIGURE.size, "end") for text, x in zip(head, ends, strict=True)]
    return [
        *items,
        Path((lines_through([(0.0, FIGURE.line_height + 0.3), (ends[-1], FIGURE.line_height + 0.3)]),), RULE),
    ]


def _rows(block: Block) -> Iterator[Block]:
    """The lines of a paragraph, each by itself."""
    labels = [item for item in block.items if isinstance(item, Label)]
    step = block.height / max(1, len(labels))
    for k, label in enumerate(labels):
        yield Block((replace(label, y=label.y - k * step),), step)


def _frames() -> Iterator[Frame]:
    page = 0
    while True:
        yield Frame(page, LEFT, TOP, FULL, BOTTOM)
        page += 1
