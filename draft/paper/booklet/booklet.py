"""The booklet as a document: its sections in order, the designer's pictures, links and bookmarks."""

from __future__ import annotations

from draft.paper.booklet import pictures
from draft.paper.booklet.bands import bands
from draft.paper.booklet.booklet_page import HEIGHT, WIDTH, Book, Placed
from draft.paper.booklet.cover import cover
from draft.paper.booklet.cutting import cutting, layouts
from draft.paper.booklet.facts import BookletFacts
from draft.paper.booklet.glossary import glossary
from draft.paper.booklet.grading import grading
from draft.paper.booklet.material import material
from draft.paper.booklet.printing import printing
from draft.paper.booklet.sewing import sewing
from draft.paper.booklet.sizes import sizes
from draft.paper.booklet.taking_measures import measuring
from draft.paper.drawing.document import About, Leaf, Shown, pdf_document
from draft.paper.drawing.ink import page_description
from draft.plan.advice import Picture


def booklet_pdf(facts: BookletFacts) -> bytes:
    """The booklet. The same input gives the same bytes; a designer's picture may differ between machines.

    Raises Problems if a designer's picture cannot be drawn.
    """
    book, shown = book_of(facts)
    pages = sorted(book.footed().items())
    ink = [page_description(WIDTH, HEIGHT, items) for _, items in pages]
    leaves = [
        Leaf(
            WIDTH, HEIGHT,
            above=(Shown(form), *(_shown(one, shown[one.picture], len(ink)) for one in book.placed.get(number, ()))),
            links=tuple(book.links.get(number, ())),
        )
        for form, (number, _) in enumerate(pages)
    ]  # fmt: skip
    title = facts.wording.say("book.title", title=facts.title)
    about = About(title, facts.wording.language, bookmarks=tuple(book.bookmarks), actual_size=True)
    return pdf_document(ink, leaves, about, [page.data for page in shown])


def book_of(facts: BookletFacts) -> tuple[Book, list[pictures.Page]]:
    """The filled pages, and the designer's pictures that they show."""
    own = facts.drafted.plan.booklet
    shown: list[pictures.Page] = []

    def number(picture: Picture) -> tuple[int, pictures.Page]:
        shown.append(pictures.page(picture))
        return len(shown) - 1, shown[-1]

    on_cover = [number(picture) for picture in own.pictures]
    in_steps = {id(advice): number(advice.picture) for advice in own.advice if advice.picture}
    book = Book(facts.title)
    cover(book, facts, on_cover)
    sizes(book, facts)
    measuring(book, facts)
    material(book, facts)
    printing(book, facts)
    cutting(book, facts)
    grading(book, facts)
    layouts(book, facts)
    sewing(book, facts, in_steps)
    bands(book, facts)
    glossary(book, facts)
    if not book.pages[max(book.pages)]:
        del book.pages[max(book.pages)]
    return book, shown


def _shown(placed: Placed, page: pictures.Page, first: int) -> Shown:
    scale = placed.width / page.width
    return Shown(first + placed.picture, placed.x, HEIGHT - placed.y - page.height * scale, scale=scale)
