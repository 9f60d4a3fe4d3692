"""A piece whose edges are trued across the darts that ask for it."""

from __future__ import annotations

from dataclasses import replace
from typing import TypeVar

import numpy as np

from draft.garment.garment import Edge, Notch, Parting, Piece, Takeup
from draft.geometry.dart import Taken, true_darts
from draft.geometry.length import point_at
from draft.geometry.nearest import nearest_place
from draft.seams.sides import takeups_of

Place = TypeVar("Place", Notch, Parting)


def with_darts_trued(piece: Piece) -> Piece:
    """The piece with such edges redrawn, and what lies on them found again."""
    if all(takeup.trued_over is None for takeup in piece.takeups):
        return piece
    takeups: dict[str, Takeup] = {}
    edges = []
    for edge in piece.edges:
        taken = takeups_of(piece, edge)
        redrawn, placed = (
            _redrawn(edge, taken) if any(takeup.trued_over is not None for takeup in taken) else (edge, taken)
        )
        edges.append(redrawn)
        takeups |= {takeup.name: takeup for takeup in placed}
    changed = replace(piece, edges=tuple(edges), takeups=tuple(takeups[takeup.name] for takeup in piece.takeups))
    return replace(
        changed,
        notches=tuple(_found_again(notch, piece, changed) for notch in piece.notches),
        partings=tuple(_found_again(parting, piece, changed) for parting in piece.partings),
    )


def _redrawn(edge: Edge, takeups: list[Takeup]) -> tuple[Edge, list[Takeup]]:
    path, taken = true_darts(
        edge.segments,
        [Taken(f.at, f.width, f.to, f.trued_over, f.let_in, f.pressed, f.from_fold, f.to_fold) for f in takeups],
    )
    placed = [replace(takeup, at=new.at, width=new.width) for takeup, new in zip(takeups, taken, strict=True)]
    return replace(edge, segments=path), placed


def _found_again(place: Place, before: Piece, after: Piece) -> Place:
    old, new = before.edge(place.edge).segments, after.edge(place.edge).segments
    if old is new:
        return place
    return replace(place, at=np.asarray(nearest_place(new, point_at(old, place.at))[0]))
