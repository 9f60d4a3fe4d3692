"""Boxes laid out in rows, one beside the other: for sheets that are looked at, or cut by a machine."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from draft.base.arrays import Floats


def in_rows(
    boxes: Sequence[Floats], limit: float, gap: float, corner: tuple[float, float] = (0.0, 0.0)
) -> tuple[list[tuple[float, float]], float, float]:
    """Where boxes, lowest and highest corner `(2, 2)` each, are moved to stand in rows no wider than `limit` mm.

    Gives the moves, how wide the widest row is, and where the last row ends; `gap` mm lie between neighbours, and the
    first row begins at `corner`. A wider box has its own row.
    """
    left, y = corner
    x, tallest, width = 0.0, 0.0, 0.0
    moves = []
    for box in boxes:
        wide, tall = (float(side) for side in box[1] - box[0])
        if x and x + wide > limit:
            x, y, tallest = 0.0, y + tallest + gap, 0.0
        moves.append((left + x - float(box[0, 0]), y - float(box[0, 1])))
        width, tallest, x = max(width, x + wide), max(tallest, tall), x + wide + gap
    return moves, width, y + tallest


def square_limit(boxes: Sequence[Floats], gap: float, shape: float) -> float:
    """A limit at which the rows come out about `shape` times as wide as high."""
    area = sum(float(np.prod(box[1] - box[0] + gap)) for box in boxes)
    widest = max((float(box[1, 0] - box[0, 0]) for box in boxes), default=0.0)
    return max(widest, float(np.sqrt(shape * area)))
