"""A dart runs to a point inside of its piece: one that was cut off with its point beyond the line cannot be sewn."""

from __future__ import annotations

import numpy as np

from draft.base.arrays import Bools, Floats
from draft.base.naming import listed
from draft.base.notes import Note, caution
from draft.checks.dart_legs import darts
from draft.garment.garment import Garment, Piece, Takeup
from draft.geometry.cubic import unit
from draft.geometry.flatten import sample
from draft.geometry.motion import mirrored_over
from draft.geometry.within import within

PLACES = 24  # on each segment
BESIDE = 0.1  # mm: a point on the outline itself lies inside


def check(garment: Garment) -> list[Note]:
    """Cautions for darts whose points lie outside of the piece."""
    return [note for piece, dart, to in darts(garment) for note in _note(garment, piece, dart, to)]


def _note(garment: Garment, piece: Piece, dart: Takeup, to: Floats) -> list[Note]:
    outside = _outside(piece, to)
    if not np.any(outside):
        return []
    fact = f"`{piece.name}.{dart.name}` runs to a point outside of `{piece.name}`, for {listed(garment.sizes, outside)}"
    fix = "close it before the piece is cut off, or cut along a line that takes it in"
    return [caution(fact, dart.span, fix, off=outside.astype(float))]


def _outside(piece: Piece, to: Floats) -> Bools:
    outline = sample(np.concatenate([edge.segments for edge in piece.edges], axis=1), PLACES)
    near = np.hypot(*np.moveaxis(outline - to[:, None], -1, 0)).min(axis=1) <= BESIDE
    over_fold = np.zeros(len(to), dtype=bool)
    for edge in (edge for edge in piece.edges if edge.on_fold):
        start, end = edge.segments[:, 0, 0], edge.segments[:, -1, 3]
        mirrored = mirrored_over(to, start, unit(end - start))
        over_fold |= within(outline, mirrored[:, None])[:, 0]
    return np.asarray(~within(outline, to[:, None])[:, 0] & ~near & ~over_fold)
