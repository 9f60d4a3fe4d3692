"""Large sheets for a print shop: pieces whole on sheets or along a roll, with the heading and test squares beside them.

There is no page of instructions, because every page of such a file is printed large.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from draft.base.arrays import Floats
from draft.base.notes import Problems, error, nearest
from draft.base.record import dataclass
from draft.base.units import MM_PER_INCH
from draft.paper.drawing.drawing import Footprint, Item
from draft.paper.drawing.flow import Type, stacked
from draft.paper.drawing.imprint import NO_IMPRINT, Imprint
from draft.paper.drawing.mark_places import mark_place
from draft.paper.drawing.papers import LARGEST, Paper, measured
from draft.paper.drawing.seam_rule import seam_rule
from draft.paper.large.sign_columns import signs_in_columns
from draft.paper.pages import key, page_grid
from draft.paper.pages.packing import pack_on_pages
from draft.paper.pages.packing_rules import COARSE, Packing, Rules
from draft.paper.pages.paged_sheet import PagedSheet
from draft.paper.pages.sheet import PatternDrawing, drawing_of, laid_out, worded_beside
from draft.paper.piece.piece_drawing import PieceDrawing

_MARGIN = 12.7
"""1/2 in: large printers keep up to that free (common practice)."""
_WORDS = Type(11.0, leading=1.35)
_MARK_SHARE, _MARK_HIGH = 0.25, 30.0
"""Of the heading's width, and mm high."""
_STRIP = 4 * COARSE
"""A roll is cut at whole strips of about an inch."""
_LEAST = 400.0
"""No narrower sheet is large: the heading needs most of it."""
_ROLL = re.compile(r"roll-(?P<width>\d+(?:\.\d+)?)(?P<unit>mm|cm|in)")
_UNITS = {"mm": 1.0, "cm": 10.0, "in": MM_PER_INCH}

SHEETS = {
    paper.name: paper
    for paper in (
        Paper("a0", 841.0, 1189.0, _MARGIN),  # ISO 216
        Paper("a1", 594.0, 841.0, _MARGIN),
        Paper("36x48in", 914.4, 1219.2, _MARGIN),
    )
}
ROLLS = ("roll-24in", "roll-36in", "roll-42in")
"""Widths that print shops keep (common practice); any other is given the same way."""


@dataclass(frozen=True)
class LargePaper:
    """A sheet of fixed size, or a roll, whose page is as long as it needs to be."""

    paper: Paper
    roll: bool = False


def large_paper(name: str) -> LargePaper:
    """The large paper called `name`: `a0`, `36x48in` and any measures, or `roll-36in` and any width.

    Raises Problems if it is neither, or too small or too large.
    """
    text = name.strip().lower()
    roll, sides = _ROLL.fullmatch(text), measured(text)
    if roll:
        found = LargePaper(
            Paper(text, float(roll["width"]) * _UNITS[roll["unit"]], _STRIP + 2 * _MARGIN, _MARGIN), roll=True
        )
    elif text in SHEETS:
        found = LargePaper(SHEETS[text])
    elif sides:
        found = LargePaper(Paper(text.replace("×", "x").replace(" ", ""), *sides, _MARGIN))
    else:
        hint = nearest(text, (*SHEETS, *ROLLS, "projector")) or (
            "give `a0`, `36x48in`, `roll-36in`, `projector`, or other measures",
        )
        raise Problems([error(f"`{name[:60]}` is not a large paper", None, *hint)])
    sizes = [found.paper.width] if roll else [found.paper.width, found.paper.height]
    if min(sizes) < _LEAST:
        raise Problems([error(f"`{name}` is not large: its shorter side is less than 40 cm", None, "use `--page`")])
    if max(sizes) > LARGEST:
        raise Problems([error(f"`{name}` is more than 200 in long, which is too large for a PDF")])
    return found


def on_large(pattern: PatternDrawing, large: LargePaper, title: str, imprint: Imprint = NO_IMPRINT) -> PagedSheet:
    """The pieces on large paper. Raises Problems if a roll is too narrow."""
    heading = _heading(pattern, imprint)
    paper = large.paper
    if large.roll:
        _stop_if_wider(pattern.pieces, paper)

    def pack(footprints: Sequence[Footprint]) -> Packing:
        upright = [*worded_beside(footprints), len(pattern.pieces)]
        if large.roll:  # what is too wide for it so lies along it instead
            upright = [k for k in upright if _wide(footprints[k].rings) <= large.paper.live[0]]
        rules = Rules(whole=not large.roll, roll=large.roll, upright=tuple(upright), cell=COARSE)
        return pack_on_pages([one.rings for one in footprints], large.paper.live, rules)

    def whole(packing: Packing) -> Paper:
        return replace(paper, height=packing.rows * paper.live[1] + 2 * paper.margin) if large.roll else paper

    packing, moved = laid_out(pattern, pack, lambda packing: whole(packing).live, heading)
    if large.roll:
        paper, packing = whole(packing), replace(packing, rows=1)
        if paper.height > LARGEST:
            raise Problems(
                [error(f"on `{paper.name}` the pattern is more than 200 in long", None, "choose a wider roll")]
            )
    sheet = drawing_of(pattern, moved, packing.columns * paper.live[0], packing.rows * paper.live[1])
    return PagedSheet(sheet, page_grid.grid(sheet, paper, 1, apart=True), (), title, pattern.wording, imprint)


def _stop_if_wider(pieces: Sequence[PieceDrawing], paper: Paper) -> None:
    for piece in pieces:
        points = np.concatenate(piece.footprint.rings)
        narrow = min(_wide([points]), _wide([points[:, ::-1]]))
        if narrow > paper.live[0]:
            fact = f"`{piece.name}` is {narrow / 10:.0f} cm wide and does not fit on `{paper.name}`"
            raise Problems([error(fact, None, "choose a wider roll, or a sheet")])


def _wide(rings: Sequence[Floats]) -> float:
    """How much of a roll's width rings `(n, 2)` take, with a cell of the grid on either side, mm."""
    return float(np.ptp(np.concatenate(rings)[:, 0])) + 2 * COARSE


def _heading(pattern: PatternDrawing, imprint: Imprint) -> PieceDrawing:
    """The title, the key and the test squares, laid out like a piece."""
    wording = pattern.wording
    items, low = key.heading(pattern.title, wording.sizes(pattern.sizes), pattern.sizes, 0.0, 0.0, wording)
    face = imprint.face
    told = [
        ", ".join(filter(None, (face.name, *face.address))),
        wording.say("sheet.scale"),
        wording.imprint(imprint),
        imprint.cloth,
    ]
    told += [f"{wording.say('choosing.styles')}: {'; '.join(imprint.choices)}"] if imprint.choices else []
    mark = mark_place(face, key.WIDTH, low + 8.0, key.WIDTH * _MARK_SHARE, _MARK_HIGH)
    beside = float(mark[0].box()[1, 0] - mark[0].box()[0, 0]) + 6.0 if mark else 0.0
    lines = [line for text in told if text for line in _WORDS.lines(text, key.WIDTH - beside)]
    words, height = stacked(lines, _WORDS, 0.0, low + 6.0)
    height = max(height, float(mark[0].box()[1, 1]) - low - 6.0) if mark else height
    rule, signs = seam_rule(key.WIDTH, low + 3.0, colour=face.lines), list[Item]()
    end = signs_in_columns(pattern, signs, low + 12.0 + height, key.WIDTH) + 2.0
    ring = np.array([(0, 0), (key.WIDTH, 0), (key.WIDTH, end), (0, end), (0, 0)], dtype=float)
    empty: tuple[tuple[Item, ...], ...] = tuple(() for _ in pattern.sizes)
    footprint = Footprint("", "", (ring,), tuple(() for _ in pattern.sizes))
    return PieceDrawing("", (*mark, *items, *rule, *words, *signs), empty, footprint)
