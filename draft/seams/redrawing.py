"""What trueing does to the edges at a corner, kept as records, so that a plan can do it again to its own edges."""

from __future__ import annotations

from collections.abc import Callable
from typing import TypeAlias

import numpy as np

from draft.base.arrays import Floats
from draft.base.record import dataclass
from draft.geometry.cubic import line, reverse
from draft.geometry.ends import end_directions
from draft.geometry.length import length, tangent_at
from draft.geometry.part import part_along
from draft.geometry.spline import hobby


@dataclass(frozen=True)
class Turned:
    """An edge redrawn at one of its ends for the sake of a join, `piece.edge` in full.

    Over `over` mm `(B,)` it is drawn anew to a corner that has moved by `shift` `(B, 2)`, where it arrives along unit
    vectors `way` `(B, 2)`.
    """

    join: str
    edge: str
    at_end: bool
    way: Floats
    shift: Floats
    over: Floats

    def redrawn(self, path: Floats) -> Floats:
        """A path `(B, S, 4, 2)` so turned."""
        return _at_its_end(path, self.at_end, self._blended)

    def _blended(self, run: Floats) -> Floats:
        start = blend_start(run, self.over)
        kept = part_along(run, np.zeros_like(start), start)
        knots = np.stack([kept[:, -1, 3], run[:, -1, 3] + self.shift], axis=1)
        tail = hobby(knots, [tangent_at(run, start), self.way])
        return np.concatenate([kept, tail], axis=1)


@dataclass(frozen=True)
class Drawn:
    """An edge drawn out straight at one of its ends by so many mm `(B,)`, or cut off there where they are negative."""

    join: str
    edge: str
    at_end: bool
    by: Floats

    def redrawn(self, path: Floats) -> Floats:
        """A path `(B, S, 4, 2)` so lengthened or shortened."""
        return _at_its_end(path, self.at_end, self._lengthened)

    def _lengthened(self, run: Floats) -> Floats:
        drawn = part_along(run, np.zeros_like(self.by), length(run) + np.minimum(self.by, 0.0))
        if np.any(self.by > 0):
            end = drawn[:, -1, 3]
            further = end + end_directions(run)[1] * np.maximum(self.by, 0.0)[:, None]
            drawn = np.concatenate([drawn, line(end, further)[:, None]], axis=1)
        return drawn


Redrawing: TypeAlias = Turned | Drawn


def _at_its_end(path: Floats, at_end: bool, redrawn: Callable[[Floats], Floats]) -> Floats:
    """A path redrawn at one of its ends, by what redraws a path at the end that it runs to."""
    return redrawn(path) if at_end else reverse(redrawn(reverse(path)))


def blend_start(run: Floats, over: Floats) -> Floats:
    """How far along an edge, mm `(B,)`, what is drawn anew begins: `over` mm before its end, or halfway at least."""
    whole = length(run)
    return np.maximum(whole - over, whole / 2)
