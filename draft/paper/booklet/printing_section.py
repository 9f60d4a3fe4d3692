"""Printing: how the pages lie, and which of them each size needs."""

from __future__ import annotations

from draft.paper.booklet.booklet_page import FULL, MAIN_X, SIDE, SIDE_HEAD, Block, Book, column, combined, paragraph
from draft.paper.booklet.facts import BookletFacts
from draft.paper.pages.guide import ranges, sheet_map, sizes_alike
from draft.paper.pages.page_grid import pages_by_size
from draft.paper.pages.paged_sheet import PagedSheet

_TALLEST = 78.0


def printing_section(book: Book, facts: BookletFacts) -> None:
    """A map for each paper."""
    if not facts.sheets:
        return
    book.section(facts.wording.say("printing.title"), 150.0)
    book.entry("", facts.wording.say("printing.text"))
    if len(facts.sizes) > 1:
        book.entry("", facts.wording.say("printing.sizes"))
    for sheet in facts.sheets:
        book.full_width(_sheet(sheet, facts), 8.0)


def _sheet(sheet: PagedSheet, facts: BookletFacts) -> Block:
    grid = sheet.grid
    wide, tall = (count * side for count, side in zip(grid.shape, grid.paper.live, strict=True))
    name = grid.paper.name.capitalize()
    title = facts.wording.say("printing.paper", paper=name, count=len(grid.pages) + len(sheet.guide))
    room = FULL - MAIN_X - 60.0
    scale = min(room / wide, _TALLEST / tall)
    plan = Block(tuple(sheet_map(sheet.drawing, grid, scale)), tall * scale)
    blocks = [paragraph(title, SIDE_HEAD, SIDE), plan.moved(MAIN_X, 0.0)]
    if len(sheet.drawing.sizes) > 1:
        found = pages_by_size(sheet.drawing, grid)
        lines = [paragraph(f"{names}: {ranges(numbers)}", width=56.0) for names, numbers in sizes_alike(found)]
        if all(len(numbers) == len(grid.pages) for numbers in found.values()):
            lines = [paragraph(facts.wording.say("printing.all"), width=56.0)]
        blocks.append(column(lines, gap=0.4).moved(MAIN_X + room + 4.0, 0.0))
    return combined(blocks)
