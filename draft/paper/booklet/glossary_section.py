"""The words of the trade that the booklet uses, each explained in a line."""

from __future__ import annotations

from draft.paper.booklet.booklet_page import Book
from draft.paper.booklet.facts import BookletFacts
from draft.paper.booklet.set_blocks import FINE, FINE_STRONG, Block, combined, paragraph

_TERM = 29.0  # mm for a word, beside what it means


def glossary_section(book: Book, facts: BookletFacts) -> None:
    """Those for every cloth, and those for knits or for woven cloth, in the order of the alphabet."""
    wording = facts.wording
    kinds = ("all", "knit" if facts.knit else "woven")
    keys = [key for kind in kinds for key in wording.keys(f"glossary.{kind}.")]
    terms = [(wording.say(f"{key}.term"), wording.say(f"{key}.text")) for key in keys]
    terms.sort(key=lambda term: term[0].casefold())
    book.chapter(wording.say("glossary.title"))
    book.topics([("", [_explained(term, text, book.format.column) for term, text in terms])])


def _explained(term: str, text: str, width: float) -> Block:
    """A word, and what it means beside it."""
    word = paragraph(term, _TERM - 3.0, FINE_STRONG, "H3")
    return combined([word, paragraph(text, width - _TERM, FINE).moved(_TERM, 0.0)])
