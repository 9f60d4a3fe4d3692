"""The words of the trade that the booklet uses, each explained in a line."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace

from draft.paper.booklet.booklet_page import Book, Topic
from draft.paper.booklet.facts import BookletFacts
from draft.paper.booklet.room_for import roomiest
from draft.paper.booklet.set_blocks import FINE, FINE_STRONG, Block, paragraph
from draft.paper.drawing.flow import stacked
from draft.paper.drawing.passage import Passage, said_as
from draft.paper.drawing.wording import Wording

_BEHIND = 2.2  # mm from a word to what it means
_SET_IN = 5.0
_BENT, _SHORT = 2, 6
"""So many letters at the end of a word may be others, where it is longer than so many."""
_CHAPTER = 30.0
"""What the heading takes, mm."""
_LEADINGS = (FINE.leading, 1.3, 1.24)


def glossary_section(book: Book, facts: BookletFacts, last: Book | None = None) -> None:
    """Those that it has used, for every cloth and for knits or woven cloth, in the order of the alphabet.

    `last` is what the booklet will still say.
    """
    whole = _terms(book, facts, last)
    is_apart = not fits_below(book, whole) and book.height_of(whole) + _CHAPTER < book.tall
    book.chapter(facts.wording.say("glossary.title"), fresh=is_apart)  # three words alone on a page look forgotten
    book.topics(whole)


def glossary_before(book: Book, facts: BookletFacts, last: Book) -> bool:
    """Set them now if the page has room for all, although the booklet goes on with `last`; whether it was done.

    Else they would stand by themselves on a page behind that.
    """
    whole = _terms(book, facts, last)
    if not any(last.pages.values()) or not fits_below(book, whole):
        return False
    glossary_section(book, facts, last)
    return True


def fits_below(book: Book, whole: Sequence[Topic]) -> bool:
    """Whether the page has room for the chapter."""
    return book.pages_for(whole, _CHAPTER) == 0


def _terms(book: Book, facts: BookletFacts, last: Book | None) -> list[Topic]:
    wording = facts.wording
    kinds = ("all", "knit" if facts.knit else "woven")
    told = "\n".join(_told(one) for one in (book, last) if one)
    keys = [key for kind in kinds for key in wording.keys(f"glossary.{kind}.") if _is_used(key, told, wording)]
    terms = [(wording.say(f"{key}.term"), wording.say(f"{key}.text")) for key in keys]
    terms.sort(key=lambda term: term[0].casefold())
    blocks = roomiest(
        _LEADINGS,
        lambda leading: [_explained(*term, book.format.column, leading) for term in terms],
        lambda some: book.pages_for([("", some)], _CHAPTER),
    )
    return [("", blocks)]


def _told(book: Book) -> str:
    """All that the booklet has said so far."""
    passages = {item.passage for items in book.pages.values() for item in items if item.passage}
    return "\n".join(sorted(passage.text for passage in passages)).casefold()


def _is_used(key: str, told: str, wording: Wording) -> bool:
    """Whether the booklet uses a word: by what is sought for it, or else by its beginning, so that it may be bent."""
    if wording.has(f"{key}.sought"):
        return re.search(wording.say(f"{key}.sought"), told) is not None
    term = wording.say(f"{key}.term").casefold()
    return (term[:-_BENT] if len(term) > _SHORT else term) in told


def _explained(term: str, text: str, width: float, leading: float) -> Block:
    """A word, and what it means behind it; further lines are set in, so that words are found by going down."""
    fine, strong = replace(FINE, leading=leading), replace(FINE_STRONG, leading=leading)
    word = FINE_STRONG.width(term) + _BEHIND
    first = fine.lines(text, width - word)[0]
    rest = fine.lines(text[len(first) :].lstrip(), width - _SET_IN) if len(first) < len(text) else []
    named = paragraph(term, width, strong, "H3")
    begun, _ = stacked([first], fine, x=word)
    more, _ = stacked(rest, fine, x=_SET_IN, y=fine.line_height)
    said = said_as([*begun, *more], Passage("P", text))
    return Block((*named.items, *said), fine.line_height * (1 + len(rest)))
