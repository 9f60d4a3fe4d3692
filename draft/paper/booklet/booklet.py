"""The booklet as a document: its sections in order, the designer's pictures, links and bookmarks."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from draft.base.progress import Warn
from draft.paper.booklet import pictures
from draft.paper.booklet.bands_section import bands_section
from draft.paper.booklet.booklet_page import Book
from draft.paper.booklet.cover import cover
from draft.paper.booklet.cutting_section import cutting_section, lays_section
from draft.paper.booklet.facts import BookletFacts
from draft.paper.booklet.glossary_section import glossary_before, glossary_section
from draft.paper.booklet.grading_section import grading_section
from draft.paper.booklet.imprint_of import imprint_of
from draft.paper.booklet.longer_section import longer_section
from draft.paper.booklet.material_section import material_section
from draft.paper.booklet.measures_section import measures_section
from draft.paper.booklet.page_format import HEIGHT, REGULAR, WIDTH, PageFormat
from draft.paper.booklet.printing_section import printing_section
from draft.paper.booklet.set_blocks import PlacedPicture
from draft.paper.booklet.sewing_section import sewing_section, steps_drawn
from draft.paper.booklet.sizes_section import sizes_section
from draft.paper.booklet.topics import testing_section
from draft.paper.booklet.worn_section import worn_section
from draft.paper.drawing.document import About, Leaf, Link, Shown, pdf_document
from draft.paper.drawing.ink import page_description
from draft.paper.drawing.picture_page import PicturePage

Laid = tuple[Book, list[PicturePage]]
"""The filled pages, and the designer's pictures that they show."""


def booklet_pdf(
    facts: BookletFacts, warn: Warn | None = None, page: PageFormat = REGULAR, laid: Laid | None = None
) -> bytes:
    """The booklet, of pages that are `laid` already or of new ones.

    The same input gives the same bytes; a designer's picture may differ between machines.

    `warn` is called with a note on each picture that is left out. Raises Problems if one cannot be drawn at all.
    """
    book, shown = laid or book_of(facts, warn, page)
    pages = sorted(book.footed().items())
    ink = [page_description(page.width, page.height, items, marked=True) for _, items in pages]
    leaves = [
        Leaf(
            WIDTH, HEIGHT,
            above=tuple(_shown(one, shown[one.picture], len(ink), page) for one in book.pictures.get(number, ())),
            links=tuple(_larger(link, page.enlarged) for link in book.links.get(number, ())),
            marked=index,
            enlarged=page.enlarged,
        )
        for index, (number, _) in enumerate(pages)
    ]  # fmt: skip
    title = facts.wording.say("book.title", title=facts.title)
    about = About(title, facts.wording.language, bookmarks=tuple(book.bookmarks), imprint=imprint_of(facts))
    return pdf_document(ink, leaves, about, [page.data for page in shown])


def book_of(
    facts: BookletFacts,
    warn: Warn | None = None,
    page: PageFormat = REGULAR,
    whole: Callable[[], BookletFacts] | None = None,
) -> Laid:
    """The filled pages, and the designer's pictures that they show; `warn` is told which are left out.

    `whole` is asked for the facts with sheets and cloth once they are needed, where those are still being made.
    """
    drawn = steps_drawn(facts)
    own = facts.drafted.plan.booklet
    with_picture = [(id(advice), advice.picture) for advice in own.advice if advice.picture]
    pages, notes = pictures.picture_pages([*own.pictures, *(picture for _, picture in with_picture)])
    if warn:
        for note in notes:
            warn(note)
    shown = [page for page in pages if page]
    numbers = iter(range(len(shown)))
    numbered = [(next(numbers), page) if page else None for page in pages]
    on_cover = [one for one in numbered[: len(own.pictures)] if one]
    beside = zip(with_picture, numbered[len(own.pictures) :], strict=True)
    in_steps = {advice: one for (advice, _), one in beside if one}
    shown += [facts.face.mark] if facts.face.mark else []
    book = Book(" · ".join(filter(None, (facts.title, facts.face.name))), page.in_colours(facts.face))
    cover(book, facts, on_cover, len(shown) - 1)
    sizes_section(book, facts)
    measures_section(book, facts)
    facts = whole() if whole else facts
    worn_section(book, facts)
    material_section(book, facts)
    printing_section(book, facts)
    grading_section(book, facts)
    longer_section(book, facts)
    cutting_section(book, facts)
    lays_section(book, facts)
    sewing_section(book, facts, in_steps, drawn)
    last = Book("", book.format)
    bands_section(last, facts)
    testing_section(last, facts)
    is_done = glossary_before(book, facts, last)
    bands_section(book, facts)
    testing_section(book, facts)
    if not is_done:
        glossary_section(book, facts)
    if not book.pages[max(book.pages)]:
        del book.pages[max(book.pages)]
    return book, shown


def _shown(placed: PlacedPicture, picture: PicturePage, first: int, page: PageFormat) -> Shown:
    """A picture where it stands on the page as it is printed."""
    scale, large = placed.width / picture.width * page.enlarged, page.enlarged
    low = HEIGHT - placed.y * large - picture.height * scale
    return Shown(first + placed.picture, placed.x * large, low, scale=scale, passage=placed.passage)


def _larger(link: Link, times: float) -> Link:
    x, y, width, height = (side * times for side in (link.x, link.y, link.width, link.height))
    return replace(link, x=x, y=y, width=width, height=height)
