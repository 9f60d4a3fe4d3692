"""The booklet while its pages are filled: chapters after one another, topics in columns, steps beside a drawing."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import field, replace
from itertools import accumulate

from draft.base.record import dataclass
from draft.paper.booklet.page_format import REGULAR, PageFormat
from draft.paper.booklet.set_blocks import (
    BODY,
    NOTHING,
    SECTION,
    SMALL,
    TOPIC,
    Block,
    PlacedPicture,
    beside,
    closed_up,
    column,
    combined,
    in_rows,
    is_words,
    paragraph,
)
from draft.paper.drawing.document import Link
from draft.paper.drawing.drawing import Item
from draft.paper.drawing.flow import Flow, column_frames
from draft.paper.drawing.font import fitted_text
from draft.paper.drawing.seam_rule import SEAM_APART, seam_rule

GAP = 4.0
_LINES = 1.6  # mm between paragraphs
_BEFORE = 11.0, 8.0  # mm over the heading of a chapter, and of a section
_LEAST = 34.0
"""Of a column at the foot of a page, mm: less is left free rather than begun."""
_TOGETHER = 3
"""So many units of topics go on over a page at least, where there are twice as many before them."""
_LONG = 45.0
"""A paragraph higher than this, mm, may go on in the next column."""
_CLOSER = (0.97, 0.94, 0.91)
"""Lines are set so much closer at most, where a few would go over the page."""
_FEW = 2
"""So few paragraphs part in their middle, so that both columns hold some of them."""
_FOOT = 9.0
"""From the foot of the text to the baseline of the page number, in mm."""
_NUMBER = 12.0  # mm at the right of the foot that are the page number's

Topic = tuple[str, Sequence[str | Block]]
"""A heading, or none, and what is said below it."""
Units = Sequence[tuple[Block, float]]
"""Parts that stay whole, each with the gap below it, mm."""


@dataclass
class Book:
    """The pages while they are filled."""

    title: str
    """What stands at the foot of its pages."""
    format: PageFormat = REGULAR
    pages: dict[int, list[Item]] = field(default_factory=dict)
    pictures: dict[int, list[PlacedPicture]] = field(default_factory=dict)
    links: dict[int, list[Link]] = field(default_factory=dict)
    bookmarks: list[tuple[str, int]] = field(default_factory=list)

    def __post_init__(self) -> None:
        page = self.format
        self.flow = Flow(column_frames(page.left, page.full, page.top, page.top, page.bottom), self.pages)

    @property
    def page(self) -> int:
        """The page that is being filled."""
        return self.flow.frame.page

    @property
    def tall(self) -> float:
        """How much a page holds from top to foot, mm."""
        return self.flow.frame.bottom - self.flow.frame.y

    def put(self, block: Block, x: float = 0.0) -> None:
        """Set a block so many mm from the left of the text."""
        self.flow.put(block.moved(x, 0.0).items, block.height)
        there = block.moved(self.flow.frame.x + x, self.flow.y - block.height)
        self.pictures.setdefault(self.page, []).extend(there.pictures)
        self.links.setdefault(self.page, []).extend(there.links)

    def chapter(self, title: str, room: float = 60.0, fresh: bool = False) -> None:
        """The heading of a chapter with a seam under it; on a new page where it begins `fresh`, or has too little room.

        `room` mm that follow the heading stay with it.
        """
        head = paragraph(title, self.format.full, self.format.head, "H1")
        self._begin(head.height + GAP + 2.0, room, _BEFORE[0], fresh)
        self.bookmarks.append((title, self.page))
        rule = seam_rule(self.format.full, head.height + 1.6, colour=self.format.rule)
        self.put(Block((*head.items, *rule), head.height + 1.6 + SEAM_APART))
        self.flow.y += GAP

    def section(self, title: str, room: float = 40.0, marked: bool = True) -> None:
        """The heading of a section, with `room` mm that stay with it, as many as topics begin in at least.

        `marked` ones are found by their name.
        """
        room = max(room, _LEAST)
        head = paragraph(title, self.format.full, SECTION, "H2")
        self._begin(head.height + 2.4, room, _BEFORE[1], False)
        if marked:
            self.bookmarks.append((title, self.page))
        self.put(head)
        self.flow.y += 2.4

    def _begin(self, height: float, room: float, before: float, fresh: bool) -> None:
        if not self.flow.at_top and (fresh or self.flow.room < before + height + min(room, self.tall - height)):
            self.flow.next_frame()
        self.flow.gap(before if self.flow.y - self.flow.frame.y > before else 0.0)

    def full_width(self, block: Block, gap: float = GAP) -> None:
        """Something over the whole width."""
        self.put(block)
        self.flow.gap(gap)

    # ---- columns -----------------------------------------------------------------------------------------------------

    def topics(self, topics: Sequence[Topic], gap: float = GAP) -> None:
        """Topics in columns that end at one height, from page to page; a heading stays with what follows it."""
        if len(topics) == 1 and not topics[0][0] and len(topics[0][1]) == 1 and isinstance(topics[0][1][0], str):
            lead = paragraph(topics[0][1][0], self.format.full)
            if lead.height <= 3 * BODY.line_height or self.format.columns == 1:
                self.full_width(lead, gap)
                return
        long = _LONG if sum(len(said) for _, said in topics) > _FEW else _LONG / 1.5
        units = self._closer([unit for topic in topics for unit in self._units(*topic, long)])
        for some, split, is_new in self._paged(units, self.flow.room, self.flow.at_top):
            if is_new:
                self.flow.next_frame()
            parts = [_stacked(some[:split]), _stacked(some[split:])] if split else [_stacked(some)]
            self.put(beside(parts, self.format.column, self.format.gutter))
        self.flow.gap(gap)

    def _closer(self, units: Units) -> Units:
        """Topics of which a few lines would go over the page, set closer where that keeps them on it."""
        count, _ = self._fitting(units, self.flow.room)
        if not count or count == len(units):
            return units
        closer = ([(closed_up(block, share), gap * share) for block, gap in units] for share in _CLOSER)
        return next((some for some in closer if self._fitting(some, self.flow.room)[0] == len(some)), units)

    def pages_for(self, topics: Sequence[Topic], above: float) -> float:
        """How many further pages topics take that begin so many mm below where the page is filled to.

        A page that they leave free for a third or more counts for a half.
        """
        units = [unit for topic in topics for unit in self._units(*topic)]
        fresh = [is_new for _, _, is_new in self._paged(units, self.flow.room - above, at_top=False, above=above)]
        return sum(fresh) + (0.5 if fresh and fresh[0] and self.flow.room > self.tall / 3 else 0.0)

    def _paged(self, units: Units, room: float, at_top: bool, above: float = 0.0) -> Iterator[tuple[Units, int, bool]]:
        """What of topics stands on each page, how much of it in the first column, and whether on a page of its own.

        Where none of it fits below what stands `above` it, mm, that goes with it to the next page.
        """
        is_new = False
        while units:
            count, split = self._fitting(units, room)
            if not at_top and (not count or (count < len(units) and room < _LEAST)):
                room, at_top, is_new = self.tall - above, True, True
                continue
            if count > 2 * _TOGETHER and 0 < len(units) - count < _TOGETHER:  # a line alone on a page looks forgotten
                count, split = self._fitting(units[: len(units) - _TOGETHER], room)
            yield units[: max(count, 1)], split, is_new
            units = units[max(count, 1) :]
            room, at_top, is_new = self.tall, True, True

    def height_of(self, topics: Sequence[Topic]) -> float:
        """How much of a page topics take, in mm, if they all stand on one."""
        heights = [block.height + after for topic in topics for block, after in self._units(*topic)]
        ends = [0.0, *accumulate(heights)]
        splits = range(1, len(ends)) if self.format.columns > 1 else [len(heights)]
        return min((max(ends[k], ends[-1] - ends[k]) for k in splits), default=0.0)

    def _units(self, title: str, said: Sequence[str | Block], long: float = _LONG) -> list[tuple[Block, float]]:
        """Parts of a topic that stay whole, each with the gap below it."""
        wide = self.format.column
        blocks = [paragraph(one, wide) if isinstance(one, str) else one for one in said]
        parts: list[tuple[Block, float]] = []
        for block in blocks:
            rows = in_rows(block) if block.height > long and is_words(block) else [block]
            parts += [(row, 0.0) for row in rows[:-1]] + [(rows[-1], _LINES)]
        if title and parts:
            head = paragraph(title, wide, TOPIC, "H3")
            parts[0] = (column([head, parts[0][0]], gap=0.6), parts[0][1])
        if parts:
            parts[-1] = (parts[-1][0], GAP)
        return parts

    def _fitting(self, units: Units, room: float) -> tuple[int, int]:
        """How many units fit where there is so much room, and how many of them stand in the first column."""
        ends = [0.0, *accumulate(block.height + after for block, after in units)]
        for count in range(len(units), 0, -1):
            splits = range(1, count + 1) if self.format.columns > 1 else [count]
            best = min(splits, key=lambda k: max(ends[k], ends[count] - ends[k]))
            below = (k and units[k - 1][1] for k in (best, count))  # nothing stands below the last of a column
            first, last = (
                end - after for end, after in zip((ends[best], ends[count] - ends[best]), below, strict=True)
            )
            if max(first, last) <= room:
                return count, best
        return 0, 0

    def lines(self, block: Block, x: float = 0.0) -> None:
        """A block below what stands there; a long paragraph goes on over the page."""
        self.flow.gap(_LINES)
        for row in in_rows(block) if block.height > _LONG and is_words(block) else [block]:
            self.put(row, x)

    def footed(self) -> dict[int, list[Item]]:
        """All pages, with their numbers at the foot of all but the first."""
        page = self.format
        y = page.bottom + _FOOT / page.enlarged + (2.0 if page.columns == 1 else 0.0)
        title = fitted_text(self.title, SMALL.size, page.full - _NUMBER, SMALL.bold)
        for number, items in self.pages.items():
            if number:
                items.append(SMALL.label(str(number + 1), page.left + page.full, y, "end"))
                items.append(SMALL.label(title, page.left, y))
        return self.pages


def _stacked(units: Units) -> Block:
    """Units one below the other, each with its gap below it but the last."""
    found, y = list[Block](), 0.0
    for block, after in units:
        found.append(block.moved(0.0, y))
        y += block.height + after
    return replace(combined(found), height=y - units[-1][1]) if units else NOTHING
