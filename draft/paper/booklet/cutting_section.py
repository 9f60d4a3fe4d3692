"""What to cut: each piece made small, and the cutting layouts."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from draft.base.arrays import Floats
from draft.garment.elastics import Elastic, elastics_of
from draft.garment.garment import Piece
from draft.paper.booklet.booklet_page import FULL, STRONG, Block, Book, column, combined, paragraph, to_fit
from draft.paper.booklet.facts import BookletFacts
from draft.paper.booklet.folded_drawing import GROUND
from draft.paper.booklet.step_drawing import THIN, opened_cutting_line
from draft.paper.drawing.drawing import Path
from draft.paper.drawing.wording import capitalised

_SHAPE_WIDE, _SHAPE = 32.0, 26.0
_PAIR = FULL / 2


def cutting_section(book: Book, facts: BookletFacts) -> None:
    """The pieces, two in a row."""
    garment, body = facts.garment, facts.middle
    rings = {piece.name: opened_cutting_line(piece, body) for piece in garment.pieces}
    scale = _shared_scale(list(rings.values()))
    listed = [_listed(piece, _shape(rings[piece.name], scale), facts) for piece in garment.pieces]
    rows = [
        combined([block.moved(_PAIR * n, 0.0) for n, block in enumerate(listed[k : k + 2])])
        for k in range(0, len(listed), 2)
    ]
    text = paragraph(facts.said("material.cut_text"))
    book.section(facts.wording.say("material.cut"), 40.0 + text.height + sum(row.height + 4.0 for row in rows))
    book.entry("", text)
    for row in rows:
        book.full_width(row)


def _listed(piece: Piece, shape: Block, facts: BookletFacts) -> Block:
    """A piece made small, and how it is cut."""
    wide = _PAIR - _SHAPE_WIDE - 8.0
    lines = [*facts.wording.cuts(piece), *(capitalised(line) for line in facts.wording.allowances(piece))]
    lines += [_elastic(one, facts) for one in elastics_of(piece)]
    title = paragraph(facts.wording.title(piece), STRONG, wide)
    text = column([title, *(paragraph(line, width=wide) for line in lines)], gap=0.2)
    return combined([shape, text.moved(_SHAPE_WIDE + 4.0, 0.0)])


def _elastic(one: Elastic, facts: BookletFacts) -> str:
    """How long the elastic of an edge is, from the smallest size to the largest."""
    lengths = [float(one.length[body]) for body in facts.bodies]
    ends = dict.fromkeys(facts.wording.length(each) for each in (min(lengths), max(lengths)))
    key = "material.elastics" if one.count > 1 else "material.elastic"
    return facts.wording.say(key, edge=facts.edge(one.edge.name), count=one.count, length=" – ".join(ends))


def _shared_scale(rings: Sequence[Floats]) -> float:
    """All pieces at one scale, the largest filling its place."""
    sides = np.array([np.ptp(ring[:, (0, 3)].reshape(-1, 2), axis=0) for ring in rings])
    return float((np.array([_SHAPE_WIDE, _SHAPE]) / sides).min())


def _shape(ring: Floats, scale: float) -> Block:
    low, high = (reach(ring[:, (0, 3)].reshape(-1, 2), axis=0) for reach in (np.min, np.max))
    moved = (ring - low) * scale
    height = float(high[1] - low[1]) * scale
    return Block((Path((moved,), THIN, GROUND, closed=True),), max(height, 4.0))


def lays_section(book: Book, facts: BookletFacts) -> None:
    """The cutting layouts, if there are any, each across both columns."""
    tallest = book.flow.frame.bottom - book.flow.frame.y - 20.0
    shown = [to_fit(each, FULL, tallest, largest=1.0) for each in (facts.cloth.lays if facts.cloth else ())]
    if shown:
        book.section(facts.wording.say("material.layouts"), 30.0 + shown[0].height)
    for picture in shown:
        book.full_width(picture, 8.0)
