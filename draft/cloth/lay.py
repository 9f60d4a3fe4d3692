"""A finished lay: where every piece lies, on the table as a maker sees it and on the opened cloth as it is cut."""

from __future__ import annotations

from dataclasses import replace
from typing import Literal

import numpy as np

from draft.base.arrays import Floats
from draft.base.record import dataclass
from draft.cloth.cut_pieces import CutPiece

Folding = Literal["open", "one fold", "two folds"]


@dataclass(frozen=True)
class Move:
    """How a ring comes to lie: mirrored (-1) or not (1) across and along the grain, then moved, mm. Never tilted."""

    across: int
    along: int
    dx: float
    dy: float

    def points(self, points: Floats) -> Floats:
        """Where points `(..., 2)` come to lie."""
        return np.asarray(points * np.array([self.across, self.along], dtype=float) + np.array([self.dx, self.dy]))

    def then(self, other: Move) -> Move:
        """This move, and then another."""
        dx, dy = other.points(np.array([self.dx, self.dy]))
        return Move(self.across * other.across, self.along * other.along, float(dx), float(dy))

    @property
    def face_down(self) -> bool:
        """Whether the piece lies with its printed side down."""
        return self.across * self.along < 0

    @property
    def turned(self) -> bool:
        """Whether its upper end points down the cloth."""
        return self.along < 0


@dataclass(frozen=True)
class Strip:
    """A part of the table: single cloth, or cloth doubled by a fold along its left or its right side.

    `left` and `width` are on the table. `fold` is where that fold lies across the opened cloth.
    """

    left: float
    width: float
    fold: float | None = None
    fold_on_right: bool = False


@dataclass(frozen=True)
class Placement:
    """One place on the table where a piece is cut. `move` takes the cut piece's ring to the table."""

    cut_piece: CutPiece
    strip: int
    move: Move
    on_fold: bool = False

    @property
    def ring(self) -> Floats:
        """The whole outline `(n, 2)` on the table, mm; half of it lies beyond the fold if the piece lies on one."""
        return self.move.points(self.cut_piece.ring)

    def shifted(self, across: float) -> Placement:
        """The same place further across the table."""
        return replace(self, move=self.move.then(Move(1, 1, across, 0.0)))


@dataclass(frozen=True)
class Copy:
    """One piece of the opened cloth. `spare` is one more than is needed."""

    cut_piece: CutPiece
    move: Move
    spare: bool = False

    @property
    def ring(self) -> Floats:
        """Its outline `(n, 2)` on the opened cloth, mm."""
        return self.move.points(self.cut_piece.ring)


@dataclass(frozen=True)
class Lay:
    """A lay: `width` and `length` of cloth in mm, all of it opened out."""

    folding: Folding
    width: float
    length: float
    strips: tuple[Strip, ...]
    placements: tuple[Placement, ...]
    stopped: bool = False
    """Whether the search was stopped before it had tried what it was asked to."""

    @property
    def used(self) -> float:
        """The share of the cloth that becomes garment."""
        return sum(copy.cut_piece.area for copy in self.copies() if not copy.spare) / (self.width * self.length)

    def copies(self) -> tuple[Copy, ...]:
        """Every piece as it lies on the opened cloth, the layer on the table first."""
        found: list[Copy] = []
        for placement in self.placements:
            moves = _opened(placement, self.strips[placement.strip])
            found += [Copy(placement.cut_piece, move) for move in moves]
        return _with_spares(found)


def _opened(placement: Placement, strip: Strip) -> list[Move]:
    """Where the cuts through a place on the table come to lie on the opened cloth."""
    if strip.fold is None:
        return [placement.move]
    edge = strip.left + (strip.width if strip.fold_on_right else 0.0)
    below = placement.move.then(Move(1, 1, strip.fold - edge, 0.0))
    return [below] if placement.on_fold else [below, below.then(Move(-1, 1, 2 * strip.fold, 0.0))]


def _with_spares(copies: list[Copy]) -> tuple[Copy, ...]:
    """The copies that are not needed are spare: of each hand, those beyond what the cut piece asks for."""
    wanted: dict[tuple[int, str, bool], int] = {}
    for cut_piece in {(c.cut_piece.number, c.cut_piece.size): c.cut_piece for c in copies}.values():
        wanted[cut_piece.number, cut_piece.size, False] = cut_piece.count - cut_piece.mirrored
        wanted[cut_piece.number, cut_piece.size, True] = cut_piece.mirrored
    found = []
    for copy in copies:
        other_hand = copy.move.face_down and copy.cut_piece.fold is None
        key = (copy.cut_piece.number, copy.cut_piece.size, other_hand)
        wanted[key] -= 1
        found.append(Copy(copy.cut_piece, copy.move, spare=wanted[key] < 0))
    return tuple(found)
