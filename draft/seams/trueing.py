"""Trueing: where a seam ends, the outlines of the two pieces are blended into one smooth line.

A peak is shaved and a hollow is filled, over a length that the designer gives, and the seam becomes shorter or longer
by as much on both pieces. A fold cannot turn: beside one the seam ends where it did, and the other edge takes the whole
turn. So does a seam of a whole with its two halves, each edge half of the turn.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

import numpy as np

from draft.base.arrays import Floats
from draft.base.record import dataclass
from draft.garment.garment import Edge, Garment, Join, Piece, SidePart
from draft.geometry.apart import farthest
from draft.geometry.cubic import turned
from draft.geometry.ends import end_directions
from draft.geometry.length import length
from draft.seams.blending import Beside, blended, run_to_end, shortest
from draft.seams.redrawing import Drawn, Redrawing, Turned
from draft.seams.sharing import both_sides
from draft.seams.walk import SeamEnd, seam_ends

ENOUGH = 0.02  # degrees: less than the width of a pencil line a metre away
TELLING = 0.1  # degrees: 0.1 mm aside on 6 cm, about what a sharp pencil shows


@dataclass(frozen=True)
class Trueing:
    """What blending the outlines at one end of a join would do: how far each of the two edges moves, mm `(B,)`."""

    seam_end: SeamEnd
    moved: tuple[Floats, Floats]


def trued(garment: Garment) -> tuple[Garment, tuple[Redrawing, ...]]:
    """The garment with the outlines blended at the ends of every join that asks for it, and what was redrawn for it."""
    turns: list[Redrawing] = []
    for join in garment.joins:
        if join.trued_over is not None:
            for at_start in (True, False):
                for seam_end in [c for c in seam_ends(garment) if c.join is join and c.at_start == at_start]:
                    garment, more = _blended(garment, seam_end, join.trued_over)
                    turns += more
    return garment, tuple(turns)


def to_true(garment: Garment, over: float) -> Iterable[Trueing]:
    """The ends of joins where the outlines do not run on, and what blending them over so many mm would move."""
    for seam_end in seam_ends(garment):
        if np.any(np.abs(seam_end.kink) > TELLING):
            after = trued_at(garment, seam_end, np.full(len(seam_end.kink), over))
            first, second = (_moved(garment, after, seam_end, which) for which in (0, 1))
            yield Trueing(seam_end, (first, second))


def trued_at(garment: Garment, seam_end: SeamEnd, over: Floats) -> Garment:
    """The garment with the two edges at one end of a join turned into line over `over` mm `(B,)`."""
    return _blended(garment, seam_end, over)[0]


def _blended(garment: Garment, seam_end: SeamEnd, over: Floats) -> tuple[Garment, list[Redrawing]]:
    if np.all(np.abs(seam_end.kink) < ENOUGH):
        return garment, []
    changes = _in_place(garment, seam_end, over) if _stays(garment, seam_end) else _moved_along(garment, seam_end, over)
    for change in changes:
        garment = _with_change(garment, change)
    return garment, changes


def _stays(garment: Garment, seam_end: SeamEnd) -> bool:
    """Whether the seam ends where it did: beside a fold, and where one side is two halves of the other."""
    first, second = both_sides(garment, seam_end.join)
    folded = any(_beside(garment, seam_end, which)[1].on_fold for which in _sides(seam_end.join))
    return folded or first.copies != second.copies


def _in_place(garment: Garment, seam_end: SeamEnd, over: Floats) -> list[Redrawing]:
    """Both edges turned about the end of the seam, each by half; the one beside a fold by the whole."""
    turned_ones = [which for which in _sides(seam_end.join) if not _beside(garment, seam_end, which)[1].on_fold]
    share = seam_end.kink / (2 if len(turned_ones) == len(_sides(seam_end.join)) else 1)
    changes: list[Redrawing] = []
    for which in turned_ones:
        edge = _edge_beside(garment, seam_end, which)
        way = -turned(-end_directions(edge.run)[1], np.radians(share) * edge.side)
        changes.append(_turned(garment, seam_end, which, way, np.zeros_like(way), over))
    return changes


def _moved_along(garment: Garment, seam_end: SeamEnd, over: Floats) -> list[Redrawing]:
    """Both edges drawn as one line, and the seam as much shorter or longer on both sides.

    An edge sewn to its own mirror image is redrawn once.
    """
    edges = [_edge_beside(garment, seam_end, which) for which in (0, 1)]
    over = np.min([over, *(length(edge.run) / 2 for edge in edges)], axis=0)  # as far on both, as an arc begins
    by, ways = blended(edges[0], edges[1], over)
    seams = [_seam(garment, seam_end, which) for which in (0, 1)]
    by = np.where(np.abs(seam_end.kink) < ENOUGH, 0.0, by)
    for seam, _ in seams:
        by = shortest(seam.segments, by)
    changes: list[Redrawing] = []
    for which in _sides(seam_end.join):
        (seam, at_seam_end), piece = seams[which], _part(seam_end, which).piece
        drawn = Drawn(seam_end.join.name, f"{piece}.{seam.name}", at_seam_end, by)
        after = replace(seam, segments=drawn.redrawn(seam.segments))
        way = edges[which].back(ways[which], _outwards(after, at_seam_end))
        shift = _end(after, at_seam_end) - _end(seam, at_seam_end)
        changes += [drawn, _turned(garment, seam_end, which, way, shift, over)]
    return changes


def _turned(garment: Garment, seam_end: SeamEnd, which: int, way: Floats, shift: Floats, over: Floats) -> Turned:
    """The edge beside one side of the seam, redrawn."""
    piece, beside = _beside(garment, seam_end, which)
    at_end = not _seam(garment, seam_end, which)[1]
    return Turned(seam_end.join.name, f"{piece.name}.{beside.name}", at_end, way, shift, over)


def _edge_beside(garment: Garment, seam_end: SeamEnd, which: int) -> Beside:
    seam, at_seam_end = _seam(garment, seam_end, which)
    _, beside = _beside(garment, seam_end, which)
    return Beside(run_to_end(beside.segments, not at_seam_end), _outwards(seam, at_seam_end))


def _seam(garment: Garment, seam_end: SeamEnd, which: int) -> tuple[Edge, bool]:
    """The edge on one side of the seam, and whether it is at its last point that the seam ends."""
    part = _part(seam_end, which)
    return garment.piece(part.piece).edge(part.edge), seam_end.at_start == part.reverse


def _outwards(seam: Edge, at_end: bool) -> Floats:
    return end_directions(run_to_end(seam.segments, at_end))[1]


def _end(edge: Edge, at_end: bool) -> Floats:
    return edge.segments[:, -1, 3] if at_end else edge.segments[:, 0, 0]


def _sides(join: Join) -> tuple[int, ...]:
    return (0,) if join.first[0] == join.second[0] else (0, 1)


def _part(seam_end: SeamEnd, which: int) -> SidePart:
    return (seam_end.join.first, seam_end.join.second)[which][0]


def _beside(garment: Garment, seam_end: SeamEnd, which: int) -> tuple[Piece, Edge]:
    """The piece on one side of the seam, and its edge that meets the seam there."""
    piece = garment.piece(_part(seam_end, which).piece)
    return piece, piece.edge(seam_end.neighbours[which])


def _moved(before: Garment, after: Garment, seam_end: SeamEnd, which: int) -> Floats:
    return farthest(_beside(before, seam_end, which)[1].segments, _beside(after, seam_end, which)[1].segments)[0]


def _with_change(garment: Garment, change: Redrawing) -> Garment:
    name, edge = change.edge.split(".")
    piece = garment.piece(name)
    old = piece.edge(edge)
    new = replace(old, segments=change.redrawn(old.segments))
    further = (0 if change.at_end else 1) * (length(new.segments) - length(old.segments))
    return _with_edge(garment, _carried(piece, edge, further), new)


def _carried(piece: Piece, edge: str, further: Floats) -> Piece:
    """The piece with what lies on an edge so many mm `(B,)` further along it, as that begins elsewhere."""
    takeups = tuple(replace(t, at=t.at + further) if t.edge == edge else t for t in piece.takeups)
    notches = tuple(replace(n, at=n.at + further) if n.edge == edge else n for n in piece.notches)
    return replace(piece, takeups=takeups, notches=notches)


def _with_edge(garment: Garment, piece: Piece, edge: Edge) -> Garment:
    edges = tuple(edge if other.name == edge.name else other for other in piece.edges)
    changed = replace(piece, edges=edges)
    return replace(garment, pieces=tuple(changed if p.name == piece.name else p for p in garment.pieces))
