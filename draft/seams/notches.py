"""Notches from joins: the same on both sides, so that a maker can lay them on one another."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from draft.base.arrays import Floats
from draft.garment.garment import Garment, Join, JoinNotch, Notch
from draft.seams.openings import gaps
from draft.seams.sides import Side, drawn_distance, side

CLEAR = 5.0  # mm: nearer to the end of an edge, the seam there is notch enough


def with_notches(garment: Garment) -> Garment:
    """The garment with the notches of its joins set on both sides."""
    found: dict[str, list[Notch]] = {}
    for join in garment.joins:
        first, second = side(garment, join.first), side(garment, join.second)
        for notch in (*join.notches, *_of_openings(garment, join)):
            share, strokes = share_along(first, notch), 2 if notch.double else 1
            _set_notch(found, join, first, share, strokes)
            for place in _on_second(first, second, share):
                _set_notch(found, join, second, place, strokes)
    pieces = tuple(
        replace(piece, notches=(*piece.notches, *_once(found.get(piece.name, [])))) for piece in garment.pieces
    )
    return replace(garment, pieces=pieces)


def _of_openings(garment: Garment, join: Join) -> list[JoinNotch]:
    """Notches where an opening begins or ends within a join."""
    found = []
    for gap in gaps(garment, join):
        found += [] if gap.at_start else [JoinNotch(gap.begins, in_mm=True)]
        found += [] if gap.at_end else [JoinNotch(gap.ends, in_mm=True)]
    return found


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


def _set_notch(found: dict[str, list[Notch]], join: Join, along: Side, share: Floats, strokes: int) -> None:
    """Set a notch at a share `(B,)` of a side on whichever of its edges it falls, body by body."""
    place = along.length * share
    begun = np.zeros_like(place)
    for side_edge in along.edges:
        at = place - begun
        here = (at > CLEAR) & (at < side_edge.length - CLEAR)
        if here.any():
            from_start = side_edge.length - at if side_edge.part.reverse else at
            drawn = drawn_distance(side_edge.piece, side_edge.edge, from_start)
            notch = Notch(join.span, side_edge.edge.name, np.where(here, drawn, np.nan), strokes)
            found.setdefault(side_edge.piece.name, []).append(notch)
        begun = begun + side_edge.length


def _once(notches: list[Notch]) -> list[Notch]:
    """The notches without those that fall where another of the same edge already lies, as on a folded half."""
    kept: list[Notch] = []
    for notch in notches:
        twin = any(k.edge == notch.edge and np.allclose(k.at, notch.at, atol=0.5, equal_nan=True) for k in kept)
        if not twin:
            kept.append(notch)
    return kept
