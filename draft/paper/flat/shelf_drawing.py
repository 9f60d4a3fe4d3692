"""The shelf: several finished garments drawn flat beside one another, each with its words, on one page."""

from __future__ import annotations

from collections.abc import Sequence

from draft.base.record import dataclass
from draft.garment.garment import Garment
from draft.paper.drawing import font, ink
from draft.paper.drawing.document import About, Leaf, pdf_document
from draft.paper.drawing.document import Shown as OnLeaf
from draft.paper.drawing.drawing import PT, Drawing, Item, Label, Layer, Turn
from draft.paper.flat.side_by_side import flat_drawing

_ACROSS = 2
_WIDE, _HIGH, _GAP, _MARGIN = 88.0, 60.0, 10.0, 12.0
_TEXT, _TITLE = 9.0 * PT, 13.0 * PT
_LEADING = 1.35
_CELL = 116.0


@dataclass(frozen=True)
class Shown:
    """One garment with its title, and lines of words that are wrapped below it."""

    title: str
    texts: tuple[str, ...]
    garment: Garment


def shelf_drawing(shown: Sequence[Shown]) -> Drawing:
    """The page, as wide as two garments and as high as there are rows of them, in mm."""
    items: list[Item] = []
    for number, one in enumerate(shown):
        down, across = divmod(number, _ACROSS)
        items += _cell(one, _MARGIN + across * (_WIDE + _GAP), _MARGIN + down * _CELL)
    rows = -(-len(shown) // _ACROSS)
    width = 2 * _MARGIN + _ACROSS * _WIDE + (_ACROSS - 1) * _GAP
    return Drawing("The shelf", width, 2 * _MARGIN + rows * _CELL, (Layer("shelf", tuple(items)),))


def _cell(one: Shown, x: float, y: float) -> list[Item]:
    """The garment, and below it its words."""
    items: list[Item] = []
    flat = _fitting(one.garment)
    if flat is not None:
        place = Turn(0, x, y + _HIGH - flat.height)
        items += [item.moved(place) for item in flat.items()]
    low = y + _HIGH + 1.6 * _TITLE
    items.append(Label(font.fitted_text(one.title, _TITLE, _WIDE, bold=True), x, low, _TITLE, bold=True))
    lines = [line for text in one.texts for line in font.wrapped(text, _TEXT, _WIDE)]
    step = _LEADING * _TEXT
    return [*items, *(Label(line, x, low + step * (k + 1.15), _TEXT) for k, line in enumerate(lines))]


def _fitting(garment: Garment) -> Drawing | None:
    """The garment as large as its place allows, its words below it included."""
    body = len(garment.sizes) // 2
    first = flat_drawing(garment, body, _HIGH - 10.0)
    if first is None or first.width <= _WIDE:
        return first
    return flat_drawing(garment, body, (_HIGH - 10.0) * (_WIDE - 1.0) / first.width)


def shelf_pdf(drawing: Drawing) -> bytes:
    """The page as a document."""
    page = ink.page_description(drawing.width, drawing.height, tuple(drawing.items()))
    about = About(drawing.title, "en", actual_size=False)
    return pdf_document([page], [Leaf(drawing.width, drawing.height, (OnLeaf(0),))], about)
