"""Walking the seams: the two sides of every join laid along one another."""

from __future__ import annotations

from collections.abc import Collection

import numpy as np

from draft.base.arrays import Floats
from draft.base.record import dataclass
from draft.garment.garment import Garment, Join, Piece, SidePart
from draft.geometry.area import outline_areas
from draft.geometry.ends import end_directions
from draft.seams.sharing import both_sides
from draft.seams.sides import Side, SideEdge, SideLengths

RUNS_ON = 30.0  # degrees: an edge that bends no more than this where a seam ends goes on along it, open


@dataclass(frozen=True)
class Walked(SideLengths):
    """One join: the length of each side in one sewn seam, mm `(B,)`."""


@dataclass(frozen=True)
class SeamEnd:
    """An end of a join, where two joined edges end together: the angles inside the two pieces there, degrees `(B,)`."""

    join: Join
    at_start: bool
    first: Floats
    second: Floats
    neighbours: tuple[str, str]

    @property
    def kink(self) -> Floats:
        """How far the outline is from running on straight across the seam, degrees `(B,)`."""
        return np.asarray(self.first + self.second - 180.0)


def walk_seams(garment: Garment) -> tuple[Walked, ...]:
    """The lengths along every join of the garment."""
    return tuple(_walk(garment, join) for join in garment.joins)


def _walk(garment: Garment, join: Join) -> Walked:
    first, second = both_sides(garment, join)
    seams = first.copies
    return Walked(join, first.whole / seams, second.whole / seams)


def seam_ends(garment: Garment, joins: Collection[str] | None = None) -> tuple[SeamEnd, ...]:
    """The ends of every join of one edge to one edge, where the outlines must run on across the seam; `joins` are names
    of those that are asked about, if not all are.

    A band's end has none: there the join is between the ends of one straight strip. Neither has the end of a seam where
    the file says that the outline is peaked: a V neck has a point there; nor one beyond which both edges run on along
    the seam: it stays open from there, as a slit or a casing does; nor one where one piece is sewn on straight past it,
    as the crotch is below the facing of a fly; nor one that runs out in the cloth of one piece, as a dart's point does;
    nor one that lies within an edge, which runs on there.
    """
    found = []
    sewn = {(part.piece, part.edge) for join in garment.joins for part in (*join.first, *join.second)}
    for join in garment.joins:
        if joins is not None and join.name not in joins:
            continue
        first, second = both_sides(garment, join)
        if len(first.edges) == len(second.edges) == 1 and join.fit == "even" and not join.is_lying:
            # A whole edge sewn to two mirrored halves ends in the middle of nothing: both ends are the halves' start.
            ends = (True, False) if first.copies == second.copies else (True,)
            found += [seam_end for at_start in ends if (seam_end := _seam_end(join, first, second, at_start, sewn))]
    return tuple(found)


def kinks(garment: Garment, one: SidePart, other: SidePart) -> tuple[Floats, Floats]:
    """How far the outlines are from running on straight, degrees `(B,)`, at both ends of two parts sewn together."""
    at_start, at_end = (
        sum(inside_angle(garment.piece(part.piece), part.edge, start != part.reverse)[0] for part in (one, other))
        for start in (True, False)
    )
    return np.asarray(at_start - 180.0), np.asarray(at_end - 180.0)


def _seam_end(join: Join, first: Side, second: Side, at_start: bool, sewn: set[tuple[str, str]]) -> SeamEnd | None:
    one, other = first.edges[0], second.edges[0]
    if any(is_peaked(s.piece, s.edge.name, at_start != s.part.reverse) for s in (one, other)):
        return None
    if one.piece is other.piece and _runs_out(one, other, at_start):
        return None
    if any(_is_within(s, at_start) for s in (one, other)):
        return None
    angle, neighbour = inside_angle(one.piece, one.edge.name, at_start != one.part.reverse)
    beside, other_neighbour = inside_angle(other.piece, other.edge.name, at_start != other.part.reverse)
    runs_on = [bool(np.all(np.abs(each - 180.0) < RUNS_ON)) for each in (angle, beside)]
    past = [(one.piece.name, neighbour) in sewn, (other.piece.name, other_neighbour) in sewn]
    if all(runs_on) or any(on and sewn_on for on, sewn_on in zip(runs_on, past, strict=True)):
        return None
    return SeamEnd(join, at_start, angle, beside, (neighbour, other_neighbour))


def _runs_out(one: SideEdge, other: SideEdge, at_start: bool) -> bool:
    """Whether two edges of one piece end in one and the same corner."""
    names = [edge.name for edge in one.piece.edges]
    corners = [(names.index(each.edge.name) + (at_start == each.part.reverse)) % len(names) for each in (one, other)]
    return one.edge is not other.edge and corners[0] == corners[1]


def _is_within(side_edge: SideEdge, at_start: bool) -> bool:
    """Whether a seam begins or ends within an edge: beside that part of it lies another of the same one."""
    edges, edge = side_edge.piece.edges, side_edge.edge
    number = [other.name for other in edges].index(edge.name)
    beside = edges[(number + (-1 if at_start != side_edge.part.reverse else 1)) % len(edges)]
    return bool(edge.whole) and beside.whole == edge.whole


def is_peaked(piece: Piece, name: str, at_start: bool) -> bool:
    k = [edge.name for edge in piece.edges].index(name)
    return piece.edges[k - 1 if at_start else k].end_corner == "peaked"


def inside_angle(piece: Piece, name: str, at_start: bool) -> tuple[Floats, str]:
    """The angle inside a piece, degrees `(B,)`, at one end of an edge, and the name of the edge that meets it there."""
    names = [edge.name for edge in piece.edges]
    k = names.index(name)
    before, after = (k - 1, k) if at_start else (k, (k + 1) % len(names))
    arriving = end_directions(piece.edges[before].segments)[1]
    leaving = end_directions(piece.edges[after].segments)[0]
    turn = np.arctan2(
        arriving[:, 0] * leaving[:, 1] - arriving[:, 1] * leaving[:, 0], np.sum(arriving * leaving, axis=-1)
    )
    inside = 180.0 - np.degrees(turn) * handedness(piece)
    return np.asarray(inside), names[before] if at_start else names[after]


def goes_on_along(piece: Piece, name: str, beside: str) -> bool:
    """Whether the edge beside one end of an edge goes on along it for every body, as an opening does along its seam."""
    found = [inside_angle(piece, name, at_start) for at_start in (True, False)]
    return any(other == beside and bool(np.all(np.abs(angle - 180.0) < RUNS_ON)) for angle, other in found)


def handedness(piece: Piece) -> Floats:
    """1 for the bodies whose outline runs counterclockwise, -1 for those whose outline runs clockwise: `(B,)`."""
    area = outline_areas(np.concatenate([edge.segments for edge in piece.edges], axis=1))
    return np.where(area < 0, -1.0, 1.0)
