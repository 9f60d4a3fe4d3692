"""What the designer says about the garment's topics, each where the booklet speaks of that."""

from __future__ import annotations

from draft.paper.booklet.booklet_page import Book
from draft.paper.booklet.facts import BookletFacts


def told(topic: str, facts: BookletFacts) -> list[str]:
    """Her paragraphs about a topic, in the language of the booklet."""
    return [facts.wording.named(text) for text in facts.drafted.plan.booklet.about(topic)]


def testing_section(book: Book, facts: BookletFacts) -> None:
    """What was found while the pattern was tested; nothing where she says nothing of it."""
    texts = told("testing", facts)
    if texts:
        book.section(facts.wording.say("testing.title"), 30.0)
        book.topics([("", texts)])
