"""A sheet for a tester of one size: a PDF to fill in, with a question for each level and length of the garment."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import field, replace

from draft.base.csvtext import csv_text
from draft.base.record import dataclass
from draft.paper.booklet import BookletFacts, imprint_of
from draft.paper.booklet.booklet_page import Book
from draft.paper.booklet.measure_names import measure_name
from draft.paper.booklet.page_format import HEIGHT, REGULAR, WIDTH
from draft.paper.booklet.set_blocks import FINE, STRONG, TOPIC, Block, column, combined, paragraph
from draft.paper.drawing.document import About, Leaf, pdf_document
from draft.paper.drawing.drawing import Path, rectangle
from draft.paper.drawing.form_fields import Field, Placed
from draft.paper.drawing.ink import page_description
from draft.paper.drawing.passage import Passage
from draft.paper.drawing.wording import Wording, capitalised
from draft.release.feedback_questions import SCALE, Questions, questions

SHEET = "sheet"
"""The hidden field that says of which pattern, version and size a sheet is, and in which unit measures stand."""
_PLACE = "field:"
_NAMED = 62.0
"""What the name of a row takes, mm; the rest is shared by the five steps of the scale."""
_BOX, _RING = 6.4, 4.4


@dataclass
class _Sheet:
    """A sheet while it is set: its words, and its fields in the order in which they are filled in."""

    facts: BookletFacts
    asked: Questions
    size: str
    fields: list[Field] = field(default_factory=list)

    @property
    def words(self) -> Wording:
        """The language that it is in."""
        return self.facts.wording

    def place(self, one: Field, x: float, y: float, wide: float, high: float) -> Block:
        """A field at a place of a block: an item without ink, which is moved as all are."""
        self.fields.append(one)
        box = Path((rectangle(x, y, wide, high),), id=f"{_PLACE}{len(self.fields) - 1}")
        return Block((box,), y + high)

    def say(self, key: str, **filled: object) -> str:
        """A text of the section on feedback."""
        return self.words.say(f"feedback.{key}", **filled)


def feedback_files(facts: BookletFacts) -> dict[str, bytes]:
    """`feedback-M.pdf` and so on, a sheet for each size, and `replies.csv`, a table with the same questions."""
    from draft.base.output_names import file_names

    asked = questions(facts.drafted)
    names = file_names(asked.sizes)
    files = {f"feedback-{names[body]}.pdf": feedback_pdf(facts, asked, asked.sizes[body]) for body in facts.bodies}
    version = facts.drafted.plan.version
    rows = [["", size, version, *[""] * (len(asked.columns) - 3)] for size in facts.sizes]
    return files | {"replies.csv": csv_text([asked.columns, *rows])}


def feedback_pdf(facts: BookletFacts, asked: Questions, size: str) -> bytes:
    """The sheet of one size; the same input gives the same bytes."""
    sheet = _Sheet(facts, asked, size)
    about = sheet.say("about", title=facts.title, version=facts.drafted.plan.version, size=size)
    book = Book(about, REGULAR.in_colours(facts.face))
    _fill(book, sheet, about)
    pages = sorted(book.footed().items())
    ink = []
    for _, items in pages:
        kept = [item for item in items if not item.id.startswith(_PLACE)]
        ink.append(page_description(WIDTH, HEIGHT, kept, marked=True))
    leaves = [Leaf(WIDTH, HEIGHT, marked=number) for number in range(len(ink))]
    fields = {number: _placed(items, sheet) for number, (_, items) in enumerate(pages)}
    hidden = Field(SHEET, about, "hidden", value=_of_sheet(sheet))
    fields[0] = [*fields[0], (hidden, (1.0, 1.0, 1.0, 1.0))]
    title = f"{sheet.say('title')} {about}"
    said = About(title, facts.wording.language, actual_size=False, imprint=imprint_of(facts))
    return pdf_document(ink, leaves, said, fields=fields)


def _of_sheet(sheet: _Sheet) -> str:
    plan = sheet.facts.drafted.plan
    return "\n".join((plan.name, plan.version, sheet.size, _unit(sheet.words)))


def _unit(wording: Wording) -> str:
    return "in" if wording.units == "in" else "cm"


def _placed(items: Sequence[object], sheet: _Sheet) -> list[Placed]:
    """The fields of one page, each with its box."""
    found: list[Placed] = []
    for item in items:
        if isinstance(item, Path) and item.id.startswith(_PLACE):
            (left, top), (right, low) = item.box().tolist()
            found.append((sheet.fields[int(item.id.removeprefix(_PLACE))], (left, top, right - left, low - top)))
    return found


# ---- what stands on it ----------------------------------------------------------------------------------------------


def _fill(book: Book, sheet: _Sheet, about: str) -> None:
    full, named = book.format.full, sheet.words.named
    book.chapter(sheet.say("title"))
    book.full_width(column([paragraph(about, full, STRONG), paragraph(sheet.say("thanks"), full)]), 3.0)
    half = (full - book.format.gutter) / 2
    pair = [_typed(sheet, "tester", sheet.say("tester"), half), _typed(sheet, "cloth", sheet.say("cloth"), half)]
    book.full_width(_beside(pair, half + book.format.gutter), 1.0)
    _measures(book, sheet)
    k = sheet.asked.sizes.index(sheet.size)
    length = sheet.words.length
    rooms = [(f"room {one.name}", named(one.name), length(float(one.ease[k]))) for one in sheet.asked.rooms]
    _scale(book, sheet, "room", rooms)
    _pulls(book, sheet)
    lengths = [(f"length {one.name}", named(one.name), length(float(one.finished[k]))) for one in sheet.asked.lengths]
    _scale(book, sheet, "length", lengths)
    _ends(book, sheet)


def _measures(book: Book, sheet: _Sheet) -> None:
    """Fields for the measures that the levels are worn over, four in a row."""
    if not sheet.asked.measures:
        return
    unit = sheet.words.say("units.inch" if _unit(sheet.words) == "in" else "units.centimetre")
    _head(book, sheet.say("body", unit=unit))
    wide = book.format.share(4)
    names = sheet.asked.measures
    for start in range(0, len(names), 4):
        blocks = [
            _typed(sheet, f"{name} cm", capitalised(measure_name(name, sheet.words)), wide)
            for name in names[start : start + 4]
        ]
        book.full_width(_beside(blocks, wide + book.format.gutter), 1.5)


def _scale(book: Book, sheet: _Sheet, sort: str, rows: Sequence[tuple[str, str, str]]) -> None:
    """A row for each question, and a ring for each step of the scale."""
    if not rows:
        return
    _head(book, sheet.say("room" if sort == "room" else "lengths"), 14.0 + 6.6 * len(rows))
    book.full_width(paragraph(sheet.say(f"{sort}_text"), book.format.full, FINE), 2.0)
    step = (book.format.full - _NAMED) / len(SCALE)
    heads = [paragraph(sheet.say(f"{sort}_{at}"), step - 2.0, FINE) for at in SCALE]
    high = max(head.height for head in heads)
    book.full_width(combined([head.moved(_NAMED + k * step, 0.0) for k, head in enumerate(heads)]), 0.8)
    book.flow.need(min(high + 3 * _BOX, book.flow.room))
    for name, level, figure in rows:
        told = sheet.say("intended", level=capitalised(level), ease=figure)
        passage = Passage("Form", told)
        label = paragraph(told, _NAMED - 2.0)
        words = replace(label, items=tuple(replace(item, passage=passage) for item in label.items))
        rings = [
            sheet.place(
                Field(name, f"{told}: {sheet.say(f'{sort}_{at}')}", "choice", str(at), passage=passage),
                _NAMED + k * step, 0.2, _RING, _RING,
            )
            for k, at in enumerate(SCALE)
        ]  # fmt: skip
        row = combined([words, *rings])
        book.full_width(replace(row, height=max(label.height, _RING + 0.6)), 1.5)


def _pulls(book: Book, sheet: _Sheet) -> None:
    """A tick for each level, and a line for what has none."""
    if not sheet.asked.rooms:
        return
    _head(book, sheet.say("pulls"))
    wide = book.format.share(4)
    ticks = []
    for room in sheet.asked.rooms:
        level = capitalised(sheet.words.named(room.name))
        told = sheet.say("pulls_at", level=level)
        passage = Passage("Form", told)
        tick = sheet.place(Field(f"pulls {room.name}", told, "tick", passage=passage), 0.0, 0.3, _RING, _RING)
        label = paragraph(level, wide - _RING - 3.0)
        words = replace(label, items=tuple(replace(item, passage=passage) for item in label.items))
        ticks.append(replace(combined([tick, words.moved(_RING + 2.0, 0.0)]), height=max(label.height, _RING + 0.4)))
    for start in range(0, len(ticks), 4):
        book.full_width(_beside(ticks[start : start + 4], wide + book.format.gutter), 1.6)
    book.full_width(_typed(sheet, "pulls elsewhere", sheet.say("elsewhere"), book.format.full), 1.0)


def _ends(book: Book, sheet: _Sheet) -> None:
    """Whether she would sew it again, and what else there is to say, in what is left of the page."""
    again = Passage("Form", sheet.say("again"))
    head = paragraph(sheet.say("again"), _NAMED + 10.0, TOPIC)
    words = [replace(head, items=tuple(replace(item, passage=again) for item in head.items))]
    for k, answer in enumerate(("yes", "no")):
        x = _NAMED + 12.0 + k * 28.0
        told = f"{sheet.say('again')}: {sheet.say(answer)}"
        words.append(sheet.place(Field("again", told, "choice", answer, passage=again), x, 0.2, _RING, _RING))
        words.append(paragraph(sheet.say(answer), 20.0).moved(x + _RING + 2.0, 0.0))
    book.flow.need(70.0)
    book.full_width(combined(words), 4.0)
    _head(book, sheet.say("words"), 30.0)
    high = max(24.0, book.flow.room - 2.0)
    passage = Passage("Form", sheet.say("words"))
    line = Block((Path((), passage=passage),), 0.0)
    box = sheet.place(Field("words", sheet.say("words"), lines=True, passage=passage), 0.0, 0.0, book.format.full, high)
    book.put(replace(combined([line, box]), height=high))


def _head(book: Book, text: str, room: float = 20.0) -> None:
    book.section(text, room, marked=False)


def _typed(sheet: _Sheet, name: str, label: str, wide: float) -> Block:
    """A label, and below it a field to type into."""
    passage = Passage("Form", label)
    words = paragraph(label, wide, FINE)
    words = replace(words, items=tuple(replace(item, passage=passage) for item in words.items))
    return combined([words, sheet.place(Field(name, label, passage=passage), 0.0, words.height + 0.4, wide, _BOX)])


def _beside(blocks: Sequence[Block], step: float) -> Block:
    """Blocks side by side, on one line at their foot."""
    high = max(block.height for block in blocks)
    return replace(combined([b.moved(k * step, high - b.height) for k, b in enumerate(blocks)]), height=high)
