"""Places along one body's path by its chords: quick, and for what is drawn along a line, not for what is sewn.

Seams are matched and notches are set by `draft.geometry.length`, which is exact.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import numpy as np

from draft.base.arrays import Floats, Ints
from draft.geometry.cubic import derivative, evenly, norm, point, unit

CHORDS = 64  # to each segment: a notch within 0.01 mm
_JUST = 1e-6  # mm: where two chords meet the second holds, whatever a machine rounds off


class Ruler:
    """Places along a path of one body `(S, 4, 2)`, by the distance in mm from its first point."""

    def __init__(self, path: Floats) -> None:
        points = np.concatenate([evenly(path, CHORDS).reshape(-1, 2), path[-1:, 3]])
        self._set(path, points, norm(np.diff(points, axis=0)))

    def _set(self, path: Floats, points: Floats, chords: Floats) -> None:
        self._path, self._points = path, points
        self._ends = np.zeros(len(points))
        np.cumsum(chords, out=self._ends[1:])

    @classmethod
    def each(cls, paths: Sequence[Floats]) -> list[Ruler]:
        """A ruler for each of these paths `(S, 4, 2)`: quicker than one by one."""
        if not paths:
            return []
        sizes = np.array([len(path) for path in paths])
        ends = CHORDS * np.cumsum(sizes)
        along = evenly(np.concatenate(paths), CHORDS).reshape(-1, 2)
        points = np.insert(along, ends, [path[-1, 3] for path in paths], axis=0)
        chords, found = norm(np.diff(points, axis=0)), []
        starts = (ends - CHORDS * sizes + np.arange(len(paths))).tolist()
        for path, start, end in zip(paths, starts, (ends + np.arange(len(paths))).tolist(), strict=True):
            ruler = cls.__new__(cls)
            ruler._set(path, points[start : end + 1], chords[start:end])
            found.append(ruler)
        return found

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
        return places_on([self], [at])

    def places(self, at: Floats) -> tuple[Floats, Floats]:
        """Points `(N, 2)` and unit directions `(N, 2)` at distances `(N,)`, on the chords: for words, not cuts."""
        return places_along([self], [at])


def places_on(rulers: Sequence[Ruler], at: Sequence[Floats]) -> tuple[Floats, Floats]:
    """As `Ruler.place_each` has them at distances `(n,)` along each ruler in turn: points and directions `(N, 2)`."""
    index, of = _chords(rulers, at)
    sizes = np.array([len(ruler._path) for ruler in rulers])
    ends, paths = _joined([ruler._ends for ruler in rulers]), _joined([ruler._path for ruler in rulers])
    first = (CHORDS * (np.cumsum(sizes) - sizes) + np.arange(len(sizes)))[of]  # ruler by ruler a point more than chords
    begin = ends[first + index]
    step = ends[first + index + 1] - begin
    share = np.where(step > 0, (_joined(at) - begin) / np.where(step > 0, step, 1.0), 0.0)
    segment, before = np.divmod(index, CHORDS)
    some = paths[(np.cumsum(sizes) - sizes)[of] + segment]
    u = np.minimum(np.maximum((before + share) / CHORDS, 0.0), 1.0)
    return point(some, u), unit(derivative(some, u))


def places_along(rulers: Sequence[Ruler], at: Sequence[Floats]) -> tuple[Floats, Floats]:
    """As `Ruler.places` has them at distances `(n,)` along each ruler in turn: points and directions `(N, 2)`."""
    index, of = _chords(rulers, [some + _JUST for some in at])
    sizes = np.array([len(ruler._ends) for ruler in rulers])
    begin = (np.cumsum(sizes) - sizes)[of] + index
    every, ends = _joined([ruler._points for ruler in rulers]), _joined([ruler._ends for ruler in rulers])
    return _interpolated(_joined(at), begin, every, ends), unit(every[begin + 1] - every[begin])


def _interpolated(at: Floats, begin: Ints, points: Floats, ends: Floats) -> Floats:
    """Points `(N, 2)` on chords that begin at these of all points; no farther than to either end of one."""
    first, last, low = ends[begin], ends[begin + 1], points[begin]
    long = np.where(last > first, last - first, 1.0)
    slopes = (points[begin + 1] - low) / long[:, None]
    return np.asarray(slopes * (np.minimum(np.maximum(at, first), last) - first)[:, None] + low)


def _chords(rulers: Sequence[Ruler], at: Sequence[Floats]) -> tuple[Ints, Ints]:
    """Which of its ruler's chords each distance lies on, beyond an end the last, and which ruler that is: `(N,)`."""
    index = _joined([ruler._ends.searchsorted(some, side="right") for ruler, some in zip(rulers, at, strict=True)]) - 1
    of = np.repeat(np.arange(len(rulers)), [len(some) for some in at])
    last = np.array([len(ruler._ends) - 2 for ruler in rulers])[of]
    return np.asarray(np.minimum(np.maximum(index, 0), last)), of


def _joined(parts: Sequence[Any]) -> Any:
    return parts[0] if len(parts) == 1 else np.concatenate(parts)


def chord_length(path: Floats) -> float:
    """The length in mm of one body's path `(S, 4, 2)`, as its ruler has it."""
    return Ruler(path).length
