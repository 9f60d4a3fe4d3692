"""The vertices of a cloth in levels, each joined to the next alone, so that its matrix is a row of dense blocks.

Where both halves are there, what joins them is left out: each half is a row of its own, of narrower blocks.
"""

from __future__ import annotations

import numpy as np

from draft.base.arrays import Bools, Floats, Ints
from draft.base.record import dataclass
from draft.toile.block_matrix import BlockMatrix, BlockPattern

_AXES = np.arange(3)


@dataclass(frozen=True, eq=False)
class Levels:
    """Which coordinate comes where, `order` `(3v,)`, and where each level's begin, `starts` `(levels + 1,)`.

    All blocks lie in one row of numbers: that of each level with itself at `own`, with the one before at `before`.
    `blocks` and `bent` say which entries of a pattern are in it, `at_blocks` `(b, 3, 3)` and `at_bent` `(c, 3)` where.
    """

    order: Ints
    starts: Ints
    own: Ints
    before: Ints
    total: int
    blocks: Bools
    at_blocks: Ints
    bent: Bools
    at_bent: Ints

    def filled(self, matrix: BlockMatrix, pattern: BlockPattern) -> Floats:
        """The row of numbers `(total,)` for a matrix of that pattern."""
        found = np.zeros(self.total)
        found[self.at_blocks] = matrix.blocks[self.blocks]
        found[self.at_bent] += pattern.bent[self.bent][:, None]
        return found


def levels_of(pattern: BlockPattern, parted: Bools | None = None) -> Levels:
    """The levels of a pattern; where it is `parted` `(v,)`, those on one side before those on the other."""
    count = len(pattern.rows)
    bent_row = _row_of(pattern.bent_rows, len(pattern.bent_columns))
    side = np.zeros(count, dtype=np.intp) if parted is None else parted.astype(np.intp)
    level = _levels(pattern, side)
    sizes = 3 * np.bincount(level)
    starts = np.concatenate([[0], np.cumsum(sizes)])
    own = np.concatenate([[0], np.cumsum(sizes**2)])[:-1]
    before = int((sizes**2).sum()) + np.concatenate([[0, 0], np.cumsum(sizes[1:] * sizes[:-1])])[:-1]
    order = np.argsort(level, kind="stable")
    place = np.empty(count, dtype=np.intp)
    place[order] = 3 * np.arange(count)
    place -= starts[level]

    def at(row: Ints, column: Ints) -> tuple[Bools, Ints, Ints]:
        """Which entries are there, where each begins, and how far it is from one of its rows to the next."""
        one, other = level[row], level[column]
        there = ((one == other) | (one == other + 1)) & (side[row] == side[column])
        start = np.where(one == other, own[one], before[one]) + place[row] * sizes[other] + place[column]
        return there, start[there], sizes[other][there]

    blocks, first, wide = at(_row_of(pattern.rows, len(pattern.columns)), pattern.columns)
    bent, bent_first, bent_wide = at(bent_row, pattern.bent_columns)
    return Levels(
        (3 * order[:, None] + _AXES).ravel(),
        starts,
        own,
        before,
        int(before[-1] + (sizes[-1] * sizes[-2] if len(sizes) > 1 else 0)),
        blocks,
        first[:, None, None] + wide[:, None, None] * _AXES[:, None] + _AXES,
        bent,
        bent_first[:, None] + (bent_wide[:, None] + 1) * _AXES,
    )


def _row_of(rows: Ints, count: int) -> Ints:
    return np.repeat(np.arange(len(rows)), np.diff(np.append(rows, count)))


def _levels(pattern: BlockPattern, side: Ints) -> Ints:
    """The level of each vertex, counted on from one part to the next."""
    ends = np.append(pattern.bent_rows, len(pattern.bent_columns))
    level = np.full(len(side), -1)
    while (level < 0).any():
        seed = int(np.argmax(level < 0))
        there = side == side[seed]
        for _ in range(2):  # from one end of it to the other
            found = _outwards(pattern.bent_columns, ends, there, seed)
            seed = int(np.argmax(found))
        back = _outwards(pattern.bent_columns, ends, there, seed)
        found = min((found, back), key=_price)
        level[found >= 0] = found[found >= 0] + level.max() + 1
    return level


def _outwards(columns: Ints, ends: Ints, there: Bools, seed: int) -> Ints:
    """How many steps each vertex is from one; -1 where none lead there."""
    found = np.full(len(there), -1)
    found[seed] = 0
    front = np.array([seed])
    steps = 0
    while len(front):
        steps += 1
        near = np.unique(np.concatenate([columns[ends[k] : ends[k + 1]] for k in front]))
        front = near[(found[near] < 0) & there[near]]
        found[front] = steps
    return found


def _price(level: Ints) -> float:
    return float((np.bincount(level[level >= 0]).astype(float) ** 3).sum())
