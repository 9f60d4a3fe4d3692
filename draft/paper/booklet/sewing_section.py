"""The sewing, step by step, written out from the declared joins."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import replace

from draft.base.arrays import Floats
from draft.paper.booklet.afterwards import beside
from draft.paper.booklet.band_words import ring_folded
from draft.paper.booklet.booklet_page import GAP, Book, Topic
from draft.paper.booklet.close_up import close_up
from draft.paper.booklet.elastic_in_band import elastic_drawn, elastic_laid_in, elastic_title
from draft.paper.booklet.facts import BookletFacts
from draft.paper.booklet.flat_pieces import inner_lines, mark_lines, takeup_lines
from draft.paper.booklet.folded_drawing import GROUND, WRONG
from draft.paper.booklet.folding import takeups_sewn, takeups_title
from draft.paper.booklet.hemming import hem, stitched_on
from draft.paper.booklet.join_words import is_set_in, joined
from draft.paper.booklet.opening_words import closed_by_hand, opening_title, slit_hemmed, zip_put_in
from draft.paper.booklet.order import SewingStep, sewing_order
from draft.paper.booklet.own_drawing import own_drawn
from draft.paper.booklet.own_steps import advice_on, with_own
from draft.paper.booklet.preparing import fastened, fastened_title, interfaced, stayed
from draft.paper.booklet.seam_letter import lettered
from draft.paper.booklet.set_blocks import (
    BODY,
    NOTHING,
    SIDE,
    STRONG,
    Block,
    column,
    combined,
    linked,
    paragraph,
    picture_block,
    shown,
)
from draft.paper.booklet.so_far import done_after
from draft.paper.booklet.stages import Sentence, Stage, in_order
from draft.paper.booklet.step_drawing import FINE_SEAM, SEAM, THIN, Drawer
from draft.paper.booklet.steps_set import SetStep, set_steps
from draft.paper.booklet.topics import told
from draft.paper.drawing.passage import Passage
from draft.paper.drawing.picture_page import PicturePage
from draft.paper.drawing.wording import capitalised
from draft.paper.flat.bands import Band, bands
from draft.paper.flat.done import Done
from draft.plan.advice import Advice
from draft.seams.wedges import closes_a_wedge

Pictures = Mapping[int, tuple[int, PicturePage]]
"""The designer's pictures by the advice that they belong to (by identity): their number, and what they are."""

_TALLEST = 80.0
_PARAGRAPH = 260
"""About so many letters of a step stand together: four lines."""
_ROW = 1.0  # mm between the rows of the table of stitches
_USE, _NUMBER = 46.0, 24.0  # mm at the left and the right of the table of stitches


def steps_drawn(facts: BookletFacts) -> tuple[Block, ...]:
    """The drawing of each step in order, which leans on no other section; a block of no height where there is none."""
    garment = facts.garment
    drawer = Drawer.of(garment, facts.middle)
    found = {band.piece.name: band for band in bands(garment, facts.middle)}
    steps = with_own(sewing_order(garment), facts.drafted.plan.booklet.advice)
    drawn = []
    for number, step in enumerate(steps, 1):
        at_work = replace(drawer, done=done_after(steps[:number]))
        picture = _picture(step, at_work, done_after(steps[: number - 1]))
        if step.join and step.sort in ("join", "own"):
            picture = lettered(picture, facts.letters[step.join.name], SEAM)
        if step.join and ring_folded(step.join, facts, found):
            picture = beside(picture, drawer.ring(garment.piece(step.join.first[0].piece)))
        drawn.append(picture)
    return tuple(drawn)


def sewing_section(book: Book, facts: BookletFacts, pictures: Pictures, drawn: Sequence[Block]) -> None:
    """The whole section; `drawn` are its steps as `steps_drawn` gives them."""
    say, garment = facts.wording.say, facts.garment
    book.chapter(say("sewing.title"), 85.0)
    _before(book, facts)
    found = {band.piece.name: band for band in bands(garment, facts.middle)}
    own = facts.drafted.plan.booklet
    steps = with_own(sewing_order(garment), own.advice)
    set_of: list[SetStep] = []
    for number, (step, picture) in enumerate(zip(steps, drawn, strict=True), 1):
        title = _title(step, facts)
        figure = shown(picture, say("sewing.drawn", step=title)) if picture.height else NOTHING
        said = [block for one in advice_on(step, own.advice) for block in _own(one, book, pictures, facts)]
        text = sentences_of(step, facts, found)
        last = Stage.LAID if step.join and not step.own and is_set_in(step.join, facts) else 0
        before, after = ([one.text for one in text if (one.stage <= last) is early] for early in (True, False))
        set_of.append(SetStep(f"{number}  {title}", figure, [*before, *said, *after]))
    set_steps(book, [*set_of, SetStep(say("sewing.finish"), NOTHING, [say("sewing.finish_text")])])


def _before(book: Book, facts: BookletFacts) -> None:
    """What holds for all steps, and what is sewn with which stitch."""
    say = facts.wording.say
    common = [say("sewing.text"), say("sewing.letters"), *_allowances(facts), facts.said("sewing.try")]
    topics: list[Topic] = [
        ("", common),
        (say("sewing.pressing"), [facts.said("sewing.press_all")]),
        (say("sewing.fitting"), told("fitting", facts)),
    ]
    book.topics([topic for topic in topics if topic[1]])
    _stitches(book, facts)


def _picture(step: SewingStep, drawer: Drawer, before: Done) -> Block:
    """The drawing of a step, and the garment small beside it where it looks otherwise than before."""
    if step.patch:
        return beside(close_up(drawer.patch(step.patch), (SEAM,)), drawer.result(before))
    if step.join and step.opening:
        return beside(drawer.opening(step.join, step.opening), drawer.result(before))
    if step.join:
        return drawer.join(step.join, before)
    if step.sort == "hem":
        return drawer.hem(step.edges)
    if step.sort == "elastic":
        return elastic_drawn(THIN)
    if step.own:
        return own_drawn(step, drawer)
    thick = _worked_on(step, drawer.body)
    fine = FINE_SEAM if step.takeups or step.inner_darts or step.marks else SEAM
    return close_up(drawer.on_pieces(thick, fine, GROUND if step.marks else WRONG), (fine,)) if thick else NOTHING


def _worked_on(step: SewingStep, body: int) -> dict[str, list[Floats]]:
    """The lines of each piece, y up, that a step on pieces lying flat is about."""
    found: dict[str, list[Floats]] = {piece.name: [] for piece in step.pieces}
    if step.sort == "stay":
        for piece, edge in step.edges:
            found.setdefault(piece.name, []).append(edge.segments[body])
    for piece in step.pieces:
        found[piece.name] += [line for one in step.takeups for line in takeup_lines(piece, one, body)]
        found[piece.name] += [line for dart in step.inner_darts for line in inner_lines(dart, body)]
        found[piece.name] += [line for mark in step.marks for line in mark_lines(mark, body)]
    return found


def sentences_of(step: SewingStep, facts: BookletFacts, found: Mapping[str, Band]) -> list[Sentence]:
    """What a step says, what is prepared before what is sewn: all of it but the designer's words."""
    return in_order(_told_of(step, facts, found))


def _told_of(step: SewingStep, facts: BookletFacts, found: Mapping[str, Band]) -> list[Sentence]:
    if step.patch:
        return stitched_on(step.patch, facts)
    if step.join and step.opening:
        return _of_opening(step, facts)
    if step.join and not step.own:
        return joined(step.join, facts, found)
    if step.sort == "hem":
        return hem(step.edges, facts)
    words = {"interfacing": interfaced, "stay": stayed, "takeups": takeups_sewn, "fastenings": fastened}
    words["elastic"] = elastic_laid_in
    return words[step.sort](step, facts) if step.sort in words else []


def _of_opening(step: SewingStep, facts: BookletFacts) -> list[Sentence]:
    assert step.join and step.opening
    if step.sort == "zip":
        return zip_put_in(step.join, step.opening, facts)
    return slit_hemmed(step.join, facts) if step.sort == "slit" else closed_by_hand(facts)


def _title(step: SewingStep, facts: BookletFacts) -> str:
    named, say = facts.wording.named, facts.wording.say
    if step.sort in ("interfacing", "stay"):
        return say(f"sewing.title_{step.sort}")
    if step.sort == "elastic":
        return elastic_title(step, facts)
    if step.sort == "takeups":
        return takeups_title(step, facts)
    if step.sort == "fastenings":
        return fastened_title(step, facts)
    if step.patch:
        return say("sewing.title_patch", piece=facts.wording.title(facts.garment.piece(step.patch.piece)))
    if step.join and step.opening:
        return opening_title(step.sort, step.join, facts)
    if step.join:
        return say("sewing.title_join", seam=capitalised(named(step.name)), letter=facts.letters[step.join.name])
    return capitalised(say("sewing.hem")) if step.name == "hem" else capitalised(named(step.name))


def _allowances(facts: BookletFacts) -> list[str]:
    widths = {
        round(e.allowance, 1) for p in facts.garment.pieces for e in p.edges if e.allowance > 0 and not e.turned_up
    }
    if not widths:
        return [facts.wording.say("sewing.bare")] if facts.bare else []
    lengths = facts.wording.listed([facts.wording.length(width) for width in sorted(widths)])
    said = facts.wording.say("sewing.seam_allowance", length=lengths)
    text = [facts.wording.say("sewing.allowances", lengths=said)]
    return [*text, facts.wording.say("sewing.unwashed")] if facts.drafted.unwashed else text


def _stitches(book: Book, facts: BookletFacts) -> None:
    """What is sewn with which stitch, and its number: here alone."""
    rows = _stitch_rows(book, facts)
    said: list[Topic] = [("", [facts.wording.say("sewing.stitches_text"), facts.said("sewing.scrap")])]
    room = book.height_of(said) + sum(row.height + _ROW for row in rows) + GAP
    book.section(facts.wording.say("sewing.stitches"), room, marked=False)
    book.topics(said)
    book.full_width(column(rows, gap=_ROW), 6.0)


def _stitch_rows(book: Book, facts: BookletFacts) -> list[Block]:
    """A use, the stitch for it, and its number, each."""
    say, wide, table = facts.wording.say, book.format.full, Passage("Table")
    rows: list[Block] = []
    for key in facts.wording.keys(f"stitches.{'knit' if facts.knit else 'woven'}."):
        row = Passage("TR", "", table)
        use, number, stitch = (say(f"{key}.{part}") for part in (_use(key, facts), "number", "stitch"))
        names = _USE if book.format.columns > 1 else wide / 3
        cells = [
            paragraph(use, names - 3.0, STRONG, "TH", row),
            paragraph(stitch, wide - names - _NUMBER, BODY, "TD", row).moved(names, 0.0),
            paragraph(number, _NUMBER, STRONG, "TD", row).moved(wide - _NUMBER + 2.0, 0.0),
        ]
        rows.append(combined(cells))
    return rows


def _use(key: str, facts: BookletFacts) -> str:
    """Which words say what a stitch is for: those that name darts, where there are any."""
    darts = any(piece.takeups or piece.inner_darts for piece in facts.garment.pieces)
    wedges = any(closes_a_wedge(facts.garment, join) for join in facts.garment.joins)
    return "use_darts" if (darts or wedges) and facts.wording.has(f"{key}.use_darts") else "use"


# ---- what the designer adds ------------------------------------------------------------------------------------------


def in_paragraphs(words: str) -> list[str]:
    """Long words of a designer's parted between sentences: hands are on the cloth, and the eye must find its place."""
    parts = list[str]()
    for sentence in re.split(r"(?<=[.!?])\s+(?=[A-ZÄÖÜ])", words):
        if parts and len(parts[-1]) + len(sentence) < _PARAGRAPH:
            parts[-1] += f" {sentence}"
        else:
            parts.append(sentence)
    return parts


def _own(advice: Advice, book: Book, pictures: Pictures, facts: BookletFacts) -> list[str | Block]:
    """The designer's words, her picture and her link below them."""
    words = facts.wording.named(advice.text)
    blocks: list[str | Block] = [*in_paragraphs(words)] if advice.text else []
    wide = book.format.full - (SIDE + book.format.gutter if book.format.columns > 1 else 0.0)
    if found := pictures.get(id(advice)):
        number, page = found
        width = min(wide, min(_TALLEST, book.tall) * page.width / page.height)
        told = Passage("Figure", words or facts.title)
        blocks.append(picture_block(number, width, width * page.height / page.width, told))
    if advice.link:
        blocks.append(linked(advice.link, advice.link, wide))
    return blocks
