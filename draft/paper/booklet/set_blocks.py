"""Blocks of the booklet: words and drawings from a top left corner, put together before they are set on a page."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from draft.base.record import dataclass
from draft.paper.drawing.document import Link
from draft.paper.drawing.drawing import Drawing, Item, Label, Path, Stroke, Turn
from draft.paper.drawing.flow import Type, stacked
from draft.paper.drawing.fractions import with_signs
from draft.paper.drawing.line_styles import GREY
from draft.paper.drawing.passage import Passage, said_as

BODY = Type(10.0, leading=1.42)
STRONG = Type(10.0, bold=True, leading=1.42)
SECTION = Type(14.0, bold=True, leading=1.25)
TOPIC = Type(10.5, bold=True, leading=1.35)
FINE = Type(9.0, leading=1.36)
FINE_STRONG = Type(9.0, bold=True, leading=1.36)
SMALL = Type(9.0, leading=1.35, colour=GREY)
RULE = Stroke(0.2, colour="#8c8c8c")
SIDE = 54.0
"""Of a step's drawing at most, mm."""
TALLEST = 46.0


@dataclass(frozen=True)
class PlacedPicture:
    """A picture from a file: which, its top left corner and its width in mm, and what it is read as."""

    picture: int
    x: float
    y: float
    width: float
    passage: Passage


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


_WIDOW = 0.15
"""A last line shorter than this share of its paragraph's looks forgotten (common practice)."""
_CLOSER = (0.97, 0.94, 0.91, 0.88)


def paragraph(text: str, width: float, setting: Type = BODY, role: str = "P", within: Passage | None = None) -> Block:
    """Words in lines of this width, and what they are read as."""
    text = with_signs(text)
    labels, height = stacked(_no_widow(text, width, setting), setting, width=width)
    return Block(said_as(labels, Passage(role, text, within)), height)


def _no_widow(text: str, width: float, setting: Type) -> list[str]:
    """The lines of a paragraph; narrower ones where a last word would stand alone, if those are no more lines."""
    lines = setting.lines(text, width)
    if len(lines) < 2 or setting.width(lines[-1]) >= _WIDOW * width:
        return lines
    closer = (setting.lines(text, width * share) for share in _CLOSER)
    return next((one for one in closer if len(one) == len(lines) and setting.width(one[-1]) >= _WIDOW * width), lines)


def bullets(lines: Sequence[str], width: float, setting: Type = BODY) -> Block:
    """A list, each of its lines behind a dash."""
    indent = setting.width("– ")
    whole, rows = Passage("L"), []
    for line in lines:
        entry = Passage("LI", "", whole)
        words = paragraph(line, width - indent, setting, "LBody", entry).moved(indent, 0.0)
        dash = paragraph("–", indent, setting, "Lbl", entry)
        rows.append(combined([dash, words]))
    return column(rows, gap=0.4)


def shown(block: Block, told: str) -> Block:
    """A drawing, told in words to who does not see it."""
    return replace(block, items=said_as(block.items, Passage("Figure", told)))


def picture_block(number: int, width: float, height: float, told: Passage) -> Block:
    """A picture from a file, so wide and high, and the place at which it is read."""
    return Block((Path((), passage=told),), height, (PlacedPicture(number, 0.0, 0.0, width, told),))


def linked(text: str, address: str, width: float) -> Block:
    """An address that leads where it says."""
    words = paragraph(text, width, BODY, "Link", Passage("P"))
    link = Link(0.0, 0.0, width, words.height, address, words.items[0].passage if words.items else None)
    return replace(words, links=(link,))


def column(blocks: Sequence[Block], gap: float = 1.6) -> Block:
    """Blocks one below the other."""
    found, y = list[Block](), 0.0
    for block in blocks:
        if block.height:
            y += gap if y else 0.0
            found.append(block.moved(0.0, y))
            y += block.height
    return replace(combined(found), height=y)


def combined(blocks: Sequence[Block]) -> Block:
    """Blocks as one, each where it lies; they are read in this order."""
    return Block(
        tuple(item for block in blocks for item in block.items),
        max((block.height for block in blocks), default=0.0),
        tuple(one for block in blocks for one in block.pictures),
        tuple(one for block in blocks for one in block.links),
    )


def beside(blocks: Sequence[Block], width: float, gutter: float) -> Block:
    """Blocks side by side, each so wide."""
    return combined([block.moved(k * (width + gutter), 0.0) for k, block in enumerate(blocks)])


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


def closed_up(block: Block, share: float) -> Block:
    """A block of words alone with its lines so much closer; any other as it is."""
    if block.pictures or block.links or not all(isinstance(item, Label) for item in block.items):
        return block
    labels = (item for item in block.items if isinstance(item, Label))
    return Block(tuple(replace(label, y=label.y * share) for label in labels), block.height * share)


def in_rows(block: Block) -> list[Block]:
    """The lines of a paragraph, each by itself, but never one alone at its beginning or its end."""
    labels = [item for item in block.items if isinstance(item, Label)]
    step = block.height / max(1, len(labels))
    count = len(labels)
    starts = [0, *range(2, count - 2), *([count - 2] if count > 3 else [])]
    parts = [labels[a:b] for a, b in zip(starts, [*starts[1:], count], strict=True)]
    return [
        Block(tuple(replace(label, y=label.y - a * step) for label in part), step * len(part))
        for a, part in zip(starts, parts, strict=True)
        if part
    ]


def is_words(block: Block) -> bool:
    """Whether it is a paragraph and nothing else, which may go on in the next column."""
    return (
        bool(block.items)
        and not block.pictures
        and len({item.passage for item in block.items}) == 1
        and all(isinstance(item, Label) for item in block.items)
    )
