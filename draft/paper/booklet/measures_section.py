"""How the measures are taken: a small drawing and a sentence each."""

from __future__ import annotations

from collections.abc import Sequence

from draft.bodies.tapes import TAPES
from draft.paper.booklet.booklet_page import GAP, Book
from draft.paper.booklet.facts import BookletFacts
from draft.paper.booklet.measure_names import measure_name
from draft.paper.booklet.room_for import roomiest
from draft.paper.booklet.set_blocks import STRONG, Block, beside, column, paragraph, shown, to_fit
from draft.paper.booklet.sizes_section import how_to
from draft.paper.drawing.flow import Type
from draft.paper.drawing.wording import capitalised
from draft.paper.pictures.tape import tape_drawing

_WAYS = ((4, 31.0), (4, 28.0), (5, 28.0), (5, 24.0))
"""So many beside one another, and how high their drawings are in mm."""
_BELOW = 5.0
_ABOVE = 20.0
"""What the heading takes, mm."""
_TEXT = Type(9.0, leading=1.3)


def measures_section(book: Book, facts: BookletFacts) -> None:
    """All measures that the pattern needs, four or five in a row, or two where there is one column."""
    names = facts.drafted.plan.measures
    if not names:
        return
    ways = _WAYS if book.format.columns > 1 else ((2, 31.0),)
    said = paragraph(facts.wording.say("measuring.text"), book.format.full)
    head = _ABOVE + said.height + GAP
    rows = roomiest(ways, lambda way: _rows(names, *way, book, facts), lambda some: _pages(some, head, book))
    book.section(facts.wording.say("measuring.title"), said.height + GAP + rows[0].height)
    book.full_width(said)
    for row in rows:
        book.full_width(row, _BELOW)


def _rows(names: Sequence[str], across: int, height: float, book: Book, facts: BookletFacts) -> list[Block]:
    """So many measures to a row."""
    wide = book.format.share(across)
    return [
        beside([_measure(name, wide, height, facts) for name in names[k : k + across]], wide, book.format.gutter)
        for k in range(0, len(names), across)
    ]


def _pages(rows: Sequence[Block], head: float, book: Book) -> int:
    """How many further pages the rows take below the heading."""
    pages, room = 0, book.flow.room - head
    for k, row in enumerate(rows):
        if row.height > room:
            pages, room = pages + 1, book.tall - (0.0 if k else head)
        room -= row.height + _BELOW
    return pages


def _measure(name: str, wide: float, height: float, facts: BookletFacts) -> Block:
    """Where the tape goes, and how it is laid."""
    how = how_to(facts.drafted.plan.known[name], facts.wording)
    called = capitalised(measure_name(name, facts.wording))
    picture = to_fit(tape_drawing(name, bust=not facts.for_men), wide, height) if name in TAPES else Block((), 0.0)
    told = facts.wording.say("measuring.drawn", measure=called)
    drawn = shown(picture, told).moved(0.0, height - picture.height)
    text = column([paragraph(called, wide, STRONG, "H3"), paragraph(how, wide, _TEXT)], gap=0.3)
    return column([Block(drawn.items, height), text], gap=2.0)
