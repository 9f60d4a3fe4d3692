"""Where a mark stands for one body: at each point of its row, once."""

from __future__ import annotations

import numpy as np

from draft.base.arrays import Floats
from draft.garment.garment import InnerDart, Mark, Takeup
from draft.geometry.dart_leg import leg


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


def dart_legs(dart: Takeup, mouths: Floats, body: int) -> list[Floats]:
    """The two legs of a dart as segments `(1, 4, 2)`, from its `mouths` on its edge `(2, 2)` to its point."""
    assert dart.to is not None
    return _legs(dart, mouths, dart.to[body], mouths[1] - mouths[0], body)


def inner_legs(dart: InnerDart, body: int) -> list[Floats]:
    """The four legs of a dart inside a piece, `(1, 4, 2)` each, from where it is widest: two to either point."""
    sides = np.stack(widest(dart, body))
    return [leg for tip in (dart.to, dart.other) for leg in _legs(dart, sides, tip[body], dart.way[body], body)]


def _legs(dart: Takeup | InnerDart, mouths: Floats, tip: Floats, way: Floats, body: int) -> list[Floats]:
    bows = [None if bow is None else bow[body] for bow in (dart.bow_first, dart.bow_last)]
    return [leg(mouth, tip, bow, way)[None] for mouth, bow in zip(mouths, bows, strict=True)]


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
