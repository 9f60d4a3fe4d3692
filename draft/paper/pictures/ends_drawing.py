"""A contact sheet of a pattern's styles: each at each of its ends, in outline over the pattern as it stands."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from draft.base.arrays import Floats
from draft.garment.garment import Garment
from draft.paper.drawing import font
from draft.paper.drawing.drawing import PT, Drawing, Item, Label, Layer, Stroke
from draft.paper.pictures.small_pieces import Lines, small_pieces
from draft.paper.piece.piece_lines import FLIP

_USUAL = Stroke(0.2, colour="#9a9a9a")
_ENDED = Stroke(0.35)
_ACROSS = 4
_WIDE, _HIGH, _GAP, _MARGIN, _TOP = 88.0, 66.0, 10.0, 10.0, 24.0
_TEXT, _TITLE = 9 * PT, 15 * PT


def ends_drawing(title: str, usual: Garment, ends: Sequence[tuple[str, Garment]], size: str) -> Drawing:
    """The garments of one body, each with its words, over the usual one in grey."""
    items: list[Item] = [
        Label(f"{title}: each style at its ends, size {size}", _MARGIN, _MARGIN + _TITLE, _TITLE, bold=True)
    ]
    items.append(Label("grey: as it stands", _MARGIN, _MARGIN + _TITLE + 6, _TEXT, colour="#6a6a6a"))
    for number, (words, garment) in enumerate(ends):
        down, across = divmod(number, _ACROSS)
        x, y = _MARGIN + across * (_WIDE + _GAP), _TOP + down * (_HIGH + 3 * _GAP)
        items += small_pieces(_both(usual, garment), x, y, _WIDE, _HIGH)
        for line, part in enumerate(font_lines(words, 0.88 * _WIDE)):
            items.append(Label(part, x, y + _HIGH + 6 + line * 1.3 * _TEXT, _TEXT))
    rows = -(-len(ends) // _ACROSS)
    width = 2 * _MARGIN + _ACROSS * (_WIDE + _GAP)
    return Drawing(title, width, _TOP + rows * (_HIGH + 3 * _GAP) + _MARGIN, (Layer("ends", tuple(items)),))


def _both(usual: Garment, garment: Garment) -> Mapping[str, Lines]:
    """The pieces of both by their names, with their edges for the only body."""
    found: dict[str, list[tuple[Floats, Stroke]]] = {}
    for drafted, stroke in ((usual, _USUAL), (garment, _ENDED)):
        for piece in drafted.pieces:
            lines = found.setdefault(piece.name, [])
            lines += [(edge.segments[0] * FLIP, stroke) for edge in piece.edges]
    return found


def font_lines(words: str, width: float, size: float = _TEXT, most: int = 4) -> list[str]:
    """Words broken into lines no wider than `width` mm, and no more than `most` of them."""
    lines: list[str] = []
    for word in words.split():
        longer = f"{lines[-1]} {word}" if lines else word
        if lines and font.text_width(longer, size) <= width:
            lines[-1] = longer
        else:
            lines.append(word)
    return lines if len(lines) <= most else [*lines[: most - 1], f"{lines[most - 1]} ..."]
