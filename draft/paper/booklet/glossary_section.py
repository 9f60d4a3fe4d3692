"""The words of the trade that the booklet uses, each explained in a line."""

from __future__ import annotations

from draft.paper.booklet.booklet_page import SIDE, STRONG, Book, paragraph
from draft.paper.booklet.facts import BookletFacts


def glossary_section(book: Book, facts: BookletFacts) -> None:
    """Those for every cloth, and those for knits or for woven cloth, in the order of the alphabet."""
    wording = facts.wording
    kinds = ("all", "knit" if facts.knit else "woven")
    keys = [key for kind in kinds for key in wording.keys(f"glossary.{kind}.")]
    terms = [(wording.say(f"{key}.term"), wording.say(f"{key}.text")) for key in keys]
    terms.sort(key=lambda term: term[0].casefold())
    book.section(wording.say("glossary.title"), 24.0 + sum(paragraph(text).height + 1.6 for _, text in terms))
    for term, text in terms:
        book.entry(paragraph(term, STRONG, SIDE), text, gap=1.6)
