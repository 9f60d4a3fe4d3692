"""What to cut: each piece made small, and the cutting layouts."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

import numpy as np

from draft.base.arrays import Floats
from draft.garment.elastics import Elastic, elastics_of
from draft.garment.garment import Piece, SidePart
from draft.paper.booklet.booklet_page import GAP, Book, Topic
from draft.paper.booklet.edges_marked import marked
from draft.paper.booklet.elastic_in_band import LAP, is_laid_in
from draft.paper.booklet.facts import BookletFacts
from draft.paper.booklet.folded_drawing import GROUND
from draft.paper.booklet.order import is_interfacing
from draft.paper.booklet.room_for import roomiest
from draft.paper.booklet.set_blocks import FINE, STRONG, Block, beside, column, combined, paragraph, shown, to_fit
from draft.paper.booklet.step_drawing import THIN, opened_cutting_line
from draft.paper.drawing.drawing import Path
from draft.paper.drawing.wording import capitalised
from draft.paper.pictures.lay_drawing import Drawn, LayPicture, lay_alone
from draft.paper.pictures.lay_labels import UPPER_END

_SHAPES = ((32.0, 36.0, 5.0), (32.0, 30.0, 5.0), (28.0, 26.0, 4.0), (23.0, 22.0, 3.0))
"""How wide and high pieces are drawn at most, and what is left free below a row, mm.

The first with which all stand on the page that is being filled.
"""
_CHAPTER = 34.0
"""What the heading takes, mm."""
_WHITE = 0.4
"""More of a page is not left white to keep the pieces together."""
_TALLEST_LAYS = (150.0, 138.0, 126.0, 114.0, 104.0, 94.0, 84.0, 76.0, 68.0, 60.0)
"""How high a layout's drawing may be, mm: the first with which they take the fewest pages."""
_HEADING = 20.0
_OTHERWISE = ("opened_out", "folded_in_half", "spare")
"""What a lay says of a piece beside how often it is cut."""


def cutting_section(book: Book, facts: BookletFacts) -> None:
    """The pieces, one to each column."""
    garment, body, count = facts.cut_garment, facts.middle, book.format.columns
    rings = {piece.name: opened_cutting_line(piece, body) for piece in garment.pieces}
    wide = book.format.column

    def listed(shape: tuple[float, float, float]) -> list[Block]:
        """The pieces in rows, so wide and high and so far apart, mm."""
        shapes = _shapes(rings, shape[0], shape[1])
        each = [
            _listed(piece, number, shapes[piece.name], (shape[0], wide), facts)
            for number, piece in enumerate(garment.pieces, start=1)
        ]
        rows = [beside(each[k : k + count], wide, book.format.gutter) for k in range(0, len(each), count)]
        return [replace(row, height=row.height + shape[2]) for row in rows]

    stiffened = any(is_interfacing(cut.cloth) for piece in garment.pieces for cut in piece.cuts)
    said = [
        facts.said("material.cut_bare" if facts.bare else "material.cut_text"),
        *([facts.wording.say("material.interfacing_up")] if stiffened else []),
    ]
    text = paragraph(" ".join(said), book.format.full)
    head, room = _CHAPTER + text.height + GAP, book.flow.room
    rows = roomiest(_SHAPES, listed, lambda some: 0 if head + _together(some) <= room else 1)
    whole = _together(rows)
    parted = head + whole > book.tall or (
        head + _together(rows[:2]) <= room < head + whole and room > _WHITE * book.tall
    )
    book.chapter(facts.wording.say("material.cut"), text.height + GAP + (_together(rows[:2]) if parted else whole))
    book.full_width(text)
    for row in rows:
        book.full_width(row, 0.0)


def _together(rows: Sequence[Block]) -> float:
    return sum(row.height for row in rows)


def _listed(piece: Piece, number: int, shape: Block, widths: tuple[float, float], facts: BookletFacts) -> Block:
    """A piece made small, and how it is cut; its number is that of the cutting layouts.

    `widths` are that of its drawing's place and of all.
    """
    left = widths[0] + 4.0
    wide = widths[1] - left
    lines = [*facts.wording.cuts(piece), *(capitalised(line) for line in facts.wording.allowances(piece))]
    lines += [_elastic(one, facts) for one in elastics_of(piece)]
    name = facts.wording.title(piece)
    title = paragraph(f"{number} · {name}" if facts.cloth and facts.cloth.lays else name, wide, STRONG, "H3")
    text = column([title, *(paragraph(line, wide) for line in lines)], gap=0.2)
    drawn = shown(shape, facts.wording.say("material.piece_drawn", piece=name))
    return combined([text.moved(left, 0.0), drawn])


def _elastic(one: Elastic, facts: BookletFacts) -> str:
    """How long the elastic of an edge is, from the smallest size to the largest."""
    laid_in = is_laid_in(one.piece, one.edge, facts.garment)
    lengths = [float(one.length[body]) + (LAP if laid_in else 0.0) for body in facts.bodies]
    ends = dict.fromkeys(facts.wording.length(each) for each in (min(lengths), max(lengths)))
    if laid_in:
        return facts.wording.say("material.elastic_ring", length=" – ".join(ends), lap=facts.wording.length(LAP))
    key = "material.elastics" if one.count > 1 else "material.elastic"
    return facts.wording.say(
        key, edge=marked([SidePart(one.piece.name, one.edge.name)], facts), count=one.count, length=" – ".join(ends)
    )


def _shapes(rings: Mapping[str, Floats], wide: float, high: float) -> dict[str, Block]:
    """All pieces at one scale, the largest filling its place of so many mm."""
    sides = np.array([np.ptp(ring[:, (0, 3)].reshape(-1, 2), axis=0) for ring in rings.values()])
    scale = float((np.array([wide, high]) / sides).min())
    return {name: _shape(ring, scale) for name, ring in rings.items()}


def _shape(ring: Floats, scale: float) -> Block:
    low, high = (reach(ring[:, (0, 3)].reshape(-1, 2), axis=0) for reach in (np.min, np.max))
    moved = (ring - low) * scale
    height = float(high[1] - low[1]) * scale
    return Block((Path((moved,), THIN, GROUND, closed=True),), max(height, 4.0))


def lays_section(book: Book, facts: BookletFacts) -> None:
    """The cutting layouts, if there are any, one after the other in columns."""
    lays = facts.cloth.lays if facts.cloth else ()
    if not lays:
        return
    drawn: Drawn = {}
    topics = roomiest(
        _TALLEST_LAYS,
        lambda tallest: _lays(lays, tallest, book, facts, drawn),
        lambda some: book.pages_for(some, _HEADING),
    )
    first = topics[0][1][0]
    book.section(facts.wording.say("material.layouts"), (0.0 if isinstance(first, str) else first.height) + 4.0)
    book.topics(topics)


def _lays(lays: Sequence[LayPicture], tallest: float, book: Book, facts: BookletFacts, drawn: Drawn) -> list[Topic]:
    """Each layout, a topic of its own; what one has said of how it is drawn those after it do not say again.

    Pieces have their numbers where it is told how often each is cut: of a lay's own list only what differs is said.

    Where there is one column, the words below a layout may stand on the next page.
    """
    topics, seen = list[Topic](), set[str | tuple[str, ...]]()
    otherwise = [facts.wording.say(f"lay.{key}") for key in _OTHERWISE]
    for lay in lays:
        listed = tuple(line for line in lay.listed if any(words in line for words in otherwise))
        told = [*(() if listed in seen else listed), *(line for line in lay.legend if line not in seen)]
        parts = _lay(lay, told, book.format.column, tallest, facts, drawn)
        topics.append(
            ("", [column(parts, gap=2.0)] if book.format.columns > 1 else [part for part in parts if part.items])
        )
        seen |= {listed, *lay.legend}
    return topics


def _lay(
    lay: LayPicture, told: Sequence[str], width: float, tallest: float, facts: BookletFacts, drawn: Drawn
) -> list[Block]:
    """A layout under the words about it; and those that the layouts before it have not said."""
    said = [f"{lay.above[0]}: {lay.kind}" if lay.kind else lay.above[0], *lay.above[1:]]
    above = [paragraph(line, width, FINE if k else STRONG, "P" if k else "H3") for k, line in enumerate(said)]
    alone = lay_alone(lay, facts.wording, width, tallest, drawn)
    drawing = to_fit(alone, width, tallest, largest=1.0)
    arrow = facts.wording.say("lay.arrow")
    if not any(item.id == UPPER_END for item in drawing.items):
        told = [line for line in told if line != arrow]
    figure = shown(drawing, facts.wording.say("material.lay_drawn", lay=", ".join(lay.above[:2])))
    below = [paragraph(line, width, FINE) for line in told]
    return [column([column(above, gap=0.1), figure], gap=2.0), column(below, gap=0.1)]
