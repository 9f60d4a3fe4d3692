"""The last step of laying out: the whole sheet moved within its slack, so that fewer words fall on a page's edge."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import product

import numpy as np
from numpy.typing import NDArray

from draft.paper.drawing import Label
from draft.paper.piece_drawing import PieceDrawing
from draft.paper.room import label_spot

Floats = NDArray[np.float64]

_PLACES = 9


def nudge(pieces: Sequence[PieceDrawing], columns: int, rows: int, page: tuple[float, float]) -> tuple[float, float]:
    """The move in mm that keeps the pieces on these pages, and no more of them, and splits the fewest words.

    Of equals the one that leaves most room around the pieces.
    """
    import shapely

    shape = shapely.union_all([shapely.Polygon(ring) for piece in pieces for ring in piece.areas])
    left, top, right, bottom = shape.bounds
    across = np.linspace(-left, columns * page[0] - right, _PLACES)
    down = np.linspace(-top, rows * page[1] - bottom, _PLACES)
    words = _word_boxes(pieces)

    def worth(move: tuple[float, float]) -> tuple[int, float]:
        edge = min(move[0] + left, columns * page[0] - right - move[0], move[1] + top)
        return _split(words, move, page), -round(edge, 3)

    shapely.prepare(shape)
    count = _pages(shape, (0.0, 0.0), columns, rows, page)
    moves = sorted(((float(x), float(y)) for x, y in product(across, down)), key=worth)
    return next((move for move in moves if _pages(shape, move, columns, rows, page) <= count), (0.0, 0.0))


def _pages(shape: object, move: tuple[float, float], columns: int, rows: int, page: tuple[float, float]) -> int:
    import shapely

    x, y = np.meshgrid(np.arange(columns) * page[0] - move[0], np.arange(rows) * page[1] - move[1])
    return int(shapely.intersects(shape, shapely.box(x, y, x + page[0], y + page[1])).sum())


def _word_boxes(pieces: Sequence[PieceDrawing]) -> Floats:
    """Lowest and highest corner `(n, 2, 2)` of every shared label."""
    labels = [item for piece in pieces for item in piece.shared if isinstance(item, Label)]
    return np.array([label_spot(label).shape().bounds for label in labels]).reshape(-1, 2, 2)


def _split(words: Floats, move: tuple[float, float], page: tuple[float, float]) -> int:
    at = np.floor((words + np.array(move)) / np.array(page))
    return int(np.any(at[:, 0] != at[:, 1], axis=1).sum())
