"""A finished lay: where every piece lies, on the table as a maker sees it and on the opened cloth as it is cut."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Literal

import numpy as np

from draft.base.arrays import Floats
from draft.cloth.parts import Part

Kind = Literal["open", "one fold", "two folds"]


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
class Spot:
    """One place on the table where a piece is cut. `move` takes the part's ring to the table."""

    part: Part
    strip: int
    move: Move
    on_fold: bool = False

    @property
    def ring(self) -> Floats:
        """The whole outline on the table; half of it lies beyond the fold if the piece lies on one."""
        return self.move.points(self.part.ring)

    def shifted(self, across: float) -> Spot:
        """The same place further across the table."""
        return replace(self, move=self.move.then(Move(1, 1, across, 0.0)))


@dataclass(frozen=True)
class Copy:
    """One piece of the opened cloth. `spare` is one more than is needed."""

    part: Part
    move: Move
    spare: bool = False

    @property
    def ring(self) -> Floats:
        """Its outline on the opened cloth."""
        return self.move.points(self.part.ring)


@dataclass(frozen=True)
class Layout:
    """A lay: `width` and `length` of cloth in mm, all of it opened out."""

    kind: Kind
    width: float
    length: float
    strips: tuple[Strip, ...]
    spots: tuple[Spot, ...]
    stopped: bool = False
    """Whether the search was stopped before it had tried what it was asked to."""

    @property
    def used(self) -> float:
        """The share of the cloth that becomes garment."""
        return sum(copy.part.area for copy in self.copies() if not copy.spare) / (self.width * self.length)

    def copies(self) -> tuple[Copy, ...]:
        """Every piece as it lies on the opened cloth, the layer on the table first."""
        found: list[Copy] = []
        for spot in self.spots:
            moves = _opened(spot, self.strips[spot.strip])
            found += [Copy(spot.part, move) for move in moves]
        return _with_spares(found)


def _opened(spot: Spot, strip: Strip) -> list[Move]:
    """Where the cuts through a place on the table come to lie on the opened cloth."""
    if strip.fold is None:
        return [spot.move]
    edge = strip.left + (strip.width if strip.fold_on_right else 0.0)
    below = spot.move.then(Move(1, 1, strip.fold - edge, 0.0))
    return [below] if spot.on_fold else [below, below.then(Move(-1, 1, 2 * strip.fold, 0.0))]


def _with_spares(copies: list[Copy]) -> tuple[Copy, ...]:
    """Marks the copies that are not needed: of each hand, those beyond what the part asks for."""
    wanted: dict[tuple[int, str, bool], int] = {}
    for part in {(c.part.number, c.part.size): c.part for c in copies}.values():
        wanted[part.number, part.size, False] = part.count - part.mirrored
        wanted[part.number, part.size, True] = part.mirrored
    found = []
    for copy in copies:
        other_hand = copy.move.face_down and copy.part.fold is None
        key = (copy.part.number, copy.part.size, other_hand)
        wanted[key] -= 1
        found.append(Copy(copy.part, copy.move, spare=wanted[key] < 0))
    return tuple(found)
