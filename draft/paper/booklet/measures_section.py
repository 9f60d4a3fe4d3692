"""How the measures are taken: a small drawing and a sentence each."""

from __future__ import annotations

from draft.bodies.tapes import TAPES
from draft.paper.booklet.booklet_page import FULL, STRONG, Block, Book, column, combined, paragraph, to_fit
from draft.paper.booklet.facts import BookletFacts
from draft.paper.booklet.sizes_section import how_to, measure_name
from draft.paper.drawing.flow import Type
from draft.paper.drawing.wording import capitalised
from draft.paper.pictures.tape import tape_drawing

_ACROSS = 4
_GUTTER = 6.0
_HEIGHT = 29.0
_TEXT = Type(8.5, leading=1.35)


def measures_section(book: Book, facts: BookletFacts) -> None:
    """All measures that the pattern needs, four in a row."""
    names = facts.drafted.plan.measures
    if not names:
        return
    book.section(facts.wording.say("measuring.title"), 28.0 + 52.0 * -(-len(names) // _ACROSS))
    book.entry("", facts.wording.say("measuring.text"))
    for k in range(0, len(names), _ACROSS):
        book.full_width(_row(names[k : k + _ACROSS], facts), 4.0)


def _row(names: tuple[str, ...], facts: BookletFacts) -> Block:
    wide = (FULL - _GUTTER * (_ACROSS - 1)) / _ACROSS
    blocks = []
    for k, name in enumerate(names):
        picture = to_fit(tape_drawing(name), wide, _HEIGHT) if name in TAPES else Block((), 0.0)
        title = paragraph(capitalised(measure_name(name, facts.wording)), STRONG, wide)
        text = column([title, paragraph(how_to(facts.drafted.plan.known[name], facts.wording), _TEXT, wide)], gap=0.3)
        block = combined([picture.moved(0.0, _HEIGHT - picture.height), text.moved(0.0, _HEIGHT + 2.0)])
        blocks.append(Block(block.moved(k * (wide + _GUTTER), 0.0).items, _HEIGHT + 2.0 + text.height))
    return combined(blocks)
