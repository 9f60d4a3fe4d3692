"""Notches from joins: the same on both sides, opened out and as often as they are cut, so that all of them meet."""

from __future__ import annotations

from dataclasses import replace
from typing import TypeAlias

import numpy as np

from draft.base.arrays import Floats
from draft.garment.garment import Garment, Join, JoinNotch, Notch
from draft.seams.lying import Lying, lying
from draft.seams.openings import gaps
from draft.seams.parts_named import bears_part, part_at
from draft.seams.seams_met import seam_met
from draft.seams.sharing import both_sides
from draft.seams.sides import Side, drawn_distance
from draft.seams.walk import goes_on_along

CLEAR = 5.0  # mm: nearer to the end of an edge, the seam there is notch enough
ROUNDED = 1e-6  # mm: a notch where the outline only runs on belongs to the edge before


def with_notches(garment: Garment) -> Garment:
    """The garment with the notches of its joins set on both sides."""
    found: dict[str, list[Notch]] = {}
    for join in garment.joins:
        for along, share, sort in _along_both(garment, join):
            _set_notch(found, join, along, share, sort)
    pieces = tuple(
        replace(piece, notches=(*piece.notches, *_once(found.get(piece.name, [])))) for piece in garment.pieces
    )
    return replace(garment, pieces=pieces)


_Written: TypeAlias = tuple[Floats, JoinNotch, bool]
"""The share of the first side, the notch of the join, and whether it bears its part of the way."""
_Sort: TypeAlias = tuple[JoinNotch, str, str]
"""The notch of the join, the part of the way that it bears, and the letter of the seam that ends there."""


def _along_both(garment: Garment, join: Join) -> list[tuple[Side, Floats, _Sort]]:
    """The sides of a join with the shares at which they are marked, and of what sort: first those that were written."""
    first, second = both_sides(garment, join)
    lie = lying(garment, join)
    written = [
        (share_along(first, notch, lie), notch, bears_part(notch, join))
        for notch in (*join.notches, *_of_openings(garment, join))
    ]
    ends = [_met(garment, notch, (first, second), lie) for notch in written]
    found = [
        (first, share, (notch, part_at(lie.first, share) * told, letter))
        for (share, notch, told), (letter, _) in zip(written, ends, strict=True)
    ]
    for (share, notch, told), letters in zip(written, ends, strict=True):
        both = zip((first, second), (lie.first, lie.second), lie.meeting(share), letters, strict=True)
        for along, copies, shares, letter in both:
            found += [(along, met, (notch, part_at(copies, met) * told, letter)) for met in shares]
    return found


def _met(garment: Garment, notch: _Written, sides: tuple[Side, Side], lie: Lying) -> tuple[str, str]:
    """The letter that a notch bears on either side of its join: of the seam that ends there on the other one."""
    if notch[1].double:  # two strokes tell it already
        return "", ""
    place = lie.first.on_seam(notch[0])[0]
    return seam_met(garment, place, sides[1], lie.second), seam_met(garment, place, sides[0], lie.first)


def _of_openings(garment: Garment, join: Join) -> list[JoinNotch]:
    """Notches where an opening begins or ends within a join."""
    found = []
    for gap in gaps(garment, join):
        ends = gap.opening.use
        found += [] if gap.at_start else [JoinNotch(gap.begins, in_mm=True, ends=ends)]
        found += [] if gap.at_end else [JoinNotch(gap.ends, in_mm=True, ends=ends)]
    return found


def share_along(first: Side, notch: JoinNotch, lie: Lying) -> Floats:
    """Where a notch of a join lies, as a share `(bodies,)` of its first side."""
    if notch.of_whole:
        return lie.first.on_copy(notch.at)
    return np.asarray(notch.at / np.maximum(first.length, 1e-9)) if notch.in_mm else notch.at


def _set_notch(found: dict[str, list[Notch]], join: Join, along: Side, share: Floats, sort: _Sort) -> None:
    """Set a notch at a share `(B,)` of a side on whichever of its edges it falls, body by body."""
    place = along.length * share
    begun = np.zeros_like(place)
    for number, side_edge in enumerate(along.edges):
        at = place - begun
        begins = ROUNDED if _runs_on(along, number) else CLEAR
        ends = -ROUNDED if _runs_on(along, number + 1) else CLEAR
        here = (at > begins) & (at < side_edge.length - ends)
        if here.any():
            at = np.clip(at, 0.0, side_edge.length)
            from_start = side_edge.length - at if side_edge.part.reverse else at
            drawn = drawn_distance(side_edge.piece, side_edge.edge, from_start)
            notch, part, letter = sort
            marked = Notch(
                *(join.span, side_edge.edge.name, np.where(here, drawn, np.nan), 2 if notch.double else 1),
                part="" if notch.words else part, words=notch.words, ends=notch.ends, meets=letter,
            )  # fmt: skip
            found.setdefault(side_edge.piece.name, []).append(marked)
        begun = begun + side_edge.length


def _runs_on(along: Side, number: int) -> bool:
    """Whether the outline of one piece only runs on from the edge before into an edge of a side: no seam is there."""
    if not 0 < number < len(along.edges):
        return False
    before, after = along.edges[number - 1], along.edges[number]
    one_piece = before.piece is after.piece and before.edge is not after.edge
    return one_piece and goes_on_along(before.piece, before.edge.name, after.edge.name)


def _once(notches: list[Notch]) -> list[Notch]:
    """The notches without those that fall where another of the same edge already lies, as on a folded half."""
    kept: list[Notch] = []
    for notch in sorted(notches, key=lambda one: not one.words):  # one that is told stays, and not its quarter
        twin = any(k.edge == notch.edge and np.allclose(k.at, notch.at, atol=0.5, equal_nan=True) for k in kept)
        if not twin:
            kept.append(notch)
    return [notch for notch in notches if any(one is notch for one in kept)]
