"""Trueing: where a seam ends, the outlines of the two pieces are blended into one smooth line.

The seam itself stays as it is, and so does its last point. Each of the two edges that meet there takes half of the
turn that would leave them in line, over a length that the designer gives. A fold cannot turn: then the other edge
takes all of it.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

import numpy as np

from draft.base.arrays import Floats
from draft.base.record import dataclass
from draft.garment.garment import Edge, Garment, Join, Piece, SidePart
from draft.geometry.apart import farthest
from draft.geometry.cubic import cross, reverse, turned
from draft.geometry.ends import end_directions
from draft.geometry.length import length, tangent_at
from draft.geometry.part import part_along
from draft.geometry.spline import hobby
from draft.seams.walk import SeamEnd, seam_ends

ENOUGH = 0.02  # degrees: less than the width of a pencil line a metre away
TELLING = 0.1  # degrees: 0.1 mm aside on 6 cm, about what a sharp pencil shows


@dataclass(frozen=True)
class Trueing:
    """What blending the outlines at one end of a join would do: how far each of the two edges moves, mm `(B,)`."""

    seam_end: SeamEnd
    moved: tuple[Floats, Floats]


@dataclass(frozen=True)
class Turned:
    """An edge redrawn at one of its ends, `piece.edge` in full.

    It leaves the seam, which runs there along unit vectors `along` `(B, 2)`, turned by `degrees` `(B,)` towards it,
    over `over` mm `(B,)`.
    """

    edge: str
    at_end: bool
    along: Floats
    degrees: Floats
    over: Floats

    def redrawn(self, path: Floats) -> Floats:
        """A path `(B, S, 4, 2)` so turned."""
        return _redrawn(path, self.at_end, self.along, self.degrees, self.over)


def trued(garment: Garment) -> tuple[Garment, tuple[Turned, ...]]:
    """The garment with the outlines blended at the ends of every join that asks for it, and the turns made for that."""
    turns: list[Turned] = []
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


def _blended(garment: Garment, seam_end: SeamEnd, over: Floats) -> tuple[Garment, list[Turned]]:
    if np.all(np.abs(seam_end.kink) < ENOUGH):
        return garment, []
    turned = [which for which in _sides(seam_end.join) if not _beside(garment, seam_end, which)[1].on_fold]
    # An edge sewn to its own mirror image is turned once, and so is whatever its image carries with it.
    share = seam_end.kink / (2 if len(turned) == len(_sides(seam_end.join)) else 1)
    turns = []
    for which in turned:
        piece, beside = _beside(garment, seam_end, which)
        turns.append(turn := _turn(garment, seam_end, which, share, over))
        garment = _with_edge(garment, piece, replace(beside, segments=turn.redrawn(beside.segments)))
    return garment, turns


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


def _turn(garment: Garment, seam_end: SeamEnd, which: int, degrees: Floats, over: Floats) -> Turned:
    """How the edge beside one side of the seam is to be turned."""
    piece, beside = _beside(garment, seam_end, which)
    side = _part(seam_end, which)
    seam_start = seam_end.at_start != side.reverse
    out, back = end_directions(piece.edge(side.edge).segments)
    along = out if seam_start else -back
    return Turned(f"{piece.name}.{beside.name}", seam_start, along, degrees, over)


def _redrawn(path: Floats, ends_there: bool, along: Floats, degrees: Floats, over: Floats) -> Floats:
    """A path whose last part (or first, unless `ends_there`) is redrawn to arrive turned towards the seam."""
    run = path if ends_there else reverse(path)
    whole = length(run)
    start = np.maximum(whole - over, whole / 2)
    away = -end_directions(run)[1]
    turn = np.radians(degrees) * np.where(cross(away, along) < 0, -1.0, 1.0)
    kept = part_along(run, np.zeros_like(start), start)
    knots = np.stack([kept[:, -1, 3], run[:, -1, 3]], axis=1)
    tail = hobby(knots, [tangent_at(run, start), -turned(away, turn)])
    redrawn = np.concatenate([kept, tail], axis=1)
    return redrawn if ends_there else reverse(redrawn)


def _with_edge(garment: Garment, piece: Piece, edge: Edge) -> Garment:
    edges = tuple(edge if other.name == edge.name else other for other in piece.edges)
    changed = replace(piece, edges=edges)
    return replace(garment, pieces=tuple(changed if p.name == piece.name else p for p in garment.pieces))
