"""A dart runs to a point inside of its piece: one that was cut off with its point beyond the line cannot be sewn.

Parted at the line it would be open at both ends on one piece, which is taken in there with two corners in the seam, and
have no mouth on the other. A cutter closes it first, so that the line takes up what it took.
"""

from __future__ import annotations

import numpy as np

from draft.base.arrays import Floats
from draft.base.naming import listed
from draft.base.notes import Note, caution
from draft.base.plainly import AGAIN, Parts, mm, of_sizes
from draft.base.units import in_centimetres
from draft.base.worst import worst_of
from draft.checks.dart_legs import darts
from draft.garment.garment import Garment, InnerDart, InnerDartOf, Piece, Takeup
from draft.geometry.cubic import unit
from draft.geometry.flatten import sample
from draft.geometry.motion import mirrored_over
from draft.geometry.within import within

PLACES = 24  # on each segment
BESIDE = 0.1  # mm: a point on the outline itself lies inside


def check(garment: Garment) -> list[Note]:
    """Cautions for darts whose points lie outside of the piece."""
    found = [note for piece, dart, to in darts(garment) for note in _note(garment, piece, dart, to)]
    inner = [(piece, dart) for piece in garment.pieces for dart in piece.inner_darts]
    return [
        *found,
        *(n for piece, dart in inner for to in (dart.to, dart.other) for n in _note(garment, piece, dart, to)),
    ]


def _note(garment: Garment, piece: Piece, dart: Takeup | InnerDart, to: Floats) -> list[Note]:
    beyond = _beyond(piece, to)
    outside = beyond > BESIDE
    if not np.any(outside):
        return []
    worst = worst_of(beyond)
    fact = f"`{piece.name}.{dart.name}` runs to a point outside of `{piece.name}`, for {listed(garment.sizes, outside)}"
    figure = f"at worst it lies {in_centimetres(float(beyond[worst]))} beyond the outline ({garment.sizes[worst]})"
    close = f"close it before `{piece.name}` is cut off, under `moves`: `close {dart.name}, into` a dart to that point"
    names: Parts = {"piece": piece.name, "dart": dart.name, "off": mm(beyond[worst])}
    plainly = of_sizes("dart_runs_out", garment.sizes, outside, AGAIN, **names)
    if isinstance(dart, InnerDartOf):
        fix = f"keep both points of `{dart.name}` inside, or part it: a dart on each edge that the line makes"
        return [caution(fact, dart.span, figure, fix, off=np.where(outside, beyond, 0.0), plainly=plainly)]
    fixes = (close, f"or `close {dart.name}, open NAME on EDGE at PLACE`, or cut along a line that takes its point in")
    return [caution(fact, dart.span, figure, *fixes, off=np.where(outside, beyond, 0.0), plainly=plainly)]


def _beyond(piece: Piece, to: Floats) -> Floats:
    """How far points `(B, 2)` lie outside of a piece, mm `(B,)`; beyond its fold they lie inside."""
    outline = sample(np.concatenate([edge.segments for edge in piece.edges], axis=1), PLACES)
    near = np.hypot(*np.moveaxis(outline - to[:, None], -1, 0)).min(axis=1)
    inside = within(outline, to[:, None])[:, 0]
    for edge in (edge for edge in piece.edges if edge.on_fold):
        start, end = edge.segments[:, 0, 0], edge.segments[:, -1, 3]
        mirrored = mirrored_over(to, start, unit(end - start))
        inside = inside | within(outline, mirrored[:, None])[:, 0]
    return np.where(inside, 0.0, near)
