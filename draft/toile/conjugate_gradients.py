"""A step of Newton's method by conjugate gradients, preconditioned by each vertex's own block, or by what is near."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np

from draft.base.arrays import Bools, Floats
from draft.toile.block_matrix import BlockMatrix

WITHIN = 0.03
"""Of the first residual: a step need not be exact, for it is taken anew."""
MOST = 250


Near = Callable[[Floats], Floats]
"""A step `(v, 3)` that the matrix makes about that right side of; none along what is held."""


def solved(
    matrix: BlockMatrix,
    right: Floats,
    held: Bools,
    within: float = WITHIN,
    most: int = MOST,
    near: Near | None = None,
) -> Floats:
    """The step `(v, 3)` that the matrix makes `right` `(v, 3)` of; none along the coordinates held `(v, 3)`."""
    free = (~held).astype(float)
    near = near or _each_by_itself(matrix, held, free)
    step = np.zeros_like(right)
    rest = right * free
    way = drawn = near(rest)
    size = first = float((rest * drawn).sum())
    if first <= 0.0:
        return step
    for _ in range(most):
        made = matrix.times(way) * free
        share = size / float((way * made).sum())
        step += share * way
        rest = rest - share * made
        drawn = near(rest)
        before, size = size, float((rest * drawn).sum())
        if size < within * within * first:
            break
        way = drawn + (size / before) * way
    return step


def _each_by_itself(matrix: BlockMatrix, held: Bools, free: Floats) -> Near:
    inverse = np.linalg.inv(_without(matrix.own(), held)) * free[:, :, None] * free[:, None, :]
    return lambda right: np.asarray(np.einsum("vij,vj->vi", inverse, right))


def _without(blocks: Floats, held: Bools) -> Floats:
    """The blocks with ones in the place of what is held."""
    free = (~held).astype(float)
    found = blocks * free[:, :, None] * free[:, None, :]
    found[:, range(3), range(3)] += held
    return np.asarray(found)
