"""Fine lines from marks to the names of their sizes."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import numpy as np

from draft.base.arrays import Floats
from draft.geometry.cubic import lines_through
from draft.paper.drawing import line_styles
from draft.paper.drawing.drawing import Path, Stroke, circle
from draft.paper.piece.sized_marks import Anchor

_WIDTH, _DOT = 0.13, 0.55
_SHORT = 0.24
"""A leader is as thin as a printer draws, and ends so many mm before its name, at a corner of that a little more."""
_THICKEST = 2.0
"""So many times as wide at most where all is enlarged: finer than what is cut."""


def to_upright(angle: float) -> Floats:
    """The matrix `(2, 2)` from paper to a frame in which words at this angle, in degrees clockwise, stand upright."""
    turn = np.radians(angle)
    return np.array([[np.cos(turn), np.sin(turn)], [-np.sin(turn), np.cos(turn)]])


def leaders_of(anchors: Sequence[Anchor], middles: Floats, wide: Floats, high: float, angle: float) -> Any:
    """The shapely lines from marks `(n,)` to the nearest sides of their names, from the end of a notch that is nearer.

    Names are `wide` `(n,)` and `high` rectangles about middles `(..., n, 2)`, turned by an angle in degrees, clockwise;
    there are as many lines as middles. One mark may have several names, a line to each.
    """
    import shapely

    turn = to_upright(angle)
    start = np.array([anchor.point for anchor in anchors]) - middles
    outer = np.array([anchor.point if anchor.outer is None else anchor.outer for anchor in anchors]) - middles
    nearer = np.hypot(outer[..., 0], outer[..., 1]) < np.hypot(start[..., 0], start[..., 1]) - 1e-6
    start[nearer] = outer[nearer]
    off = start @ turn.T
    half = np.stack([wide, np.full(len(wide), high)], axis=-1) / 2 + _SHORT
    end = off / np.maximum(np.abs(off / half).max(axis=-1), 1.0)[..., None] @ turn
    return shapely.linestrings(np.stack([middles + start, middles + end], axis=-2))


def leader_drawn(anchor: Anchor, leader: Any, name: str, enlarged: float) -> Path:
    """The line in the ink of its size, whose `name` it bears as data."""
    ink = line_styles.cutting_stroke(anchor.size).colour
    line, stroke = lines_through(list(leader.coords)), Stroke(_WIDTH * min(enlarged, _THICKEST), colour=ink)
    data = (("leader", name),)
    if not anchor.bold:
        return Path((line,), stroke, data=data)
    x, y = (float(at) for at in anchor.point)  # a dot on its line: a leader may run on over others
    return Path((line, circle(x, y, _DOT)), stroke, fill=ink, data=data)
