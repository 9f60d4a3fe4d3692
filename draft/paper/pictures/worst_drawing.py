"""A contact sheet of faults: for each the garment for the body that it is worst of, with the faulty line marked."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

import numpy as np

from draft.base.notes import Span
from draft.base.record import dataclass
from draft.garment.garment import Garment, Piece
from draft.paper.drawing.drawing import PT, Drawing, Item, Label, Layer, Stroke
from draft.paper.pictures.ends_drawing import font_lines
from draft.paper.pictures.small_pieces import Lines, small_pieces
from draft.paper.piece.piece_lines import FLIP

_PLAIN = Stroke(0.25)
_FAULTY, _WEIGHED = Stroke(0.9, colour="#b3261e"), Stroke(0.9, colour="#b26a00")
_ACROSS = 3
_WIDE, _HIGH, _WORDS, _GAP, _MARGIN, _TOP = 120.0, 84.0, 30.0, 10.0, 10.0, 24.0
_TEXT, _TITLE = 9 * PT, 15 * PT


@dataclass(frozen=True)
class WorstCase:
    """A garment for one body, the place in the text that a fault is told of, and what is said of it, line by line."""

    garment: Garment
    span: Span | None
    words: tuple[str, ...]
    is_error: bool


def worst_drawing(title: str, cases: Sequence[WorstCase]) -> Drawing:
    """A frame for each case, errors in red, what is to be weighed in brown."""
    items: list[Item] = [Label(f"{title}: the worst of each fault", _MARGIN, _MARGIN + _TITLE, _TITLE, bold=True)]
    for number, case in enumerate(cases):
        down, across = divmod(number, _ACROSS)
        x, y = _MARGIN + across * (_WIDE + _GAP), _TOP + down * (_HIGH + _WORDS + _GAP)
        items += small_pieces(_pieces(case), x, y, _WIDE, _HIGH)
        lines = [part for words in case.words for part in font_lines(words, 0.88 * _WIDE, _TEXT, 2)]
        colour = (_FAULTY if case.is_error else _WEIGHED).colour
        for line, part in enumerate(lines):
            items.append(
                Label(part, x, y + _HIGH + 6 + line * 1.3 * _TEXT, _TEXT, colour=colour if not line else "#000000")
            )
    rows = -(-len(cases) // _ACROSS)
    width = 2 * _MARGIN + _ACROSS * (_WIDE + _GAP)
    return Drawing(title, width, _TOP + rows * (_HIGH + _WORDS + _GAP) + _MARGIN, (Layer("worst", tuple(items)),))


def _pieces(case: WorstCase) -> dict[str, Lines]:
    marked = set(_marked(case.garment, case.span)) if case.span else set()
    heavy = _FAULTY if case.is_error else _WEIGHED
    return {
        piece.name: [
            (edge.segments[0] * FLIP, heavy if (piece.name, edge.name) in marked else _PLAIN) for edge in piece.edges
        ]
        for piece in case.garment.pieces
        if _is_drawn(piece)
    }


def _is_drawn(piece: Piece) -> bool:
    return all(bool(np.isfinite(edge.segments).all()) for edge in piece.edges)


def _marked(garment: Garment, span: Span) -> Iterator[tuple[str, str]]:
    """The edges that a place in the text tells of: its own, those of a join or a piece, or of names that it holds."""
    for join in garment.joins:
        if join.span == span:
            yield from ((part.piece, part.edge) for part in (*join.first, *join.second))
    for piece in garment.pieces:
        for edge in piece.edges:
            named = f"{piece.name}.{edge.name}" in span.text
            if span in (piece.span, edge.span) or named or _is_taken_up(piece, edge.name, span):
                yield piece.name, edge.name


def _is_taken_up(piece: Piece, edge: str, span: Span) -> bool:
    return any(takeup.span == span and takeup.edge == edge for takeup in piece.takeups)
