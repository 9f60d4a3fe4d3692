"""Steps set on pages: a drawing and the words beside it, as many to a page as it holds, drawings as large as it leaves.

A step is kept together if a page holds it. Where there is one column, its drawing stands under its title.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from itertools import accumulate

from draft.base.record import dataclass
from draft.paper.booklet.booklet_page import Book
from draft.paper.booklet.page_format import PageFormat
from draft.paper.booklet.set_blocks import BODY, NOTHING, SIDE, STRONG, Block, column, combined, paragraph, scaled
from draft.paper.drawing.drawing import Item, Label, Path

GAP, _CLOSE = 6.0, 3.6
"""Between two steps, mm; closer where the last page then holds all that are left."""
_SPREAD = 11.0
"""Steps are set so much further apart at most, mm, where a page has room left."""
_HIGHEST = 72.0
"""Of a drawing that is made larger, mm: about as high as a page has room for three times."""
_TIMES = (1.6, 1.5, 1.4, 1.3, 1.2, 1.1, 1.0)
"""So many times as large drawings are made, the first with which the page still holds its steps."""

_HAIR = 0.01  # mm: the last step stands on the last line, and rounding must not send it to the next page


@dataclass(frozen=True)
class SetStep:
    """One step: its title, its drawing, of no height where it has none, and what is said."""

    title: str
    drawing: Block
    said: Sequence[str | Block]


@dataclass(frozen=True)
class _Parts:
    """The same made for a page: its heading, its drawing and its words below the heading."""

    head: Block
    drawing: Block
    words: tuple[Block, ...]


def set_steps(book: Book, steps: Sequence[SetStep]) -> None:
    """All steps one below the other, from page to page."""
    made = [_made(step, book.format) for step in steps]
    while made:
        count, gap = _fitting(made, book)
        if not count and book.flow.at_top:
            _broken(book, made[0])
            book.flow.gap(GAP)
            made = made[1:]
            continue
        if count:
            _put(book, made[:count], gap, is_full=count < len(made))
            made = made[count:]
        if made:
            book.flow.next_frame()


def _made(step: SetStep, page: PageFormat) -> _Parts:
    wide = page.full if page.columns == 1 else page.full - SIDE - page.gutter
    head = paragraph(step.title, wide, STRONG, "H3") if step.title else NOTHING
    words = tuple(paragraph(one, wide, BODY) if isinstance(one, str) else one for one in step.said)
    return _Parts(head, step.drawing, words)


def _fitting(made: Sequence[_Parts], book: Book) -> tuple[int, float]:
    """How many of some steps the page has room for, from the first, and how far apart: closer where all then fit."""
    ends = [*accumulate(_whole(parts, book.format, 1.0).height for parts in made)]
    room = book.flow.room - _HAIR
    gap = GAP if ends[-1] + GAP * (len(made) - 1) <= room else _CLOSE
    if ends[-1] + gap * (len(made) - 1) <= room:
        return len(made), gap
    return sum(end + GAP * k <= room for k, end in enumerate(ends)), GAP


def _put(book: Book, made: Sequence[_Parts], gap: float, is_full: bool) -> None:
    """Steps that the page holds; on one that `is_full` their drawings larger, then further apart, down to its foot."""
    gaps, room = gap * (len(made) - 1), book.flow.room - _HAIR
    blocks = [_whole(parts, book.format, 1.0) for parts in made]
    if is_full:
        larger = ([_whole(parts, book.format, times) for parts in made] for times in _TIMES)
        blocks = next((some for some in larger if sum(block.height for block in some) + gaps <= room), blocks)
    left = room - gaps - sum(block.height for block in blocks)
    apart = min(_SPREAD, max(0.0, left) / (len(made) - 1)) if is_full and len(made) > 1 else 0.0
    for k, block in enumerate(blocks):
        book.flow.gap(gap + apart if k else 0.0)
        book.put(block)
    book.flow.gap(GAP)


def _whole(parts: _Parts, page: PageFormat, times: float) -> Block:
    """A step with its drawing so many times as large, or as high as its words where that is more."""
    if page.columns == 1:
        return column([parts.head, parts.drawing, *parts.words])
    words = column([parts.head, *parts.words])
    drawing = _enlarged(parts.drawing, max(times, words.height / max(parts.drawing.height, 1.0)))
    whole = combined([words.moved(SIDE + page.gutter, 0.0), drawing])
    return replace(whole, height=max(words.height, drawing.height))


def _enlarged(drawing: Block, times: float) -> Block:
    """A drawing so many times as large, if its place is wide and high enough; its lines and letters stay."""
    wide = max((float(run[..., 0].max()) for i in drawing.items if isinstance(i, Path) for run in i.runs), default=0.0)
    if wide <= 0 or drawing.height <= 0:
        return drawing
    times = max(1.0, min(times, _TIMES[0], SIDE / wide, _HIGHEST / drawing.height))
    items = tuple(_larger(item, times) for item in drawing.items)
    return replace(drawing, items=items, height=drawing.height * times)


def _larger(item: Item, times: float) -> Item:
    if isinstance(item, Label):
        return replace(item, x=item.x * times, y=item.y * times)
    return scaled(item, times)


def _broken(book: Book, parts: _Parts) -> None:
    """A step longer than a page: block after block, the longest of them line after line."""
    x = 0.0 if book.format.columns == 1 else SIDE + book.format.gutter
    book.flow.need(parts.head.height + parts.drawing.height + 3 * BODY.line_height)
    book.put(parts.head, x)
    book.put(parts.drawing if not x else replace(parts.drawing, height=0.0))
    for block in parts.words:
        book.lines(block, x)
