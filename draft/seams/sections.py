"""Seams walked from notch to notch: where along a join its sides differ, and where ease or stretch comes to lie.

Both sides match at their ends, at the notches of the join, at notches that a designer has set by hand on both sides,
and, where both sides are made of equally many edges, from edge to edge.
"""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise

import numpy as np

from draft.base.arrays import Floats
from draft.base.record import dataclass
from draft.garment.garment import Garment, Join, Notch
from draft.seams.lying import lying
from draft.seams.notches import CLEAR, share_along
from draft.seams.openings import gaps
from draft.seams.sharing import both_sides
from draft.seams.sides import Side, SideEdge, SideLengths, sewn_distance

WHOLE, MIRRORED, HALF = 1.0, 2.0, 0.5
"""How often the second side goes into one seam of the first: as it is, opened out about its end, or its first half."""


@dataclass(frozen=True)
class Section(SideLengths):
    """A part of a join between two places that match: what lies there, and its length on both sides, mm `(B,)`."""

    begins: str
    ends: str

    @property
    def ease(self) -> Floats:
        """By how much the first side is longer here than the second, mm `(B,)`; less than nothing where stretched."""
        return np.asarray(self.first - self.second)


@dataclass(frozen=True)
class Match:
    """A place that both sides of a join have: what it is, and how far along it lies on each, mm `(B,)`."""

    what: str
    first: Floats
    second: Floats
    by_share: bool = False
    """Whether it lies at the same share of both sides, so that it says nothing of where they differ."""
    is_notch: bool = True


@dataclass(frozen=True)
class OwnNotches:
    """Notches set by hand on a side, in the order that they lie along it: how far along, mm `(B,)`, and strokes."""

    at: tuple[Floats, ...]
    strokes: tuple[int, ...]


def sections(garment: Garment, by_share: bool = True) -> tuple[Section, ...]:
    """The sections of every join, in order; without `by_share` only those between places that could differ."""
    return tuple(section for join in garment.joins for section in sections_of(garment, join, by_share))


def sections_of(garment: Garment, join: Join, by_share: bool = True) -> tuple[Section, ...]:
    """The sections of one join, from its start to its end."""
    found = [match for match in matches(garment, join) if by_share or not match.by_share]
    return tuple(Section(join, b.first - a.first, b.second - a.second, a.what, b.what) for a, b in pairwise(found))


def matches(garment: Garment, join: Join) -> list[Match]:
    """The places that match, from the start of a join to its end."""
    first, second = both_sides(garment, join)
    times = second.copies / first.copies
    reach = second.whole / first.copies
    start, end = Match("start", 0 * reach, 0 * reach, is_notch=False), Match("end", first.length, reach, is_notch=False)
    inner = [*_of_join(garment, join, first, reach), *_of_openings(garment, join, reach)]
    if times in (WHOLE, MIRRORED, HALF):
        inner += _by_hand(garment, join)
    if times == WHOLE and len(first.edges) == len(second.edges):
        inner += _edge_ends(first, second)
    return [start, *_numbered(sorted(inner, key=lambda match: float(np.mean(match.first)))), end]


def _numbered(found: list[Match]) -> list[Match]:
    """The notches among the places counted from the start, whatever their kind."""
    numbered, count = [], 0
    for match in found:
        count += match.is_notch
        numbered.append(replace(match, what=f"{match.what} {count}") if match.is_notch else match)
    return numbered


def set_by_hand(garment: Garment, join: Join) -> tuple[OwnNotches, OwnNotches]:
    """The notches that a file sets itself on the edges of both sides, clear of their ends, for all bodies alike."""
    first, second = both_sides(garment, join)
    times = second.copies / first.copies
    mine = _own_notches(garment, first)
    other = _own_notches(garment, second)
    if times == MIRRORED:
        back = [2 * second.length - at for at in reversed(other.at)]
        other = OwnNotches((*other.at, *back), (*other.strokes, *reversed(other.strokes)))
    if times == HALF:
        near = [bool(np.all(at <= second.length / 2 + CLEAR)) for at in other.at]
        kept = [pair for pair, there in zip(zip(other.at, other.strokes, strict=True), near, strict=True) if there]
        other = OwnNotches(tuple(at for at, _ in kept), tuple(strokes for _, strokes in kept))
    return mine, other


def _of_join(garment: Garment, join: Join, first: Side, reach: Floats) -> list[Match]:
    lie = lying(garment, join)
    written = [(share_along(first, notch, lie), "double notch" if notch.double else "notch") for notch in join.notches]
    met = [(share, what) for at, what in written for share in lie.meeting(at)[0]]
    found: list[tuple[Floats, str]] = []
    for at, what in [*written, *met]:
        if _inside(at) and not any(np.allclose(at, other, equal_nan=True) for other, _ in found):
            found.append((at, what))
    return [Match(what, at * first.length, at * reach, by_share=True) for at, what in found]


def _inside(share: Floats) -> bool:
    return bool(np.all((share > 0) & (share < 1)))


def _of_openings(garment: Garment, join: Join, reach: Floats) -> list[Match]:
    found = []
    for gap in gaps(garment, join):
        for what, at, is_end in (
            ("opening begins", gap.begins, gap.at_start),
            ("opening ends", gap.ends, gap.at_end),
        ):
            share = at / np.maximum(gap.length, 1e-9)
            found += [] if is_end else [Match(what, at, share * reach, by_share=True, is_notch=False)]
    return found


def _by_hand(garment: Garment, join: Join) -> list[Match]:
    """Notches set by hand on both sides, where they are of one kind in one order."""
    first, second = set_by_hand(garment, join)
    if first.strokes != second.strokes:
        return []
    named = ["double notch" if strokes == 2 else "notch" for strokes in first.strokes]
    return [Match(what, a, b) for what, a, b in zip(named, first.at, second.at, strict=True)]


def _edge_ends(first: Side, second: Side) -> list[Match]:
    found = []
    for k in range(1, len(first.edges)):
        what = f"`{first.edges[k - 1].edge.name}` to `{first.edges[k].edge.name}`"
        here, there = (np.sum([s.length for s in one.edges[:k]], axis=0) for one in (first, second))
        found.append(Match(what, here, there, is_notch=False))
    return found


def _own_notches(garment: Garment, along: Side) -> OwnNotches:
    """The notches set by hand along a side."""
    from_joins = {join.span for join in garment.joins}
    found: list[tuple[Floats, int]] = []
    begun = np.zeros_like(along.length)
    for side_edge in along.edges:
        for notch in side_edge.piece.notches:
            if notch.edge == side_edge.edge.name and notch.span not in from_joins:
                at = _along(side_edge, notch)
                if np.all((at > CLEAR) & (at < side_edge.length - CLEAR)):
                    found.append((begun + at, notch.strokes))
        begun = begun + side_edge.length
    found.sort(key=lambda each: float(np.mean(each[0])))
    return OwnNotches(tuple(at for at, _ in found), tuple(strokes for _, strokes in found))


def _along(side_edge: SideEdge, notch: Notch) -> Floats:
    """How far along a stretch, as it is sewn and run, a notch lies; not a number where a body has none."""
    sewn = sewn_distance(side_edge.piece, side_edge.edge, notch.at)
    return side_edge.length - sewn if side_edge.part.reverse else sewn
