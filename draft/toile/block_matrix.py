"""The second derivative of a cloth's energy as a sparse matrix of 3 x 3 blocks, and what it makes of a step.

What is the same for every axis, the bending, is kept apart as plain numbers: it reaches twice as far as the rest.
"""

from __future__ import annotations

import numpy as np

from draft.base.arrays import Floats, Ints
from draft.base.record import dataclass
from draft.toile.curvature_energy import Bending
from draft.toile.summing import summed


@dataclass(frozen=True, eq=False)
class BlockPattern:
    """Where blocks lie: row by row, each row's own first, `columns` `(b,)` with the first of each row at `rows` `(v,)`.

    `slots` `(t, 3, 3)` says which block each corner of a triangle shares with each. `bent_columns` and `bent_rows` are
    those of the bending, whose numbers are `bent` `(c,)` N/mm.
    """

    rows: Ints
    columns: Ints
    slots: Ints
    bent_rows: Ints
    bent_columns: Ints
    bent: Floats
    bent_own: Floats
    """The bending's own number of each row, `(v,)`."""
    own: Ints
    """Which blocks lie on the diagonal, `(v,)`."""
    order: Ints
    """The rows of three of all blocks as a product takes them, `(3b,)`."""
    drawn: Ints
    """Which coordinate each of their numbers is multiplied by, `(9b,)`; those of each row begin at `starts` `(3v,)`."""
    starts: Ints

    def bent_by(self, x: Floats) -> Floats:
        """What the bending makes of positions or a step `(v, 3)`."""
        drawn = self.bent * x.T.take(self.bent_columns, axis=1)
        return np.add.reduceat(drawn, self.bent_rows, axis=1).T


def pattern_of(triangles: Ints, bending: Bending, count: int) -> BlockPattern:
    """The pattern of triangles `(t, 3)` between so many vertices."""
    keys = (triangles[:, :, None] * count + triangles[:, None, :]).ravel()
    known, slots = np.unique(keys, return_inverse=True)
    six = bending.vertices
    bent_keys = (six[:, :, None] * count + six[:, None, :]).ravel()
    own = np.arange(count) * (count + 1)
    bent_known, bent_slots = np.unique(np.concatenate([bent_keys, own]), return_inverse=True)
    bent = summed(bent_slots[: len(bent_keys)], bending.matrices().ravel(), len(bent_known))
    rows, columns = np.searchsorted(known // count, np.arange(count)), known % count
    sizes = np.diff(np.append(rows, len(columns)))
    row = np.repeat(np.arange(count), sizes)
    order = np.argsort(3 * row[:, None] + np.arange(3), axis=None, kind="stable")
    drawn = (3 * columns[:, None, None] + np.arange(3)).repeat(3, axis=1).reshape(-1, 3)[order].ravel()
    return BlockPattern(
        rows,
        columns,
        slots.reshape(-1, 3, 3),
        np.searchsorted(bent_known // count, np.arange(count)),
        bent_known % count,
        bent,
        bent[bent_slots[len(bent_keys) :]],
        np.flatnonzero(row == columns),
        order,
        drawn,
        np.concatenate([[0], np.cumsum(np.repeat(3 * sizes, 3))])[:-1],
    )


class BlockMatrix:
    """A matrix of that pattern: blocks of triangles `(t, 3, 3, 3, 3)`, and blocks of vertices `(v, 3, 3)` besides."""

    def __init__(self, pattern: BlockPattern, of_triangles: Floats, of_vertices: Floats) -> None:
        self._pattern = pattern
        slots = pattern.slots.ravel()
        count = len(pattern.columns)
        flat = of_triangles.reshape(-1, 9)
        self.blocks = np.stack([summed(slots, flat[:, k], count) for k in range(9)], axis=1).reshape(-1, 3, 3)
        """All but the bending, `(b, 3, 3)`."""
        self.blocks[pattern.own] += of_vertices
        self._data = self.blocks.reshape(-1, 3)[pattern.order].ravel()

    def times(self, x: Floats) -> Floats:
        """What the matrix makes of a step `(v, 3)`."""
        found = np.add.reduceat(self._data * x.ravel()[self._pattern.drawn], self._pattern.starts).reshape(-1, 3)
        return np.asarray(found + self._pattern.bent_by(x))

    def own(self) -> Floats:
        """The blocks on the diagonal, `(v, 3, 3)`."""
        found = self.blocks[self._pattern.own].copy()
        found[:, range(3), range(3)] += self._pattern.bent_own[:, None]
        return found
