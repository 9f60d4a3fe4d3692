"""A step of Newton's method by conjugate gradients, each vertex's own block its preconditioner."""

from __future__ import annotations

import numpy as np

from draft.base.arrays import Bools, Floats
from draft.toile.block_matrix import BlockMatrix

WITHIN = 0.03
"""Of the first residual: a step need not be exact, for it is taken anew."""
MOST = 250


def solved(matrix: BlockMatrix, right: Floats, held: Bools, within: float = WITHIN, most: int = MOST) -> Floats:
    """The step `(v, 3)` that the matrix makes `right` `(v, 3)` of; none along the coordinates held `(v, 3)`."""
    free = (~held).astype(float)
    inverse = np.linalg.inv(_without(matrix.own(), held)) * free[:, :, None] * free[:, None, :]
    step = np.zeros_like(right)
    rest = right * free
    way = near = _by_block(inverse, rest)
    size = first = float((rest * near).sum())
    if first <= 0.0:
        return step
    for _ in range(most):
        made = matrix.times(way) * free
        share = size / float((way * made).sum())
        step += share * way
        rest = rest - share * made
        near = _by_block(inverse, rest)
        before, size = size, float((rest * near).sum())
        if size < within * within * first:
            break
        way = near + (size / before) * way
    return step


def _by_block(blocks: Floats, x: Floats) -> Floats:
    return np.asarray(np.einsum("vij,vj->vi", blocks, x))


def _without(blocks: Floats, held: Bools) -> Floats:
    """The blocks with ones in the place of what is held."""
    free = (~held).astype(float)
    found = blocks * free[:, :, None] * free[:, None, :]
    found[:, range(3), range(3)] += held
    return np.asarray(found)
