"""Printing: how the pages lie, and which of them each size needs."""

from __future__ import annotations

import re

from draft.base.units import MM_PER_INCH
from draft.paper.booklet.booklet_page import Book
from draft.paper.booklet.facts import BookletFacts
from draft.paper.booklet.set_blocks import TOPIC, Block, beside, column, paragraph, shown
from draft.paper.pages.guide_parts import ranges, sizes_alike
from draft.paper.pages.page_grid import pages_by_size
from draft.paper.pages.page_map import sheet_map
from draft.paper.pages.paged_sheet import PagedSheet

_TALLEST = 66.0
PROJECTOR = "projector"
"""What a page to be projected is called among the papers."""


def printing_section(book: Book, facts: BookletFacts) -> None:
    """A map for each paper."""
    if not facts.sheets and not facts.large:
        return
    say, wide = facts.wording.say, book.format.column
    maps = [_sheet(sheet, wide, facts) for sheet in facts.sheets]
    said = [say("printing.text")] if maps else []
    said += [say("printing.sizes")] if any(not _all_needed(sheet) for sheet in facts.sheets) else []
    said += _large(facts)
    if len(maps) == 1 and book.format.columns > 1:
        words = column([paragraph(text, wide) for text in said])
        block = beside([maps[0], words], wide, book.format.gutter)
        book.chapter(say("printing.title"), block.height)
        book.full_width(block, 6.0)
        return
    book.chapter(say("printing.title"), 24.0 + (maps[0].height if maps else 0.0))
    book.topics([("", said)])
    for k in range(0, len(maps), book.format.columns):
        book.full_width(beside(maps[k : k + book.format.columns], wide, book.format.gutter), 6.0)


def _large(facts: BookletFacts) -> list[str]:
    """What to do with the sheets of a print shop, and with the page for a projector, where there are any."""
    say, sheets = facts.wording.say, [name for name in facts.large if name != PROJECTOR]
    said = (
        [say("printing.large", papers=facts.wording.listed([_named(name, facts) for name in sheets]))] if sheets else []
    )
    return [*said, *([say("printing.projector")] if PROJECTOR in facts.large else [])]


def _named(name: str, facts: BookletFacts) -> str:
    if found := re.fullmatch(r"roll-(\d+)(in|cm)", name):
        mm = int(found[1]) * (MM_PER_INCH if found[2] == "in" else 10.0)
        in_cm = facts.wording.units == "cm" or (facts.wording.units == "both" and found[2] == "cm")
        width = facts.wording.centimetres(mm, 0) if in_cm else facts.wording.inches(mm)
        return facts.wording.say("printing.roll", width=width)
    return name.upper() if name[1:].isdigit() else name


def _all_needed(sheet: PagedSheet) -> bool:
    """Whether each size needs all pages of a paper."""
    found = pages_by_size(sheet.drawing, sheet.grid)
    return len(sheet.drawing.sizes) < 2 or all(len(pages) == len(sheet.grid.pages) for pages in found.values())


def _sheet(sheet: PagedSheet, width: float, facts: BookletFacts) -> Block:
    """How the pages of a paper lie, and which of them each size needs."""
    grid = sheet.grid
    wide, tall = (count * side for count, side in zip(grid.shape, grid.paper.live, strict=True))
    name = grid.paper.name.capitalize()
    title = facts.wording.say("printing.paper", paper=name, count=len(grid.pages) + len(sheet.guide))
    scale = min(width / wide, _TALLEST / tall)
    plan = Block(tuple(sheet_map(sheet.drawing, grid, scale)), tall * scale)
    told = facts.wording.say("printing.drawn", columns=grid.shape[0], rows=grid.shape[1])
    blocks = [paragraph(title, width, TOPIC, "H3"), shown(plan, told)]
    if len(sheet.drawing.sizes) > 1:
        found = pages_by_size(sheet.drawing, grid)
        lines = [f"{names}: {ranges(numbers)}" for names, numbers in sizes_alike(found)]
        if _all_needed(sheet):
            lines = [facts.wording.say("printing.all")]
        blocks += [paragraph(line, width) for line in lines]
    return column(blocks, gap=1.6)
