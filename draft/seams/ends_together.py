"""Ends of seams that must be trued together, as they have an edge in common.

A left front and a right one are sewn to one and the same back: at the armpit that back has one line, which both fronts
are to run on from. So what either of them would do to it is not done one after the other, but once, for all.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from typing import TypeVar

from draft.base.record import dataclass
from draft.garment.garment import Join, SidePart
from draft.seams.walk import SeamEnd

Item = TypeVar("Item")
Ends = Sequence[SeamEnd]


@dataclass(frozen=True)
class EdgeEnd:
    """An end of an edge at which a seam ends: whether it is its last point, and the edge that meets it there."""

    piece: str
    edge: str
    at_end: bool
    beside: str


def edge_end(seam_end: SeamEnd, which: int) -> EdgeEnd:
    """The end of an edge on the first side of a seam's end, 0, or on the second, 1."""
    part: SidePart = (seam_end.join.first, seam_end.join.second)[which][0]
    return EdgeEnd(part.piece, part.edge, seam_end.at_start == part.reverse, seam_end.neighbours[which])


def ends_together(ends: Ends) -> list[list[SeamEnd]]:
    """The ends of seams, those that have the end of an edge in common in one list."""
    return _in_common(ends, lambda end: {edge_end(end, which) for which in (0, 1)})


def seams_together(joins: Iterable[Join]) -> dict[str, str]:
    """By the name of each join the names of all that it shares an edge with, one after another, its own among them."""
    groups = _in_common(list(joins), _edges)
    return {join.name: " ".join(sorted(other.name for other in group)) for group in groups for join in group}


def in_turn(ends: Ends) -> list[SeamEnd]:
    """The ends of seams in the order that they are trued, which does not lean on the order that they are written in.

    Where four pieces meet, two lines of seams cross. All seams of one line come before those of the other, which then
    run on over it: those that end on one and the same seam are a line.
    """
    sewn = {end.join.name: _edges(end.join) for end in ends}
    crossed: dict[str, set[object]] = {name: set() for name in sewn}
    for end in ends:
        beside = {(at.piece, at.beside) for at in (edge_end(end, 0), edge_end(end, 1))}
        crossed[end.join.name] |= {name for name, edges in sewn.items() if edges & beside}
    lines = {name: min(line) for line in _in_common(sorted(sewn), crossed.__getitem__) for name in line}
    return sorted(ends, key=lambda end: (lines[end.join.name], end.join.name, not end.at_start))


def sides_of(ends: Ends) -> dict[EdgeEnd, int]:
    """On which side of the seam each end of an edge lies, 0 or 1: that of the first join's, or across from it."""
    sides = {edge_end(ends[0], 0): 0}
    while new := {there: 1 - sides[here] for here, there in _across(ends) if here in sides and there not in sides}:
        sides |= new
    return sides


def _edges(join: Join) -> set[object]:
    return {(part.piece, part.edge) for part in (*join.first, *join.second)}


def _across(ends: Ends) -> list[tuple[EdgeEnd, EdgeEnd]]:
    return [(edge_end(end, which), edge_end(end, 1 - which)) for end in ends for which in (0, 1)]


def _in_common(items: Sequence[Item], of: Callable[[Item], set[object]]) -> list[list[Item]]:
    """The items, those that have something in common in one list, which stands where its first one did."""
    groups: list[tuple[list[Item], set[object]]] = []
    for item in items:
        has = of(item)
        met = [group for group in groups if group[1] & has]
        merged = ([one for group in met for one in group[0]] + [item], has.union(*(group[1] for group in met)))
        at = groups.index(met[0]) if met else len(groups)
        groups = [group for group in groups if group not in met]
        groups.insert(at, merged)
    return [members for members, _ in groups]
