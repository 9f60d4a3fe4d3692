"""The cover: the title, the finished garment, who made the pattern, and where there is more."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from draft.paper.booklet.booklet_page import (
    BODY,
    BOTTOM,
    FULL,
    NOTHING,
    STRONG,
    Block,
    Book,
    PlacedPicture,
    column,
    combined,
    paragraph,
    to_fit,
)
from draft.paper.booklet.code import code
from draft.paper.booklet.facts import BookletFacts
from draft.paper.booklet.pictures import PicturePage
from draft.paper.drawing.document import Link
from draft.paper.drawing.drawing import Drawing
from draft.paper.drawing.flow import Type
from draft.paper.flat import flat_drawing
from draft.paper.pages.sheet import draw_pattern, on_screen

_TITLE = Type(40.0, bold=True, leading=1.1)
_LINE = Type(14.0, leading=1.35)
_FLAT = 92.0
_PICTURE = 90.0
_CODE_GAP = 6.0
_HAIR = 0.01  # the foot stands on the last line, and rounding must not send it to the next page


def cover(book: Book, facts: BookletFacts, pictures: Sequence[tuple[int, PicturePage]]) -> None:
    """Fill the first page."""
    plan, garment = facts.drafted.plan, facts.garment
    own = plan.booklet
    title = paragraph(facts.title, _fitting(facts.title), FULL)
    lines = [
        facts.wording.sizes(facts.sizes),
        *([facts.wording.say("book.by", maker=garment.maker)] if garment.maker else []),
        *([facts.wording.say("book.version", version=plan.version)] if plan.version else []),
    ]
    book.full_width(column([title, *(paragraph(line, _LINE, FULL) for line in lines)], gap=1.5), 12.0)
    foot = _foot(facts)
    room = BOTTOM - book.flow.y - foot.height - 8.0
    shown = [_picture(index, page) for index, page in pictures] or [_flat(facts, min(room, _FLAT))]
    for block in shown:
        if block.height <= room:
            book.full_width(block, 10.0)
            room -= block.height + 10.0
    for text in (*own.texts, *own.about("garment"), *own.about("skill")):
        block = paragraph(facts.wording.named(text), BODY, FULL * 0.8)
        if block.height <= room:
            book.full_width(block, 3.0)
            room -= block.height + 3.0
    if foot.height:
        book.flow.y = max(book.flow.y, BOTTOM - foot.height - _HAIR)
        book.put(foot)
    book.flow.next_frame()


def _fitting(title: str) -> Type:
    """The title's setting, smaller where it would take more than two lines."""
    setting = _TITLE
    while len(setting.lines(title, FULL)) > 2 and setting.points > 18.0:
        setting = replace(setting, points=setting.points - 2.0)
    return setting


def _flat(facts: BookletFacts, height: float) -> Block:
    """The finished garment, as large as the page is wide and `height` high; the pieces where there is no front."""
    drawing = flat_drawing(facts.drafted.garment, facts.middle, height, facts.wording)
    if drawing is None:
        return to_fit(_pieces(facts), FULL, height)
    if drawing.width > FULL:
        fitting = height * (FULL - 2.0) / drawing.width
        drawing = flat_drawing(facts.drafted.garment, facts.middle, fitting, facts.wording) or drawing
    return Block(tuple(drawing.items()), drawing.height)


def _pieces(facts: BookletFacts) -> Drawing:
    """The pieces, where there is no front and no back."""
    return on_screen(draw_pattern(facts.garment, [facts.middle], "cutting", facts.wording))


def _picture(index: int, page: PicturePage) -> Block:
    width = min(FULL, _PICTURE * page.width / page.height)
    return Block((), width * page.height / page.width, (PlacedPicture(index, 0.0, 0.0, width),))


def _foot(facts: BookletFacts) -> Block:
    """Licence and link, with the link's code."""
    own, say = facts.drafted.plan.booklet, facts.wording.say
    blocks = []
    if own.licence:
        blocks += [paragraph(say("book.licence"), STRONG, FULL), paragraph(own.licence, BODY, FULL * 0.7)]
    if not own.link:
        return column(blocks, gap=0.6)
    square = code(own.link) or NOTHING
    side = square.height + _CODE_GAP if square.height else 0.0
    address = paragraph(own.link, BODY, FULL - side)
    if address.height > 30.0:
        address = paragraph(own.link[:240] + "…", BODY, FULL - side)
    linked = replace(address, links=(Link(0.0, 0.0, FULL - side, address.height, own.link),))
    text = column([*blocks, paragraph(say("book.more"), STRONG, FULL), linked], gap=0.6)
    height = max(text.height, square.height)
    return replace(
        combined([square.moved(0.0, height - square.height), text.moved(side, height - text.height)]), height=height
    )
