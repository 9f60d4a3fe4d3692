"""Pieces drawn small, side by side in a frame: to see which they are and how they lie, not to measure by."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

import numpy as np

from draft.base.arrays import Floats
from draft.geometry import cubic
from draft.paper.drawing.box_rows import in_rows, square_limit
from draft.paper.drawing.drawing import Item, Path, Stroke

_GAP = 60.0  # mm between pieces, at their own size

Lines = Sequence[tuple[Floats, Stroke]]
"""Edges `(segments, 4, 2)`, y down, each with how it is inked."""


def small_pieces(pieces: Mapping[str, Lines], x: float, y: float, width: float, height: float) -> tuple[Item, ...]:
    """All pieces, as large as they go into a frame whose corner is at `x`, `y`; those of one name on one another."""
    if not pieces:
        return ()
    boxes = [_box(lines) for lines in pieces.values()]
    moves, wide, tall = in_rows(boxes, square_limit(boxes, _GAP, width / height), _GAP)
    scale = min(width / max(wide, 1.0), height / max(tall, 1.0))
    corner = np.array([x + (width - scale * wide) / 2, y + (height - scale * tall) / 2])
    return tuple(
        Path(((segments + np.array(move)) * scale + corner,), stroke)
        for lines, move in zip(pieces.values(), moves, strict=True)
        for segments, stroke in lines
    )


def _box(lines: Lines) -> Floats:
    boxes = np.array([cubic.bounds(segments) for segments, _ in lines])
    return np.stack([boxes[:, 0].min(axis=0), boxes[:, 1].max(axis=0)])
