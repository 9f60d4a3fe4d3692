"""A piece whose edges are trued across the darts that ask for it."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from draft.garment.garment import Edge, Fold, Notch, Piece
from draft.geometry.dart import Taken, true_darts
from draft.geometry.length import point_at
from draft.geometry.nearest import nearest
from draft.seams.sides import folds_of


def with_darts_trued(piece: Piece) -> Piece:
    """The piece with such edges redrawn, and what lies on them found again."""
    if all(fold.trued_over is None for fold in piece.folds):
        return piece
    folds: dict[str, Fold] = {}
    edges = []
    for edge in piece.edges:
        taken = folds_of(piece, edge)
        redrawn, placed = _redrawn(edge, taken) if any(fold.trued_over is not None for fold in taken) else (edge, taken)
        edges.append(redrawn)
        folds |= {fold.name: fold for fold in placed}
    changed = replace(piece, edges=tuple(edges), folds=tuple(folds[fold.name] for fold in piece.folds))
    return replace(changed, notches=tuple(_found_again(notch, piece, changed) for notch in piece.notches))


def _redrawn(edge: Edge, folds: list[Fold]) -> tuple[Edge, list[Fold]]:
    path, taken = true_darts(edge.segments, [Taken(f.at, f.width, f.to, f.trued_over) for f in folds])
    placed = [replace(fold, at=new.at, width=new.width) for fold, new in zip(folds, taken, strict=True)]
    return replace(edge, segments=path), placed


def _found_again(notch: Notch, before: Piece, after: Piece) -> Notch:
    old, new = before.edge(notch.edge).segments, after.edge(notch.edge).segments
    if old is new:
        return notch
    return replace(notch, at=np.asarray(nearest(new, point_at(old, notch.at))[0]))
