"""Trueing: where a seam ends, the outlines of the two pieces are blended into one smooth line.

A peak is shaved and a hollow is filled, over a length that the designer gives, and the seam becomes shorter or longer
by as much on both pieces.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace

import numpy as np

from draft.base.arrays import Floats
from draft.base.record import dataclass
from draft.garment.garment import Edge, Garment, Piece
from draft.geometry.apart import farthest
from draft.geometry.length import length
from draft.seams.ends_together import EdgeEnd, edge_end, ends_together, in_turn
from draft.seams.parting import of_whole
from draft.seams.redrawing import Redrawing
from draft.seams.running_on import beside, redrawn_at
from draft.seams.walk import SeamEnd, seam_ends

TELLING = 0.1  # degrees: 0.1 mm aside on 6 cm, about what a sharp pencil shows


@dataclass(frozen=True)
class Trueing:
    """What blending the outlines at one end of a join would do: how far each of the two edges moves, mm `(B,)`."""

    seam_end: SeamEnd
    moved: tuple[Floats, Floats]


def trued(garment: Garment) -> tuple[Garment, tuple[Redrawing, ...]]:
    """The garment with the outlines blended at the ends of every join that asks for it, and what was redrawn for it."""
    turns: list[Redrawing] = []
    for asked in _asked(garment):
        joins = {name for name, _ in asked}
        ends = [end for end in seam_ends(garment, joins) if (end.join.name, end.at_start) in asked]
        garment, more = _blended(garment, ends, [_over(end) for end in ends])
        turns += more
    return garment, tuple(of_whole(garment, change) for change in turns)


def to_true(garment: Garment, over: float) -> Iterable[Trueing]:
    """The ends of joins where the outlines do not run on, and what blending them over so many mm would move."""
    for ends in ends_together(seam_ends(garment)):
        told = [end for end in ends if np.any(np.abs(end.kink) > TELLING)]
        after = _blended(garment, ends, [np.full(len(end.kink), over) for end in ends])[0] if told else garment
        for end in told:
            first, second = (_moved(garment, after, edge_end(end, which)) for which in (0, 1))
            yield Trueing(end, (first, second))


def _asked(garment: Garment) -> list[set[tuple[str, bool]]]:
    """The ends to be trued, those of an edge together: the names of their joins, and whether those start there."""
    found = in_turn(seam_ends(garment, {join.name for join in garment.joins if join.trued_over is not None}))
    return [{(end.join.name, end.at_start) for end in ends} for ends in ends_together(found)]


def _over(end: SeamEnd) -> Floats:
    return np.broadcast_to(np.asarray(end.join.trued_over), end.kink.shape)


def _blended(garment: Garment, ends: Sequence[SeamEnd], over: Sequence[Floats]) -> tuple[Garment, list[Redrawing]]:
    changes = redrawn_at(garment, ends, over)
    for change in changes:
        garment = _with_change(garment, change)
    return garment, changes


def _moved(before: Garment, after: Garment, at: EdgeEnd) -> Floats:
    return farthest(beside(before, at).segments, beside(after, at).segments)[0]


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
