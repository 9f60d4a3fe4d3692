"""What is redrawn where seams end, so that the outlines run on there from piece to piece in one line.

A fold cannot turn: beside one the seam ends where it did, and the other edge takes the whole turn. So does a seam of a
whole with its two halves, each edge half of the turn. Where joins that have an edge in common ask for different lines
there, it gets the one in the middle, and the others run on from that.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from functools import cached_property

import numpy as np

from draft.base.arrays import Floats
from draft.base.record import dataclass
from draft.garment.garment import Edge, Garment
from draft.geometry.cubic import turned, unit
from draft.geometry.ends import end_directions
from draft.geometry.length import length
from draft.seams.blending import Beside, blended, run_to_end, shortest
from draft.seams.ends_together import EdgeEnd, edge_end, seams_together, sides_of
from draft.seams.redrawing import Drawn, Redrawing, Turned
from draft.seams.sharing import both_sides
from draft.seams.walk import SeamEnd

ENOUGH = 0.02  # degrees: less than the width of a pencil line a metre away


def redrawn_at(garment: Garment, ends: Sequence[SeamEnd], over: Sequence[Floats]) -> list[Redrawing]:
    """What is redrawn at ends of seams that are trued together, each over so many mm `(B,)`."""
    if all(np.all(np.abs(end.kink) < ENOUGH) for end in ends):
        return []
    place = _Meeting(garment, tuple(ends), tuple(over))
    return place.in_place() if place.stays else place.moved_along()


def beside(garment: Garment, at: EdgeEnd) -> Edge:
    """The edge that meets a seam at its end."""
    return garment.piece(at.piece).edge(at.beside)


@dataclass(frozen=True)
class _Meeting:
    """The place on the body where edges meet that are trued together."""

    garment: Garment
    ends: tuple[SeamEnd, ...]
    over: tuple[Floats, ...]

    @cached_property
    def sides(self) -> dict[EdgeEnd, int]:
        return sides_of(self.ends)

    @property
    def stays(self) -> bool:
        """Whether the seams end where they did."""
        copies = [both_sides(self.garment, end.join) for end in self.ends]
        return bool(self._folds) or any(first.copies != second.copies for first, second in copies)

    @property
    def _folds(self) -> list[EdgeEnd]:
        return [at for at in self.sides if beside(self.garment, at).on_fold]

    def in_place(self) -> list[Redrawing]:
        """The edges turned about the ends of the seams, each by half; beside a fold by the whole."""
        changes: list[Redrawing] = []
        for at in [at for at in self.sides if at not in self._folds]:
            edge = self._run(at)
            way = -turned(-end_directions(edge.run)[1], np.radians(self._turn(at)) * edge.side)
            changes.append(self._turned(at, way, np.zeros_like(way)))
        return changes

    def _turn(self, at: EdgeEnd) -> Floats:
        """By how much an edge turns, degrees `(B,)`."""
        return self._angle(at) - (self._inside if self.sides[at] == 0 else 180.0 - self._inside)

    @cached_property
    def _inside(self) -> Floats:
        """The angle inside the pieces on side 0, degrees `(B,)`: as folds have it, or halfway to what is across."""
        held = [self._angle(at) if self.sides[at] == 0 else 180.0 - self._angle(at) for at in self._folds]
        both = [self._by_side(end, (end.first, end.second)) for end in self.ends]
        return np.asarray(np.mean(held or [(one + 180.0 - other) / 2 for one, other in both], axis=0))

    def _by_side(self, end: SeamEnd, both: tuple[Floats, Floats]) -> tuple[Floats, Floats]:
        """What belongs to the first and the second edge of a join, as it belongs to side 0 and side 1."""
        return both if self.sides[edge_end(end, 0)] == 0 else (both[1], both[0])

    def _angle(self, at: EdgeEnd) -> Floats:
        return next((end.first, end.second)[k] for end in self.ends for k in (0, 1) if edge_end(end, k) == at)

    def moved_along(self) -> list[Redrawing]:
        """All edges drawn as one line, and the seams as much shorter or longer on both sides.

        An edge sewn to its own mirror image is redrawn once.
        """
        by, ways = self._in_the_middle()
        for at in self.sides:
            by = shortest(self._seam(at).segments, by)
        return [change for at, side in self.sides.items() for change in self._moved(at, by, ways[side])]

    def _in_the_middle(self) -> tuple[Floats, tuple[Floats, Floats]]:
        """By how much the seams are longer `(B,)`, and how the edges arrive, `(B, 2)`, on side 0 and on side 1."""
        lines = [self._line(end, over) for end, over in zip(self.ends, self.over, strict=True)]
        if len(lines) == 1:
            return lines[0]
        by = np.mean([by for by, _ in lines], axis=0)
        first, second = (unit(np.mean([ways[side] for _, ways in lines], axis=0)) for side in (0, 1))
        return by, (first, second)

    def _line(self, end: SeamEnd, over: Floats) -> tuple[Floats, tuple[Floats, Floats]]:
        one, other = (self._run(edge_end(end, which)) for which in (0, 1))
        by, ways = blended(one, other, self._as_far(end, over))
        return np.where(np.abs(end.kink) < ENOUGH, 0.0, by), self._by_side(end, ways)

    def _as_far(self, end: SeamEnd, over: Floats) -> Floats:
        """Over how much, mm `(B,)`, so that it is as far on both edges, as an arc begins."""
        lengths = [length(self._run(edge_end(end, which)).run) for which in (0, 1)]
        return np.asarray(np.min([over, *(whole / 2 for whole in lengths)], axis=0))

    def _moved(self, at: EdgeEnd, by: Floats, seen: Floats) -> tuple[Redrawing, Redrawing]:
        seam = self._seam(at)
        drawn = Drawn(self._joins, f"{at.piece}.{at.edge}", at.at_end, by)
        after = replace(seam, segments=drawn.redrawn(seam.segments))
        way = self._run(at).back(seen, _outwards(after, at.at_end))
        return drawn, self._turned(at, way, _end(after, at.at_end) - _end(seam, at.at_end))

    def _turned(self, at: EdgeEnd, way: Floats, shift: Floats) -> Turned:
        """The edge beside one side of a seam, redrawn over the most that a join asks for there."""
        asked = [
            over if self.stays else self._as_far(end, over)
            for end, over in zip(self.ends, self.over, strict=True)
            if at in (edge_end(end, 0), edge_end(end, 1))
        ]
        return Turned(self._joins, f"{at.piece}.{at.beside}", not at.at_end, way, shift, np.max(asked, axis=0))

    @cached_property
    def _joins(self) -> str:
        """The joins that true these edges, of the whole garment: none of them does so alone."""
        asking = [join for join in self.garment.joins if join.trued_over is not None or join is self.ends[0].join]
        return seams_together(asking)[self.ends[0].join.name]

    def _run(self, at: EdgeEnd) -> Beside:
        edge = beside(self.garment, at)
        return Beside(run_to_end(edge.segments, not at.at_end), _outwards(self._seam(at), at.at_end))

    def _seam(self, at: EdgeEnd) -> Edge:
        return self.garment.piece(at.piece).edge(at.edge)


def _outwards(seam: Edge, at_end: bool) -> Floats:
    return end_directions(run_to_end(seam.segments, at_end))[1]


def _end(edge: Edge, at_end: bool) -> Floats:
    return edge.segments[:, -1, 3] if at_end else edge.segments[:, 0, 0]
