"""Moving lines so that one part comes to lie on another: turned, moved, turned over, a little larger or smaller."""

from __future__ import annotations

import numpy as np

from draft.base.arrays import Floats
from draft.base.record import dataclass


@dataclass(frozen=True)
class Similar:
    """Points as complex numbers z, turned over first if `over`: turn * z + move."""

    turn: complex = 1.0
    move: complex = 0.0
    over: bool = False

    def points(self, points: Floats) -> Floats:
        """Where points `(..., 2)` come to lie."""
        z = points[..., 0] + 1j * points[..., 1]
        moved = self.turn * (np.conj(z) if self.over else z) + self.move
        return np.stack([moved.real, moved.imag], axis=-1)

    def along(self, segments: Floats) -> Floats:
        """Where a path `(n, 4, 2)` comes to lie."""
        return self.points(segments)

    def then(self, after: Similar) -> Similar:
        """This move, and another after it."""
        turn, move = (np.conj(self.turn), np.conj(self.move)) if after.over else (self.turn, self.move)
        return Similar(complex(after.turn * turn), complex(after.turn * move + after.move), self.over != after.over)


MIRROR = Similar(-1.0, 0.0, over=True)
"""The other half of a garment: left for right."""


def onto(a: Floats, b: Floats, to_a: Floats, to_b: Floats, over: bool) -> Similar:
    """The move that brings the points a and b `(2,)` onto two others; nothing moves if a and b are one."""
    first, second = complex(*a), complex(*b)
    if over:
        first, second = first.conjugate(), second.conjugate()
    if abs(second - first) < 1e-9:
        return Similar(1.0, complex(*to_a) - first, over)
    turn = (complex(*to_b) - complex(*to_a)) / (second - first)
    return Similar(turn, complex(*to_a) - turn * first, over)
