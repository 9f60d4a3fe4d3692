"""How the garment will sit on a form of the wearer, from three sides, and what that means; only where it is asked."""

from __future__ import annotations

from draft.paper.booklet.booklet_page import GAP, Book
from draft.paper.booklet.facts import BookletFacts
from draft.paper.booklet.set_blocks import FINE, STRONG, Block, bullets, paragraph
from draft.paper.drawing.wording import capitalised


def worn_section(book: Book, facts: BookletFacts) -> None:
    """The section; nothing where the garment was not dressed."""
    if facts.worn is None:
        return
    from draft.paper.worn.three_views import three_views  # what dresses a garment is read where that was asked for
    from draft.paper.worn.worn_words import sentences

    wording, full = facts.wording, book.format.full
    drawing = three_views(facts.worn.worn, full, wording)
    say = wording.say
    under = capitalised(facts.worn.subtitle)
    blocks = [(paragraph(f"{say(f'sit.{facts.worn.whose}')} {under}.", full), GAP)]
    blocks.append((Block(tuple(drawing.items()), drawing.height), GAP))
    told = facts.worn.told
    for heading, some in (("words", [t for t in told if not t.advice]), ("change", [t for t in told if t.advice])):
        if some:
            blocks.append((paragraph(say(f"sit.{heading}"), full, STRONG, "H3"), 0.6))
            blocks.append((bullets(sentences(some, wording), full), GAP))
    blocks.append((paragraph(say("sit.not_said"), full, FINE), GAP))
    book.section(say("sit.section"), sum(block.height + gap for block, gap in blocks))
    for block, gap in blocks:
        book.full_width(block, gap)
