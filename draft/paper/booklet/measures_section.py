"""How the measures are taken: a small drawing and a sentence each."""

from __future__ import annotations

from draft.bodies.tapes import TAPES
from draft.paper.booklet.booklet_page import Book
from draft.paper.booklet.facts import BookletFacts
from draft.paper.booklet.measure_names import measure_name
from draft.paper.booklet.set_blocks import STRONG, Block, beside, column, paragraph, shown, to_fit
from draft.paper.booklet.sizes_section import how_to
from draft.paper.drawing.flow import Type
from draft.paper.drawing.wording import capitalised
from draft.paper.pictures.tape import tape_drawing

_ACROSS = 4
_HEIGHT = 31.0
_TEXT = Type(9.0, leading=1.3)


def measures_section(book: Book, facts: BookletFacts) -> None:
    """All measures that the pattern needs, four in a row, or two where there is one column."""
    names = facts.drafted.plan.measures
    if not names:
        return
    across = _ACROSS if book.format.columns > 1 else _ACROSS // 2
    wide = book.format.share(across)
    rows = [
        beside([_measure(name, wide, facts) for name in names[k : k + across]], wide, book.format.gutter)
        for k in range(0, len(names), across)
    ]
    said = paragraph(facts.wording.say("measuring.text"), book.format.full)
    book.section(facts.wording.say("measuring.title"), 10.0 + said.height + sum(row.height + 5.0 for row in rows[:2]))
    book.full_width(said)
    for row in rows:
        book.full_width(row, 5.0)


def _measure(name: str, wide: float, facts: BookletFacts) -> Block:
    """Where the tape goes, and how it is laid."""
    how = how_to(facts.drafted.plan.known[name], facts.wording)
    called = capitalised(measure_name(name, facts.wording))
    picture = to_fit(tape_drawing(name), wide, _HEIGHT) if name in TAPES else Block((), 0.0)
    told = facts.wording.say("measuring.drawn", measure=called)
    drawn = shown(picture, told).moved(0.0, _HEIGHT - picture.height)
    text = column([paragraph(called, wide, STRONG, "H3"), paragraph(how, wide, _TEXT)], gap=0.3)
    return column([Block(drawn.items, _HEIGHT), text], gap=2.0)
