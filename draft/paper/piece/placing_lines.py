"""Outlines of what is set on a piece, in a nest: their corners alone, so that no cutting line is lost among them.

Whole outlines of seven sizes lie across the cutting lines of others and are taken for such. A line that is curved, or
has no corner, is drawn whole.
"""

from __future__ import annotations

import numpy as np

from draft.base.arrays import Floats, Ints
from draft.garment.garment import Mark
from draft.geometry.cubic import unit
from draft.paper.piece.together import Together

_LEG = 12.0
"""So much of a line is drawn from a corner or an end of it, mm."""
_ACROSS = 2.5
"""So far to either side the end of a line is marked, mm."""
_CORNER, _STRAIGHT = 18.0, 3.0
"""A line that turns by more degrees at a point has a corner there; by fewer than the other it runs on."""


def is_cornered(mark: Mark, together: Together) -> bool:
    """Whether a mark is an outline of which a nest shows the corners."""
    if not together.is_nest or mark.drill or mark.fastening or mark.line:
        return False
    lines = [mark.points[one.body] for one in together.outlines]
    return all(len(corners_of(line)) for line in lines if np.isfinite(line).all())


def corners_of(points: Floats) -> Ints:
    """The numbers of points `(n, 2)` at which a line has corners; none of a line that is curved anywhere."""
    legs = np.diff(points, axis=0)
    ways = np.degrees(np.arctan2(legs[:, 1], legs[:, 0]))
    closed = _closes(points)
    turns = np.abs((np.diff(ways, append=ways[:1] if closed else ways[-1:]) + 180.0) % 360.0 - 180.0)
    curved = (turns > _STRAIGHT) & (turns <= _CORNER)
    return np.zeros(0, dtype=np.intp) if curved.any() else np.flatnonzero(turns > _CORNER) + 1


def at_corners(points: Floats) -> list[Floats]:
    """A line `(n, 2)` that has corners as short lines about them, and from and across its ends; any other whole."""
    corners = set(corners_of(points).tolist())
    if not corners:
        return [points]
    found: list[Floats] = []
    for k in range(len(points)):
        legs = [leg for leg in (_leg(points, k, -1), _leg(points, k, 1)) if leg is not None]
        if len(legs) == 2 and k in corners:
            found.append(np.stack([legs[0][1], legs[0][0], legs[1][1]]))
        elif k in corners or k in (0, len(points) - 1):
            found += legs if _closes(points) else [line for leg in legs for line in (leg, _across(leg))]
    return found


def _closes(points: Floats) -> bool:
    return len(points) > 3 and bool(np.allclose(points[0], points[-1], atol=0.5))


def _across(leg: Floats) -> Floats:
    """A short stroke across the end of a line, of which a leg begins there: it says which of its ends that is."""
    way = unit(leg[1] - leg[0])
    aside = np.array([-way[1], way[0]]) * _ACROSS
    return np.stack([leg[0] - aside, leg[0] + aside])


def _leg(points: Floats, number: int, step: int) -> Floats | None:
    """From a point of a line some way to the next or the one before `(2, 2)`; no more than half of the way."""
    other = number + step
    if not 0 <= other < len(points):
        return None
    begin, way = points[number], points[other] - points[number]
    long = float(np.hypot(*way))
    return np.stack([begin, begin + way * min(_LEG / max(long, 1e-9), 0.5)])
