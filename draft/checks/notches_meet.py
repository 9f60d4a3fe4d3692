"""Notches of a join meet when it is sewn: on every copy of its edges, opened out, each lies on one of the other side.

A back on the fold is notched on both halves. Where they are sewn to two fronts that differ, each front needs the notch.
"""

from __future__ import annotations

import numpy as np

from draft.base.arrays import Floats
from draft.base.naming import listed
from draft.base.notes import Note, caution
from draft.base.plainly import of_sizes
from draft.base.worst import worst_of
from draft.garment.garment import Garment, Join, Notch
from draft.seams.following import side_words
from draft.seams.lying import Copies, lying
from draft.seams.notches import CLEAR
from draft.seams.sharing import both_sides, sharing
from draft.seams.sides import Side, SideEdge, sewn_distance

APART = 1.0  # mm: the thickness of a notch as it is snipped


def check(garment: Garment) -> list[Note]:
    """A caution for each join along which a notch of a join meets neither a notch nor the end of an edge."""
    return [note for join in garment.joins if not join.is_lying for note in _join(garment, join)]


def _join(garment: Garment, join: Join) -> list[Note]:
    first, second = both_sides(garment, join)
    lie = lying(garment, join)
    for one, copies, other, others in (
        (first, lie.first, second, lie.second),
        (second, lie.second, first, lie.first),
    ):
        marked, ends = _notches(garment, other, join, others), _ends(other, others)
        for place in _notches(garment, one, join, copies):
            off = _from_nearest(place, marked, ends, others.count * other.length)
            if np.any(off > APART):
                return [_note(garment, join, one, other, off)]
    return []


def _from_nearest(place: Floats, marked: list[Floats], ends: list[Floats], whole: Floats) -> Floats:
    """How far a place lies from what tells where it belongs, mm `(B,)`: a notch, or the end of an edge near by."""
    near = [np.abs(place - at) * whole for at in marked]
    near += [np.maximum(np.abs(place - at) * whole - CLEAR, 0.0) for at in ends]
    off = np.nanmin(np.stack(near), axis=0, initial=np.inf)
    return np.where(np.isnan(place), 0.0, off)


def _notches(garment: Garment, along: Side, join: Join, copies: Copies) -> list[Floats]:
    """The places of a whole seam at which one side is marked by it, or by a join that has the side's other copies."""
    found = []
    begun = np.zeros_like(along.length)
    for each in along.edges:
        spans = {join.span, *(other.span for other in sharing(garment, each.part))}
        for notch in each.piece.notches:
            if notch.edge == each.edge.name and notch.span in spans:
                share = (begun + _along(each, notch)) / np.maximum(along.length, 1e-9)
                found += copies.on_seam(share)
        begun = begun + each.length
    return found


def _along(each: SideEdge, notch: Notch) -> Floats:
    sewn = sewn_distance(each.piece, each.edge, notch.at)
    return each.length - sewn if each.part.reverse else sewn


def _ends(along: Side, copies: Copies) -> list[Floats]:
    """The places of a whole seam at which edges of one side end."""
    ends = [np.zeros_like(along.length)]
    for each in along.edges:
        ends.append(ends[-1] + each.length)
    return [place for end in ends for place in copies.on_seam(end / np.maximum(along.length, 1e-9))]


def _note(garment: Garment, join: Join, one: Side, other: Side, off: Floats) -> Note:
    worst = worst_of(off)
    marked, bare = (side_words(tuple(each.part for each in along.edges)) for along in (one, other))
    fact = f"a notch of `{marked}` meets none of `{bare}` along `{join.name}`, for {listed(garment.sizes, off > APART)}"
    beside = f"the nearest lies {off[worst]:.1f} mm beside it ({garment.sizes[worst]})"
    shared = [other for each in one.edges for other in sharing(garment, each.part) if other.span != join.span]
    fix = [f"`{shared[0].name}` sets it on all copies of that edge: write the same notches behind `{join.name}`"]
    plainly = of_sizes("notch_meets_none", garment.sizes, off > APART, seam=join.name)
    hints = [*([beside] if np.isfinite(off[worst]) else []), *(fix if shared else [])]
    return caution(fact, join.span, *hints, plainly=plainly)
