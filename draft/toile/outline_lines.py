"""A line of a panel's outline, and how it is divided: both sides of a seam are cut at the same shares of length."""

from __future__ import annotations

import numpy as np

from draft.base.arrays import Floats
from draft.geometry.flatten import flatten

_WITHIN = 0.02  # mm that a chord may lie off the curve


class OutlineLine:
    """A polyline `(m, 2)` in mm, with the shares of its length at which the mesh has vertices once they are settled."""

    def __init__(self, points: Floats) -> None:
        self.points = points
        self._ends = np.concatenate([[0.0], np.cumsum(np.hypot(*np.diff(points, axis=0).T))])
        self.cuts: Floats | None = None

    @staticmethod
    def of(segments: Floats) -> OutlineLine:
        """One body's edge `(S, 4, 2)`."""
        return OutlineLine(flatten(segments, _WITHIN))

    @property
    def length(self) -> float:
        """Its length, mm."""
        return float(self._ends[-1])

    def at(self, shares: Floats) -> Floats:
        """Points `(n, 2)` at shares of the length."""
        along = np.asarray(shares) * self.length
        return np.stack([np.interp(along, self._ends, self.points[:, k]) for k in range(2)], axis=-1)

    def between(self, start: float, end: float) -> OutlineLine:
        """The part from one distance in mm to another."""
        inside = self._ends[(self._ends > start + 1e-6) & (self._ends < end - 1e-6)]
        along = np.concatenate([[start], inside, [end]])
        return OutlineLine(self.at(along / max(self.length, 1e-9)))

    def divided(self, edge_length: float) -> None:
        """Cuts it evenly into edges of about that length, where no seam has settled that."""
        if self.cuts is None:
            self.cuts = np.linspace(0.0, 1.0, max(1, round(self.length / edge_length)) + 1)

    @property
    def vertices(self) -> Floats:
        """The points `(n, 2)` at its cuts."""
        assert self.cuts is not None
        return self.at(self.cuts)
