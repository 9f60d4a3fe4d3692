"""Pictures of a listing, all of one size: the garment drawn flat, its pieces, and its tables.

Each is a square card in the studio's colours, as SVG and, where the drawing library is, as PNG.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from draft.paper.booklet import BookletFacts
from draft.paper.booklet.booklet_page import Book
from draft.paper.booklet.cover import flat_block
from draft.paper.booklet.figures_table import put_table
from draft.paper.booklet.material_section import amount_table
from draft.paper.booklet.page_format import WIDTH, PageFormat
from draft.paper.booklet.set_blocks import SMALL, Block, scaled, to_fit
from draft.paper.booklet.sizes_section import TableRows, body_table, finished_table
from draft.paper.drawing import font
from draft.paper.drawing.drawing import Drawing, Item, Layer, Turn
from draft.paper.drawing.flow import Type
from draft.paper.drawing.svg import svg
from draft.paper.flat import flat_drawing
from draft.paper.pages.sheet import draw_pattern, pieces_alone

PIXELS = 2100
"""The side of a PNG: ten to the mm of its card, more than shops show (common practice: 2,000 and more)."""
_EDGE, _FOOT = 14.0, 8.0
_LARGER = (2.2, 2.0, 1.8, 1.6, 1.4, 1.25, 1.1)
"""So many times its usual size a table is set where its card holds it so: shops show cards small."""
_CARD = PageFormat(
    1.0, _EDGE, _EDGE, WIDTH - 16.0, 1, 8.0,
    title=Type(28.0, bold=True, leading=1.15), head=Type(24.0, bold=True, leading=1.15),
)  # fmt: skip


def listing_pictures(facts: BookletFacts) -> dict[str, Drawing]:
    """The cards by their names: `flat`, `pieces`, `sizes`, `finished` and `cloth`, those that there is anything of.

    A table that is longer than a card goes on on `sizes-2`, and so on.
    """
    say = facts.wording.say
    cards: dict[str, Drawing] = {}
    high = WIDTH - 62.0
    if flat_drawing(facts.drafted.garment, facts.middle, high, facts.wording):
        cards["flat"] = _drawn(facts, facts.title, flat_block(facts, _CARD.full, high))
    pieces = pieces_alone(draw_pattern(facts.garment, [facts.middle], "cutting", facts.wording))
    scale = min(_CARD.full / pieces.width, high / pieces.height, 1.0)
    block = to_fit(pieces, _CARD.full, high, 1.0).moved((_CARD.full - pieces.width * scale) / 2, 0.0)
    cards["pieces"] = _drawn(facts, say("listing.pieces"), block)
    tables = {
        "sizes": ("choosing.chart", body_table(facts)),
        "finished": ("choosing.finished", finished_table(facts)),
        "cloth": ("listing.cloth", amount_table(facts)),
    }
    for name, (key, rows) in tables.items():
        for number, card in enumerate(_tabled(facts, say(key), rows) if rows else (), 1):
            cards[name if number == 1 else f"{name}-{number}"] = card
    return cards


def _drawn(facts: BookletFacts, title: str, block: Block) -> Drawing:
    """A drawing in the middle of its card."""
    book = _headed(facts, title)
    top = book.flow.y + max(0.0, _CARD.bottom - book.flow.y - block.height) / 2
    book.pages[0] = [*book.pages[0], *block.moved(_EDGE, top).items]
    return next(_cards(facts, book))


def _tabled(facts: BookletFacts, title: str, rows: TableRows) -> Iterator[Drawing]:
    """A table as large as its card holds, in several cards where it is long."""
    whole = _headed(facts, title)
    top, head = whole.flow.y, ["", "", *facts.sizes]
    put_table(whole, head, rows)
    if len(whole.pages) == 1:
        tall = whole.flow.y - top
        for scale in _LARGER:
            alone = Book(
                facts.title,
                replace(_CARD, enlarged=scale, left=_EDGE / scale, top=0.0, bottom=(_CARD.bottom - top) / scale),
            )
            put_table(alone, head, rows)
            if alone.page == 0 and alone.flow.y <= tall + 0.1:  # in as many rows and parts
                larger = [scaled(item, scale).moved(Turn(0, 0.0, top)) for item in alone.pages[0]]
                book = _headed(facts, title)
                book.pages[0] = [*book.pages[0], *larger]
                return _cards(facts, book)
    return _cards(facts, whole)


def _headed(facts: BookletFacts, title: str) -> Book:
    book = Book(facts.title, _CARD.in_colours(facts.face))
    book.pages[0] = []
    book.chapter(title, 20.0)
    return book


def _cards(facts: BookletFacts, book: Book) -> Iterator[Drawing]:
    """Each page as a card, with whose it is at its foot."""
    version = facts.drafted.plan.version
    said = " · ".join(
        filter(None, (facts.title, facts.wording.say("book.version", version=version) if version else ""))
    )
    whose = facts.face.name or facts.garment.maker
    y = WIDTH - _FOOT
    for number in sorted(book.pages):
        foot: list[Item] = [SMALL.label(font.fitted_text(said, SMALL.size, _CARD.full / 2), _EDGE, y)]
        foot += [SMALL.label(font.fitted_text(whose, SMALL.size, _CARD.full / 2), WIDTH - _EDGE, y, "end")]
        items = tuple(replace(item, passage=None) for item in (*book.pages[number], *foot))
        yield Drawing(facts.title, WIDTH, WIDTH, (Layer("card", items),))


def picture_files(facts: BookletFacts) -> tuple[dict[str, bytes], bool]:
    """`flat.svg`, `flat.png` and so on, and whether PNGs could be made: they are left out without the cairo library."""
    drawn = {name: svg(card).encode() for name, card in listing_pictures(facts).items()}
    files = {f"{name}.svg": data for name, data in drawn.items()}
    pixels = {f"{name}.png": png for name, data in drawn.items() if (png := as_png(data))}
    return files | pixels, bool(pixels)


def as_png(data: bytes) -> bytes:
    """A square SVG of ours in pixels; nothing where this machine lacks the drawing library."""
    try:
        import cairosvg
    except (OSError, ImportError):
        return b""
    font.register()
    made: bytes = cairosvg.svg2png(bytestring=data, output_width=PIXELS, output_height=PIXELS)
    return made
