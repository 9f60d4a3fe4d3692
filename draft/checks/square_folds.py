"""At a fold the outline is square, so that the opened piece has no peak or hollow there; a V neck says that it has."""

from __future__ import annotations

import re

import numpy as np

from draft.base.arrays import Floats
from draft.base.naming import listed
from draft.base.notes import Note, error
from draft.base.plainly import SMOOTH_IT, Parts, degrees, of_sizes
from draft.base.worst import worst_of
from draft.garment.garment import Edge, Garment, Piece
from draft.geometry.ends import end_directions

TOLERANCE = 1.0  # degrees


def check(garment: Garment) -> list[Note]:
    """A note for each edge that meets a fold and is not square to it."""
    return [note for piece in garment.pieces for note in _piece(garment, piece)]


def _piece(garment: Garment, piece: Piece) -> list[Note]:
    notes = []
    for k, edge in enumerate(piece.edges):
        if edge.on_fold:
            before, after = piece.edges[k - 1], piece.edges[(k + 1) % len(piece.edges)]
            if before.end_corner != "peaked":
                notes += _meeting(garment, piece, edge, before, end_directions(before.segments)[1], "arriving", -1)
            if edge.end_corner != "peaked":
                notes += _meeting(garment, piece, edge, after, end_directions(after.segments)[0], "leaving", 0)
    return notes


def _meeting(
    garment: Garment, piece: Piece, fold: Edge, edge: Edge, direction: Floats, word: str, end: int
) -> list[Note]:
    if edge.on_fold:
        return []
    along = end_directions(fold.segments)[0]
    off = np.degrees(np.arcsin(np.clip(np.abs(np.sum(along * direction, axis=-1)), 0.0, 1.0)))
    if not np.any(off > TOLERANCE):
        return []
    worst = worst_of(off)
    fact = f"`{piece.name}.{edge.name}` is not square to the fold, for {listed(garment.sizes, off > TOLERANCE)}"
    figures = f"at worst it is {off[worst]:.1f} deg off ({garment.sizes[worst]})"
    pointed = f"or, for a point such as that of a V neck, write `{edge.ends[end]} peaked` under `corners`"
    fix = f"try `curve {_as_written(edge, end) or word} square to {fold.name}`"
    names: Parts = {"piece": piece.name, "edge": edge.name, "angle": degrees(off[worst])}
    plainly = of_sizes("fold_not_square", garment.sizes, off > TOLERANCE, SMOOTH_IT, **names)
    return [error(fact, edge.span, figures, fix, pointed, off=np.where(off > TOLERANCE, off, 0.0), plainly=plainly)]


def _as_written(edge: Edge, end: int) -> str:
    """Whether an edge leaves the corner at one of its ends or arrives there as it is written: a piece may turn it."""
    corner = re.escape(edge.ends[end])
    leaves, arrives = (re.search(found, edge.span.text) for found in (rf"\b{corner} to\b", rf"\bto {corner}\b"))
    return "leaving" if leaves and not arrives else "arriving" if arrives and not leaves else ""
