"""The cover: the title, the finished garment, its sizes and cloth, who made the pattern, and where there is more."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from draft.paper.booklet.booklet_page import Book, Topic
from draft.paper.booklet.code import code
from draft.paper.booklet.facts import BookletFacts
from draft.paper.booklet.figures_table import put_table, table_height
from draft.paper.booklet.for_children import no_cords
from draft.paper.booklet.material_section import cloth_asked
from draft.paper.booklet.page_format import PageFormat
from draft.paper.booklet.set_blocks import (
    BODY,
    NOTHING,
    STRONG,
    Block,
    column,
    combined,
    linked,
    paragraph,
    picture_block,
    shown,
    to_fit,
)
from draft.paper.booklet.sizes_section import for_whom, key_table
from draft.paper.booklet.topics import told
from draft.paper.drawing.drawing import Drawing
from draft.paper.drawing.flow import Type
from draft.paper.drawing.passage import Passage
from draft.paper.drawing.picture_page import PicturePage
from draft.paper.drawing.seam_rule import seam_rule
from draft.paper.flat import flat_drawing
from draft.paper.pages.sheet import draw_pattern, on_screen

_LINE = Type(13.0, leading=1.35)
_FLAT = 118.0
_LEAST = 40.0
_CODE_GAP = 6.0
_MARK_SHARE, _MARK_HIGH, _MARK_LOW = 0.26, 24.0, 1.5
"""Of the text's width, and mm high: a mark is seen and does not vie with the garment; mm below the seam."""
_ONE_LINE = 0.7
"""A title is set so many times as large, and no smaller, to stand on one line."""
_HAIR = 0.01  # the foot stands on the last line, and rounding must not send it to the next page


def cover(book: Book, facts: BookletFacts, pictures: Sequence[tuple[int, PicturePage]], mark: int) -> None:
    """Fill the first page, and what of it a page of large letters has no room for on those that follow.

    `mark` is the number of the studio's mark among the pictures of the document, if it has one.
    """
    book.full_width(_title(book.format, facts, mark), 9.0)
    foot, topics, table = _foot(facts, book.format), _topics(facts), key_table(facts)
    below = book.height_of(topics) + (table_height(table) + 6.0 if table else 0.0) + foot.height + 4.0
    room, lowest = book.flow.room - below, book.format.bottom - below + 3.9
    if room < _LEAST:  # large letters: the drawing has what the page leaves, and the words follow it
        room, lowest = book.flow.room - 2.0, book.format.bottom
    blocks = [_picture(index, page, book.format.full, min(room, _FLAT), facts) for index, page in pictures]
    _middle(book, blocks or [flat_block(facts, book.format.full, min(room, _FLAT))], room)
    book.flow.y = min(book.flow.y, lowest)  # what follows keeps its room, however near the drawing comes to it
    if table:
        put_table(book, ["", "", *facts.sizes], table)
    book.topics(topics)
    if foot.height:
        book.flow.need(foot.height)
        book.flow.y = max(book.flow.y, book.format.bottom - foot.height - _HAIR)
        book.put(foot)
    book.flow.next_frame()


def _middle(book: Book, blocks: Sequence[Block], room: float) -> None:
    """Drawings and pictures in the middle of so much room, as many as it holds."""
    fitting, left = list[Block](), room
    for block in blocks:
        if block.height <= left:
            fitting.append(block)
            left -= block.height + 8.0
    start = book.flow.y
    shared = max(0.0, left) / (len(fitting) + 1)
    for block in fitting:
        book.flow.y += shared
        book.full_width(block, 8.0)
    book.flow.y = max(book.flow.y, start + room)


def _title(page: PageFormat, facts: BookletFacts, mark: int) -> Block:
    """The title over a seam, and under it who made the pattern, which version it is, and its sizes; beside them a mark.

    The mark stands at the right, below the seam, so that it takes room of neither title nor drawing.
    """
    say = facts.wording.say
    lines = [
        " · ".join([facts.wording.sizes(facts.sizes), *for_whom(facts)]),
        *([say("book.by", maker=facts.garment.maker)] if facts.garment.maker else []),
        *([say("book.version", version=facts.version)] if facts.version else []),
    ]
    title = paragraph(facts.title, page.full, _fitting(facts.title, page), "H1")
    rule = Block(seam_rule(page.full, colour=page.rule), 2.0)
    shown, wide = _mark(page, facts, mark)
    words = column([paragraph(line, page.full - wide, _LINE) for line in lines], gap=2.0)
    under = replace(combined([words, shown]), height=max(words.height, shown.height))
    return column([title, rule, under], gap=2.0)


def _mark(page: PageFormat, facts: BookletFacts, number: int) -> tuple[Block, float]:
    """The studio's mark at the right, and the width that it takes of the lines beside it."""
    mark = facts.face.mark
    if not mark:
        return NOTHING, 0.0
    wide, high = mark.within(page.full * _MARK_SHARE, _MARK_HIGH)
    block = picture_block(number, wide, high, Passage("Figure", facts.face.name))
    return replace(block.moved(page.full - wide, _MARK_LOW), height=high + _MARK_LOW), wide + _CODE_GAP


def _topics(facts: BookletFacts) -> list[Topic]:
    """The garment in the designer's words, the cloth, and what there is to know before it is begun."""
    own, say, named = facts.drafted.plan.booklet, facts.wording.say, facts.wording.named
    topics: list[Topic] = [
        ("", [named(text) for text in (*own.texts, *own.about("garment"))]),
        (say("book.cloth"), [cloth_asked(facts)]),
        (say("book.skill"), told("skill", facts)),
        (say("book.children"), no_cords(facts)),
        (say("book.terms"), list(facts.face.terms)),
    ]
    return [topic for topic in topics if topic[1]]


def _fitting(title: str, page: PageFormat) -> Type:
    """The title's setting, somewhat smaller where one line then holds it, and wherever it would take more than two."""
    setting = page.title
    one_line = replace(setting, points=setting.points * min(1.0, page.full / max(setting.width(title), 1.0)) - _HAIR)
    if one_line.points >= _ONE_LINE * setting.points:
        return one_line
    while len(setting.lines(title, page.full)) > 2 and setting.points > 16.0:
        setting = replace(setting, points=setting.points - 2.0)
    return setting


def flat_block(facts: BookletFacts, width: float, height: float) -> Block:
    """The finished garment, as large as the page is wide and `height` high; the pieces where there is no front."""
    height -= 9.0  # for its words
    drawing = flat_drawing(facts.drafted.garment, facts.middle, height, facts.wording)
    if drawing is None:
        drawing = _pieces(facts)
        scale = min(width / drawing.width, height / drawing.height, 1.0)
        pieces = to_fit(drawing, width, height, 1.0)
        return shown(pieces.moved((width - drawing.width * scale) / 2, 0.0), facts.title)
    while drawing.width > width:  # its gap stays as wide as it is: what it is narrowed by is never quite enough at once
        height *= (width - 1.0) / drawing.width
        drawing = flat_drawing(facts.drafted.garment, facts.middle, height, facts.wording) or drawing
    middle = Block(tuple(drawing.items()), drawing.height).moved(max(0.0, (width - drawing.width) / 2), 0.0)
    return shown(middle, facts.wording.say("book.drawn", title=facts.title))


def _pieces(facts: BookletFacts) -> Drawing:
    """The pieces, where there is no front and no back."""
    return on_screen(draw_pattern(facts.garment, [facts.middle], "cutting", facts.wording))


def _picture(index: int, page: PicturePage, width: float, height: float, facts: BookletFacts) -> Block:
    wide = min(width, height * page.width / page.height)
    told = Passage("Figure", facts.title)
    return picture_block(index, wide, wide * page.height / page.width, told)


def _studio(facts: BookletFacts, width: float) -> list[Block]:
    """Where the studio is found, where it says so."""
    face = facts.face
    found = [face.name, ", ".join(face.address)] if face.address else []
    page = linked(face.link, face.link, width) if face.link not in ("", facts.drafted.plan.booklet.link) else NOTHING
    lines = [paragraph(line, width, setting) for line, setting in zip(found, (STRONG, BODY), strict=False)]
    return [column([*lines, page], gap=0.6)] if lines or page.height else []


def _foot(facts: BookletFacts, page: PageFormat) -> Block:
    """Licence and link, with the link's code."""
    own, say, full = facts.drafted.plan.booklet, facts.wording.say, page.full
    blocks = _studio(facts, full * 0.7)
    if own.licence:
        licence = facts.wording.named(own.licence)
        blocks += [paragraph(say("book.licence"), full, STRONG), paragraph(licence, full * 0.7)]
    if not own.link:
        return column(blocks, gap=0.6)
    square = code(own.link) or NOTHING
    side = square.height + _CODE_GAP if square.height else 0.0
    address = linked(own.link, own.link, full - side)
    if address.height > 30.0:
        address = linked(own.link[:240] + "…", own.link, full - side)
    text = column([*blocks, paragraph(say("book.more"), full - side, STRONG), address], gap=0.6)
    height = max(text.height, square.height)
    drawn = shown(square, say("book.code")).moved(0.0, height - square.height)
    return replace(combined([text.moved(side, height - text.height), drawn]), height=height)
