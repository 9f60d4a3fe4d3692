"""One large page for a projector: sizes as layers, thick lines, large words, a grid and a square to set the scale by.

A projector shows the pattern on the cloth itself. Its dots are coarse, so that lines and words of paper would be lost.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from draft.base.notes import Problems, error
from draft.base.units import MM_PER_INCH
from draft.geometry.cubic import lines_through
from draft.paper.drawing import font, ink, line_styles
from draft.paper.drawing.document import About, Leaf, Shown, pdf_document
from draft.paper.drawing.drawing import PT, Drawing, Item, Label, Layer, Path, Stroke, rectangle
from draft.paper.drawing.flow import Type, stacked
from draft.paper.drawing.imprint import NO_IMPRINT, Imprint
from draft.paper.drawing.papers import LARGEST
from draft.paper.drawing.passage import Passage
from draft.paper.drawing.room import label_spot
from draft.paper.drawing.wording import Wording
from draft.paper.large.told_below import told_below
from draft.paper.pages import key
from draft.paper.pages.sheet import PatternDrawing, pieces_in_rows
from draft.paper.piece.piece_drawing import PieceDrawing, draw_piece
from draft.paper.piece.surface import Surface
from draft.paper.piece.title_block import SMALLEST

ENLARGED = 2.6
"""A common projector over a table shows about 1 dot to the mm: a line of 0.45 mm becomes one of 1.2."""
LEAST = 15.0
"""How high the capitals of the smallest words are, mm."""
_EM = LEAST / font.CAP_HEIGHT
_LETTERS = _EM / (SMALLEST * PT)
_FINE = Stroke(0.5, colour="#b5b5b5")
_HEAVY = Stroke(1.0, colour="#959595")
_FOOT, _METRIC = 12 * MM_PER_INCH, 300.0
_RULER = 200.0
"""Beside the square of a foot, mm: so much shorter that neither is taken for the other."""
_CLEAR = 2.0
"""Between words and the grid, mm."""
_MARGIN = 2 * MM_PER_INCH
_GAP = MM_PER_INCH
_EVERY = 6
"""Each sixth line of the grid is heavy in inches, each fifth in centimetres."""
_TITLE, _SIZES, _BODY = Type(80.0, bold=True), Type(60.0), Type(_EM / PT, leading=1.3)
GRID = "grid"


def projected(pattern: PatternDrawing) -> Drawing:
    """All pieces on one page, whole where it is not too large then, the grid lowest.

    Raises Problems if it is larger than the format allows.
    """
    heading = _heading(pattern)
    moved, width, height = _laid(pattern, opened=True)
    opened = max(width, height) <= LARGEST
    if not opened:
        moved, width, height = _laid(pattern, opened=False)
    if max(width, height) > LARGEST:
        raise Problems([error("the pattern is more than 200 in long, too large for a projector's page")])
    below, width, height = told_below(pattern, width, height, _LETTERS, opened)
    sized = [_layer(pattern, moved, k) for k in range(len(pattern.sizes))]
    shared = (*heading, *map(_thick, below), *(_thick(item) for piece in moved for item in piece.shared))
    lines = _grid(width, height, [item for item in shared if isinstance(item, Label)], pattern.wording)
    grid = Layer(GRID, lines, pattern.wording.say("sheet.grid"))
    layers = (grid, *reversed(sized), Layer("shared", shared))
    footprints = tuple(piece.footprint for piece in moved)
    return Drawing(
        pattern.title, width, height, layers, footprints, pattern.wording.sizes(pattern.sizes), pattern.sizes
    )


def _layer(pattern: PatternDrawing, pieces: Sequence[PieceDrawing], number: int) -> Layer:
    """What is drawn of one size, and behind its words no grid: so it is whole again where the size is not shown."""
    size = pattern.sizes[number]
    items = [_thick(item) for piece in pieces for item in piece.sized[number]]
    return Layer(f"size-{size}", (_free([item for item in items if isinstance(item, Label)], 0.0), *items), size)


def _free(words: Sequence[Label], clear: float) -> Path:
    """White behind words, and so many mm about them."""
    boxes = [label_spot(label).box for label in words]
    return Path(
        tuple(rectangle(a - clear, b - clear, c - a + 2 * clear, d - b + 2 * clear) for a, b, c, d in boxes),
        None,
        "#ffffff",
        closed=True,
    )


def _laid(pattern: PatternDrawing, opened: bool) -> tuple[list[PieceDrawing], float, float]:
    """The pieces in rows below the heading, and the sides of the page in whole inches."""
    seen = Surface(enlarged=_LETTERS, level=True, opened=opened)
    pieces = [
        draw_piece(pattern.garment, piece, pattern.bodies, pattern.lines, pattern.wording, seen)
        for piece in pattern.garment.pieces
    ]
    top = _MARGIN + _FOOT + 2 * _GAP
    moved, width, height = pieces_in_rows(pieces, top, _MARGIN, _GAP * 1.5, least=1100.0)
    width, height = (float(np.ceil(side / MM_PER_INCH)) * MM_PER_INCH for side in (width + _MARGIN, height + _MARGIN))
    return moved, width, height


def projector_pdf(drawing: Drawing, title: str, wording: Wording, imprint: Imprint = NO_IMPRINT) -> bytes:
    """The page as a document, its sizes and its grid in layers."""
    size = drawing.width, drawing.height
    pages = [ink.page_description(*size, layer.items) for layer in drawing.layers]
    shown = tuple(Shown(number, layer=layer.size) for number, layer in enumerate(drawing.layers))
    layers = (*drawing.sizes, drawing.layers[0].size)
    told = f"{title}: {', '.join(dict.fromkeys(one.name for one in drawing.footprints if one.name))}"
    about = About(title, wording.language, layers, actual_size=False, imprint=imprint)
    return pdf_document(pages, [Leaf(*size, above=shown, figure=Passage("Figure", told))], about)


def _thick(item: Item) -> Item:
    if isinstance(item, Label) or item.stroke is None:
        return item
    stroke = item.stroke
    dash = tuple(part * ENLARGED if part > 0.1 else part for part in stroke.dash)
    return replace(item, stroke=replace(stroke, width=stroke.width * ENLARGED, dash=dash))


def _grid(width: float, height: float, words: Sequence[Label], wording: Wording) -> tuple[Item, ...]:
    """Lines from the corner of the page: an inch apart, or two centimetres where lengths are in centimetres alone.

    None runs through words.
    """
    step, every = (20.0, 5) if wording.units == "cm" else (MM_PER_INCH, _EVERY)
    down = [[(x, 0.0), (x, height)] for x in np.arange(0.0, width + 0.1, step)]
    across = [[(0.0, y), (width, y)] for y in np.arange(0.0, height + 0.1, step)]
    lines = [(k, lines_through(ends)) for group in (down, across) for k, ends in enumerate(group)]
    return (
        Path(tuple(line for k, line in lines if k % every), _FINE),
        Path(tuple(line for k, line in lines if not k % every), _HEAVY),
        _free(words, _CLEAR),
    )


def _heading(pattern: PatternDrawing) -> tuple[Item, ...]:
    """The square to set the scale by, the title, what to do, and the line of each size."""
    square, said = _square(pattern.wording)
    right, y, wide = _MARGIN + _FOOT + 5.0 * _GAP, _MARGIN, 720.0
    title = _TITLE.label(font.fitted_text(pattern.title, _TITLE.size, wide, bold=True), right, y + _TITLE.size * 0.73)
    sizes = _SIZES.label(pattern.wording.sizes(pattern.sizes), right, title.y + _SIZES.line_height * 1.1)
    text = pattern.wording.say("sheet.project", side=said)
    words, height = stacked(_BODY.lines(text, wide), _BODY, right, sizes.y + 12.0)
    below, many = sizes.y + 12.0 + height + 16.0, len(pattern.sizes) > 1
    samples = key.size_key(pattern.sizes, 0.0, 0.0, wide / _LETTERS, rows=3)[0] if many else ()
    return (*square, title, sizes, *words, *(_larger(item, right, below) for item in samples))


def _square(wording: Wording) -> tuple[tuple[Item, ...], str]:
    """A square of a foot and beside it a line of 20 cm, or a square of 30 cm alone; and the square's side in words."""
    x, y = _MARGIN, _MARGIN
    line, fine = Stroke(line_styles.CUT * ENLARGED, join="miter"), Stroke(line_styles.SEW * ENLARGED)
    metric = wording.units == "cm"
    side, said = (_METRIC, wording.centimetres(_METRIC)) if metric else (_FOOT, wording.inches(_FOOT))
    across = [[(x, y), (x + side, y + side)], [(x, y + side), (x + side, y)]]
    items: tuple[Item, ...] = (
        Path((rectangle(x, y, side, side),), line, closed=True, id="test-square"),
        Path(tuple(lines_through(ends) for ends in across), fine),
        _BODY.label(said, x + side / 2, y + side - 14.0, "middle"),
    )
    if wording.units == "both":
        right, end = x + side + 24.0, y + _RULER
        lines = [[(right, y), (right, end)], *([(right - 5, at), (right + 5, at)] for at in (y, end))]
        words = _BODY.label(wording.centimetres(_RULER), right + 8.0, (y + end) / 2)
        items += (Path(tuple(lines_through(ends) for ends in lines), line, id="test-metric"), words)
    return items, said


def _larger(item: Item, x: float, y: float) -> Item:
    """A sample line made larger about a corner and moved there."""
    if isinstance(item, Label):
        return replace(item, x=item.x * _LETTERS + x, y=item.y * _LETTERS + y, size=item.size * _LETTERS)
    runs = tuple(run * _LETTERS + np.array([x, y]) for run in item.runs)
    return _thick(replace(item, runs=runs))
