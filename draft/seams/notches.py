"""Notches from joins: the same marks on both sides, so that a maker can lay them on one another."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from draft.base.arrays import Floats
from draft.garment.garment import Garment, Join, JoinNotch, Notch
from draft.seams.sides import Side, drawn_distance, side

CLEAR = 5.0  # mm: nearer to the end of an edge, the seam there is itself the mark


def with_notches(garment: Garment) -> Garment:
    """The garment with the marks of its joins set on both sides as notches."""
    found: dict[str, list[Notch]] = {}
    for join in garment.joins:
        first, second = side(garment, join.first), side(garment, join.second)
        for notch in join.notches:
            share, strokes = share_along(first, notch), 2 if notch.double else 1
            _mark(found, join, first, share, strokes)
            for place in _on_second(first, second, share):
                _mark(found, join, second, place, strokes)
    pieces = tuple(
        replace(piece, notches=(*piece.notches, *_once(found.get(piece.name, [])))) for piece in garment.pieces
    )
    return replace(garment, pieces=pieces)


def share_along(first: Side, notch: JoinNotch) -> Floats:
    """Where a notch of a join lies, as a share `(bodies,)` of its first side."""
    return np.asarray(notch.at / np.maximum(first.length, 1e-9)) if notch.in_mm else notch.at


def _on_second(first: Side, second: Side, share: Floats) -> list[Floats]:
    """The shares of the second side that a share of the first comes to lie on.

    A whole folds onto its two mirrored halves; a half that is sewn to a whole has its place on both halves of it.
    """
    if second.copies == 2 * first.copies:
        return [np.asarray(1.0 - np.abs(1.0 - 2.0 * share))]
    if first.copies == 2 * second.copies:
        return [share / 2, 1.0 - share / 2]
    return [share]


def _mark(found: dict[str, list[Notch]], join: Join, along: Side, share: Floats, strokes: int) -> None:
    """Set a mark at a share `(B,)` of a side on whichever of its edges it falls, body by body."""
    place = along.length * share
    begun = np.zeros_like(place)
    for stretch in along.stretches:
        at = place - begun
        here = (at > CLEAR) & (at < stretch.length - CLEAR)
        if here.any():
            from_start = stretch.length - at if stretch.part.reverse else at
            drawn = drawn_distance(stretch.piece, stretch.edge, from_start)
            notch = Notch(join.span, stretch.edge.name, np.where(here, drawn, np.nan), strokes)
            found.setdefault(stretch.piece.name, []).append(notch)
        begun = begun + stretch.length


def _once(notches: list[Notch]) -> list[Notch]:
    """The notches without those that fall where another of the same edge already lies, as on a folded half."""
    kept: list[Notch] = []
    for notch in notches:
        twin = any(k.edge == notch.edge and np.allclose(k.at, notch.at, atol=0.5, equal_nan=True) for k in kept)
        if not twin:
            kept.append(notch)
    return kept
