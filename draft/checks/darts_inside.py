"""A dart runs to a point inside of its piece: one that was cut off with its point beyond the line cannot be sewn."""

from __future__ import annotations

import numpy as np

from draft.base.arrays import Bools, Floats
from draft.base.naming import listed
from draft.base.notes import Note, caution
from draft.garment.garment import Garment, Piece
from draft.geometry.flatten import sample
from draft.geometry.within import within

PLACES = 24  # on each segment
BESIDE = 0.1  # mm: a point on the outline itself lies inside


def check(garment: Garment) -> list[Note]:
    """Cautions for darts whose points lie outside of the piece."""
    return [
        note
        for piece in garment.pieces
        for takeup in piece.takeups
        if takeup.to is not None and np.all(takeup.width > 0)
        for note in _note(garment, piece, takeup.name, takeup.to)
    ]


def _note(garment: Garment, piece: Piece, name: str, to: Floats) -> list[Note]:
    outside = _outside(piece, to)
    if not np.any(outside):
        return []
    takeup = next(takeup for takeup in piece.takeups if takeup.name == name)
    fact = f"`{piece.name}.{name}` runs to a point outside of `{piece.name}`, for {listed(garment.sizes, outside)}"
    fix = "close it before the piece is cut off, or cut along a line that takes it in"
    return [caution(fact, takeup.span, fix)]


def _outside(piece: Piece, to: Floats) -> Bools:
    outline = sample(np.concatenate([edge.segments for edge in piece.edges], axis=1), PLACES)
    near = np.hypot(*np.moveaxis(outline - to[:, None], -1, 0)).min(axis=1) <= BESIDE
    over_fold = np.zeros(len(to), dtype=bool)
    for edge in (edge for edge in piece.edges if edge.on_fold):
        start, end = edge.segments[:, 0, 0], edge.segments[:, -1, 3]
        mirrored = _mirrored(to, start, end)
        over_fold |= within(outline, mirrored[:, None])[:, 0]
    return np.asarray(~within(outline, to[:, None])[:, 0] & ~near & ~over_fold)


def _mirrored(point: Floats, start: Floats, end: Floats) -> Floats:
    way = (end - start) / np.maximum(np.hypot(*(end - start).T), 1e-9)[:, None]
    along = np.sum((point - start) * way, axis=1)[:, None] * way
    return np.asarray(2 * (start + along) - point)
