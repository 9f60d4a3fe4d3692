"""Outlines of pieces as rings of named runs, laid against one another and stitched into one outline."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from draft.base.arrays import Floats
from draft.base.record import dataclass
from draft.garment.garment import Piece
from draft.geometry.cubic import lines_through, norm, reverse
from draft.geometry.part import part_along
from draft.geometry.ruler import Ruler, chord_length
from draft.paper.flat.similar import Similar, onto

_LIKE = 0.02
"""Two sides of a seam whose lengths differ by no more than this share lie on one another from end to end."""


@dataclass(frozen=True)
class Run:
    """An edge of a piece where it lies, a path `(n, 4, 2)` in mm; `over` where it runs the other way than drafted."""

    piece: str
    edge: str
    path: Floats
    fold: bool = False
    over: bool = False

    @property
    def back(self) -> Run:
        """The same, the other way."""
        return Run(self.piece, self.edge, reverse(self.path), self.fold, not self.over)

    def moved(self, move: Similar) -> Run:
        """The same, laid elsewhere."""
        return Run(self.piece, self.edge, move.along(self.path), self.fold, self.over)


def ring_of(piece: Piece, body: int) -> list[Run]:
    """The edges of a piece in one size, in their order."""
    return [Run(piece.name, edge.name, edge.segments[body], edge.on_fold) for edge in piece.edges]


def middle_of(ring: Sequence[Run]) -> Floats:
    """The middle of a ring's corners `(2,)`."""
    return np.asarray(np.concatenate([run.path[:, 0] for run in ring]).mean(axis=0))


def after(ring: Sequence[Run], edge: str) -> tuple[Run, list[Run]]:
    """The run of an edge, and the others in the order in which they follow it."""
    at = next(k for k, run in enumerate(ring) if run.edge == edge)
    return ring[at], [*ring[at + 1 :], *ring[:at]]


def in_place_of(ring: Sequence[Run], edge: str, others: Sequence[Run]) -> list[Run]:
    """The ring with others, that follow one another between the ends of an edge, in its stead."""
    own, rest = after(ring, edge)
    away = norm(others[0].path[0, 0] - own.path[0, 0]) > norm(others[-1].path[-1, 3] - own.path[0, 0])
    return [*([run.back for run in reversed(others)] if away else others), *rest]


def against(own: Floats, base: Floats, other: Floats, inside: Floats) -> Similar:
    """The move that lays an edge `(n, 4, 2)` of another piece on an own one from end to end, the other piece beyond it.

    `base` and `inside` are the middles `(2,)` of both pieces.
    """
    return _beyond(own, base, inside, (other[0, 0], other[-1, 3], own[0, 0], own[-1, 3]))


def above(own: Floats, base: Floats, other: Floats, inside: Floats, ways: tuple[Floats, Floats]) -> Similar:
    """The move that lays the start of another piece's edge on that of an own one, and one way `(2,)` on another."""
    return _beyond(own, base, inside, (other[0, 0], other[0, 0] + ways[0], own[0, 0], own[0, 0] + ways[1]))


def _beyond(own: Floats, base: Floats, inside: Floats, ends: tuple[Floats, Floats, Floats, Floats]) -> Similar:
    one, two = onto(*ends, over=False), onto(*ends, over=True)
    return one if beyond(own, base, one.points(inside)) else two


def alike(one: Floats, two: Floats) -> bool:
    """Whether two edges `(n, 4, 2)` are so nearly of one length that they lie on one another from end to end."""
    return abs(chord_length(one) / chord_length(two) - 1.0) < _LIKE


def beyond(line: Floats, base: Floats, point: Floats) -> bool:
    """Whether a line `(n, 4, 2)` lies between two points."""
    way = line[-1, 3] - line[0, 0]
    sides = [float(way[0] * (at - line[0, 0])[1] - way[1] * (at - line[0, 0])[0]) for at in (base, point)]
    return sides[0] * sides[1] < 0


def drawn_in(ring: Sequence[Run], own: Floats, target: Floats, depth: float) -> list[Run]:
    """The ring with an edge `(n, 4, 2)` that is drawn up: its end goes to `target`, less of it nearer to its start.

    What lies `depth` mm from the edge and more stays where it is.
    """
    start, end = own[0, 0], own[-1, 3]
    way, pull = end - start, target - end
    across = np.array([-way[1], way[0]]) / norm(way)

    def moved(points: Floats) -> Floats:
        share = np.clip((points - start) @ way / (way @ way), 0.0, 1.0)
        less = np.clip(1.0 - np.abs((points - start) @ across) / depth, 0.0, 1.0)
        return np.asarray(points + (share * less)[..., None] * pull)

    return [Run(run.piece, run.edge, moved(run.path), run.fold, run.over) for run in ring]


def cut_off(run: Run, at: Floats, along: Floats, from_start: bool) -> Run:
    """A run up to the line through a point `(2,)` along a unit vector, or beyond; all of it if it stays clear."""
    ruler = Ruler(run.path)

    def off(place: float) -> float:
        point = ruler.place(place)[0] - at
        return float(along[0] * point[1] - along[1] * point[0])

    low, high = 0.0, ruler.length
    if off(low) * off(high) >= 0:
        return run
    rising = off(high) > 0
    for _ in range(40):
        half = (low + high) / 2
        low, high = (low, half) if (off(half) > 0) == rising else (half, high)
    keep = (0.0, low) if from_start else (low, ruler.length)
    found = part_along(run.path[None], np.array([keep[0]]), np.array([keep[1]]))[0]
    return Run(run.piece, run.edge, found[np.ptp(found, axis=1).max(axis=1) > 1e-6], run.fold, run.over)


def straight(run_from: Run, run_to: Run) -> Floats:
    """The line `(1, 4, 2)` from where one run ends to where another begins."""
    return lines_through([run_from.path[-1, 3], run_to.path[0, 0]])
