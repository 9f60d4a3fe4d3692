"""Places along one body's path by its chords: quick, and for what is drawn along a line, not for what is sewn.

Seams are matched and notches are set by `draft.geometry.length`, which is exact.
"""

from __future__ import annotations

import numpy as np

from draft.base.arrays import Floats
from draft.geometry.cubic import derivative, evenly, norm, point, unit

CHORDS = 64  # to each segment: a notch within 0.01 mm


class Ruler:
    """Places along a path of one body `(S, 4, 2)`, by the distance in mm from its first point."""

    def __init__(self, path: Floats) -> None:
        along = evenly(path, CHORDS).reshape(-1, 2)
        self._points = np.concatenate([along, path[-1:, 3]])
        self._ends = np.concatenate([[0.0], np.cumsum(norm(np.diff(self._points, axis=0)))])
        self._path = path

    @property
    def length(self) -> float:
        """The length of all chords, mm."""
        return float(self._ends[-1])

    def place(self, at: float) -> tuple[Floats, Floats]:
        """The point `(2,)` at distance `at` and the unit direction `(2,)` there, on the curve itself."""
        points, directions = self.place_each(np.array([at], dtype=float))
        return points[0], directions[0]

    def place_each(self, at: Floats) -> tuple[Floats, Floats]:
        """Points `(N, 2)` and unit directions `(N, 2)` as `place` has them, at distances `(N,)`."""
        index = np.clip(np.searchsorted(self._ends, at, side="right") - 1, 0, len(self._ends) - 2)
        step = self._ends[index + 1] - self._ends[index]
        share = np.where(step > 0, (at - self._ends[index]) / np.where(step > 0, step, 1.0), 0.0)
        segment, before = np.divmod(index, CHORDS)
        u = np.clip((before + share) / CHORDS, 0.0, 1.0)
        some = self._path[segment]
        return point(some, u), unit(derivative(some, u))

    def places(self, at: Floats) -> tuple[Floats, Floats]:
        """Points `(N, 2)` and unit directions `(N, 2)` at distances `(N,)`, on the chords: for words, not cuts."""
        index = np.clip(np.searchsorted(self._ends, at, side="right") - 1, 0, len(self._ends) - 2)
        chords = self._points[index + 1] - self._points[index]
        points = np.stack([np.interp(at, self._ends, self._points[:, axis]) for axis in (0, 1)], axis=-1)
        return points, unit(chords)


def chord_length(path: Floats) -> float:
    """The length in mm of one body's path `(S, 4, 2)`, as its ruler has it."""
    return Ruler(path).length
