"""A matrix solved level by level: each block of a level's own without what the one before it takes off, and turned."""

from __future__ import annotations

from itertools import pairwise

import numpy as np

from draft.base.arrays import Bools, Floats
from draft.toile.block_matrix import BlockMatrix, BlockPattern
from draft.toile.vertex_levels import Levels


class ByLevels:
    """A matrix that was taken apart once, to be solved for any right side; nothing moves along coordinates `held`."""

    def __init__(self, levels: Levels, matrix: BlockMatrix, pattern: BlockPattern, held: Bools) -> None:
        self._levels = levels
        self._free = (~held).ravel()[levels.order].astype(float)
        numbers = levels.filled(matrix, pattern)
        self._inverses: list[Floats] = []
        self._lower: list[Floats] = []
        for k in range(len(levels.own)):
            own = self._own(numbers, k)
            if k:
                before = self._before(numbers, k)
                taken = before @ self._inverses[-1]
                own -= taken @ before.T
                self._lower.append(taken)
            self._inverses.append(np.asarray(np.linalg.inv(own), dtype=np.float64))

    def solved(self, right: Floats) -> Floats:
        """The step `(v, 3)` that the matrix makes `right` `(v, 3)` of."""
        starts = self._levels.starts
        rest = right.ravel()[self._levels.order] * self._free
        parts = [rest[one:other] for one, other in pairwise(starts.tolist())]
        for k, taken in enumerate(self._lower):
            parts[k + 1] = parts[k + 1] - taken @ parts[k]
        found = [self._inverses[-1] @ parts[-1]]
        for k in range(len(self._lower) - 1, -1, -1):
            found.append(self._inverses[k] @ parts[k] - self._lower[k].T @ found[-1])
        step = np.empty(len(rest))
        step[self._levels.order] = np.concatenate(found[::-1])
        return step.reshape(-1, 3)

    def _own(self, numbers: Floats, k: int) -> Floats:
        size, at = self._size(k), self._levels.own[k]
        free = self._within(k)
        found = numbers[at : at + size * size].reshape(size, size) * free[:, None] * free
        found[range(size), range(size)] += 1.0 - free
        return np.asarray(found)

    def _before(self, numbers: Floats, k: int) -> Floats:
        size, last, at = self._size(k), self._size(k - 1), self._levels.before[k]
        return np.asarray(
            numbers[at : at + size * last].reshape(size, last) * self._within(k)[:, None] * self._within(k - 1)
        )

    def _size(self, k: int) -> int:
        return int(self._levels.starts[k + 1] - self._levels.starts[k])

    def _within(self, k: int) -> Floats:
        return self._free[self._levels.starts[k] : self._levels.starts[k + 1]]
