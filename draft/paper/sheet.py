"""All pieces on one sheet: laid out for the screen, or on printed pages, as few as can be."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from draft.paper import key, packing, words
from draft.paper.drawing import Drawing, Item, Layer, Turn
from draft.paper.nudge import nudge
from draft.paper.once import Same
from draft.paper.piece_drawing import PieceDrawing, draw_piece
from draft.paper.piece_lines import Lines
from draft.piece import Garment

Floats = NDArray[np.float64]

SHARED = "shared"
_MARGIN = 15.0
_GAP = 18.0
_WIDEST = 1.3
"""Pieces on a screen are laid in rows about so many times as wide as the square root of all their boxes' area."""


@dataclass(frozen=True)
class Set:
    """The pieces of a garment, drawn once for some of its sizes."""

    title: str
    subtitle: str
    sizes: tuple[str, ...]
    pieces: tuple[PieceDrawing, ...]
    contents: tuple[tuple[str, str], ...]


def draw_set(garment: Garment, bodies: Sequence[int], lines: Lines | None = None) -> Set:
    """Draw every piece for these bodies. One size shows both lines unless `lines` says so; a nest its cutting lines."""
    chosen: Lines = lines or ("both" if len(bodies) == 1 else "cutting")
    return _drawn(Same(garment), tuple(bodies), chosen)


@lru_cache(maxsize=16)
def _drawn(same: Same[Garment], bodies: tuple[int, ...], lines: Lines) -> Set:
    garment = same.value
    names = tuple(garment.sizes[body] for body in bodies)
    pieces = tuple(draw_piece(garment, piece, bodies, lines) for piece in garment.pieces)
    contents = tuple((words.sentence(piece.title), words.cut(piece)) for piece in garment.pieces)
    return Set(garment.title, words.sizes(names), names, pieces, contents)


def drafted(garment: Garment) -> list[int]:
    """The bodies that have an outline for every piece."""
    edges = [edge.segments for piece in garment.pieces for edge in piece.edges]
    finite = [np.asarray(np.isfinite(segments).all(axis=(1, 2, 3))) for segments in edges]
    return [body for body in range(len(garment.sizes)) if all(each[body] for each in finite)]


def on_pages(drawn: Set, page: tuple[float, float]) -> Drawing:
    """The pieces on a sheet that is cut into pages with this printed area in mm, on as few as a short search finds."""
    layout = packing.pack([piece.areas for piece in drawn.pieces], page)
    moved = [piece.moved(turn) for piece, turn in zip(drawn.pieces, layout.turns, strict=True)]
    aside = Turn(0, *nudge(moved, layout.columns, layout.rows, page))
    moved = [piece.moved(aside) for piece in moved]
    _stop_if_overlapping(moved)
    return _drawing(drawn, moved, layout.columns * page[0], layout.rows * page[1])


def _stop_if_overlapping(pieces: Sequence[PieceDrawing]) -> None:
    """A check apart from the search: paper on which pieces overlap must never be printed."""
    import shapely

    shapes = [shapely.union_all([shapely.Polygon(ring) for ring in piece.areas]) for piece in pieces]
    for k, shape in enumerate(shapes):
        for other, piece in zip(shapes[:k], pieces, strict=False):
            if shape.intersects(other):
                raise RuntimeError(f"{pieces[k].name} lies on {piece.name}: this is a fault of the program")


def on_screen(drawn: Set) -> Drawing:
    """The pieces in rows, in the order of the garment, under a heading with test squares and the key of the sizes."""
    boxes = [_box(piece.areas) for piece in drawn.pieces]
    widest = max(float(box[1, 0] - box[0, 0]) for box in boxes)
    area = sum(float(np.prod(box[1] - box[0] + _GAP)) for box in boxes)
    limit = max(widest, key.WIDTH, _WIDEST * area**0.5)
    heading, top = key.heading(drawn.title, drawn.subtitle, drawn.sizes, _MARGIN, _MARGIN)
    moved, width, height = _in_rows(drawn.pieces, boxes, limit, top + _GAP)
    return _drawing(drawn, moved, max(width, key.WIDTH) + 2 * _MARGIN, height + _MARGIN, heading)


def _in_rows(
    pieces: Sequence[PieceDrawing], boxes: Sequence[Floats], limit: float, top: float
) -> tuple[list[PieceDrawing], float, float]:
    x, y, tallest, width = 0.0, top, 0.0, 0.0
    moved = []
    for piece, box in zip(pieces, boxes, strict=True):
        wide, tall = (float(side) for side in box[1] - box[0])
        if x and x + wide > limit:
            x, y, tallest = 0.0, y + tallest + _GAP, 0.0
        moved.append(piece.moved(Turn(0, _MARGIN + x - float(box[0, 0]), y - float(box[0, 1]))))
        width, tallest, x = max(width, x + wide), max(tallest, tall), x + wide + _GAP
    return moved, width, y + tallest


def _box(areas: Sequence[Floats]) -> Floats:
    points = np.concatenate(areas)
    return np.stack([points.min(axis=0), points.max(axis=0)])


def _drawing(
    drawn: Set, pieces: Sequence[PieceDrawing], width: float, height: float, heading: Sequence[Item] = ()
) -> Drawing:
    """The largest size lies lowest, so that where lines fall together the smallest is seen."""
    shared = (*heading, *(item for piece in pieces for item in piece.shared))
    sized = [
        Layer(f"size-{size}", tuple(item for piece in pieces for item in piece.sized[index]), size)
        for index, size in enumerate(drawn.sizes)
    ]
    areas = tuple(area for piece in pieces for area in piece.areas)
    layers = (*reversed(sized), Layer(SHARED, shared))
    return Drawing(drawn.title, width, height, layers, areas, drawn.subtitle, drawn.sizes, drawn.contents)
