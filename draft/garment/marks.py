"""Where a mark stands for one body: at each point of its row, once."""

from __future__ import annotations

import numpy as np

from draft.base.arrays import Floats
from draft.garment.garment import InnerDart, Mark


def places(mark: Mark, body: int) -> Floats:
    """The points `(n, 2)` of a mark; none where the body lacks it."""
    points = mark.points[body]
    if not np.isfinite(points).all():
        return np.zeros((0, 2))
    new = np.any(points[1:] != points[:-1], axis=-1)  # a row's last point stands in for those that are left
    return np.asarray(points[np.concatenate([[True], new])])


def widest(dart: InnerDart, body: int) -> tuple[Floats, Floats]:
    """The two places `(2,)` on its line between which a dart inside a piece is folded away; none where it is not."""
    half = dart.way[body] * float(dart.width[body]) / 2
    return dart.at[body] - half, dart.at[body] + half


def buttonhole(mark: Mark, body: int, bar: float) -> list[Floats]:
    """Lines `(2, 2)` for the holes of a mark, and bars: each begins 3 mm before its point, where the button pulls."""
    assert mark.length is not None and mark.way is not None
    way, long = mark.way[body], float(mark.length[body])
    aside = np.array([-way[1], way[0]]) * bar / 2
    found = []
    for point in places(mark, body):
        begin = point - BEFORE * way
        end = begin + long * way
        found += [np.stack([begin, end]), *(np.stack([at - aside, at + aside]) for at in (begin, end))]
    return found


BEFORE = 3.0
"""From a hole's end to where its button sits, in mm (common practice: about half of the button's shank and thread)."""
