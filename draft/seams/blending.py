"""One line across the end of a seam, through two edges that meet there at an angle.

The two pieces are laid along one another, the seam's end in the middle. Where the edges make a peak it is shaved, where
they make a hollow it is filled: one curve leads from the one edge to the other, bending one way, and the seam ends
where it crosses it.
"""

from __future__ import annotations

import numpy as np

from draft.base.arrays import Floats
from draft.base.record import dataclass
from draft.geometry.crossing import edge_meets_line
from draft.geometry.cubic import cross, dot, reverse, turned
from draft.geometry.ends import end_directions
from draft.geometry.length import length, point_at, tangent_at
from draft.geometry.spline import hobby
from draft.seams.redrawing import blend_start


@dataclass(frozen=True)
class Beside:
    """An edge that meets a seam at its end, run towards it: `(B, S, 4, 2)`.

    `out` `(B, 2)` is the way in which the seam would go on beyond its end.
    """

    run: Floats
    out: Floats

    @property
    def side(self) -> Floats:
        """1 where the edge lies on the left of the seam as that goes out, -1 where on its right: `(B,)`."""
        return np.where(cross(self.out, -end_directions(self.run)[1]) < 0, -1.0, 1.0)

    def seen(self, vector: Floats) -> Floats:
        """A vector `(B, 2)` as along the seam and away from it on the edge's side."""
        return np.stack([dot(vector, self.out), self.side * cross(self.out, vector)], axis=-1)

    def back(self, seen: Floats, out: Floats) -> Floats:
        """The vector `(B, 2)` that is seen so along a seam that goes out along `out` `(B, 2)`."""
        square = turned(out, np.full(len(out), np.pi / 2))
        return seen[:, :1] * out + (self.side * seen[:, 1])[:, None] * square

    def begun(self, over: Floats) -> tuple[Floats, Floats]:
        """Where a blend over so many mm `(B,)` begins, seen from the seam's end, and which way the edge goes."""
        start = blend_start(self.run, over)
        return self.seen(point_at(self.run, start) - self.run[:, -1, 3]), self.seen(tangent_at(self.run, start))


def blended(one: Beside, other: Beside, over: Floats) -> tuple[Floats, tuple[Floats, Floats]]:
    """By how much the seam is longer once both edges are blended over `over` mm `(B,)`, and how they arrive there.

    Each arrives along a unit vector `(B, 2)`, as it is seen from its own side of the seam.
    """
    (start, ahead), (end, back) = one.begun(over), other.begun(over)
    mirror = np.array([1.0, -1.0])
    drawn = hobby(np.stack([start, end * mirror], axis=1), [ahead, -back * mirror])
    met, at, _ = edge_meets_line(drawn, np.zeros_like(start), np.broadcast_to([1.0, 0.0], start.shape))
    way = tangent_at(drawn, at)
    return met[:, 0], (way, -way * mirror)


def shortest(seam: Floats, by: Floats) -> Floats:
    """By how much a seam `(B, S, 4, 2)` is longer, mm `(B,)`, or so much shorter that half of it is left."""
    return np.maximum(by, -length(seam) / 2)


def run_to_end(path: Floats, at_end: bool) -> Floats:
    """A path `(B, S, 4, 2)` run towards one of its ends."""
    return path if at_end else reverse(path)
