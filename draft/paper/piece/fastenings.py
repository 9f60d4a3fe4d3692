"""How marks for buttons, buttonholes and snaps are drawn: a cross in a ring, a line with bars, a ring with a dot.

Where one piece serves both fronts a button lies in its own buttonhole. There its ring is smaller, and of its cross only
what runs square to the hole is drawn, outside of the ring: so neither sign lies on a line of the other.
"""

from __future__ import annotations

from collections.abc import Collection, Sequence

import numpy as np

from draft.base.arrays import Floats
from draft.garment.garment import Mark, Piece
from draft.garment.marks import buttonhole, places
from draft.geometry.cubic import lines_through
from draft.paper.drawing.drawing import circle
from draft.paper.piece.piece_lines import FLIP

_BUTTON = 4.0
_IN_HOLE, _ARM = 2.0, 3.0
"""The ring of a button that lies in its hole, inside of the bar at the hole's end, and its arms beside the ring, mm."""
_SNAP, _BALL = 3.5, 1.0
_BAR = 5.0
_SAME = 0.05
"""A button this near to the point of a hole, mm, lies in it."""


def fastening(mark: Mark, body: int, holes: Sequence[Mark] = (), without: Collection[int] = ()) -> tuple[Floats, ...]:
    """The lines of a fastening for one body, y down: runs of curves `(n, 4, 2)`; `holes` are its piece's.

    Nothing is drawn at the places `without`, by their numbers.
    """
    if mark.fastening == "buttonhole":
        lines = buttonhole(mark, body, _BAR)  # three lines for each place
        return tuple(lines_through(line) * FLIP for k, line in enumerate(lines) if k // 3 not in without)
    found: list[Floats] = []
    for place, point in enumerate(places(mark, body)):
        if place in without:
            continue
        x, y = (float(at) for at in point * FLIP)
        way = _way_of_hole(point, holes, body)
        found += _snap(x, y) if mark.fastening == "snap" else _button(x, y) if way is None else _in_hole(x, y, way)
    return tuple(found)


def _way_of_hole(point: Floats, holes: Sequence[Mark], body: int) -> Floats | None:
    """Which way the buttonhole runs that a button lies in, a unit vector `(2,)`; None where it lies in none."""
    for hole in holes:
        if hole.way is not None and np.any(np.hypot(*(places(hole, body) - point).T) < _SAME):
            return np.asarray(hole.way[body])
    return None


def lies_in_hole(mark: Mark, piece: Piece) -> bool:
    """Whether a mark is of buttons that lie in buttonholes of the same piece, for any body."""
    return any(arm_beside_hole(mark, piece, 0, body) is not None for body in range(len(mark.points)))


def arm_beside_hole(mark: Mark, piece: Piece, place: int, body: int) -> Floats | None:
    """The middle and the end of an arm `(2, 2)`, y down, of a button that lies in a hole of its piece; else None."""
    points = places(mark, body)
    if mark.fastening != "button" or place >= len(points):
        return None
    way = _way_of_hole(points[place], [one for one in piece.marks if one.fastening == "buttonhole"], body)
    return None if way is None else points[place] * FLIP + _arm(way)


def _arm(way: Floats) -> Floats:
    """From the middle of a button to the end of one of its arms `(2, 2)`, y down, square to a hole's way, y up."""
    return np.asarray(np.array([0.0, _IN_HOLE + _ARM])[:, None] * np.array([-way[1], way[0]]) * FLIP)


def _in_hole(x: float, y: float, way: Floats) -> list[Floats]:
    """A small ring with an arm on either side of the hole, which runs along `way`, y up."""
    end = _arm(way)[1]
    ends = np.stack([end * _IN_HOLE / (_IN_HOLE + _ARM), end])
    return [circle(x, y, _IN_HOLE), *(lines_through(np.array([x, y]) + side * ends) for side in (1.0, -1.0))]


def _button(x: float, y: float) -> list[Floats]:
    cross = ((x - _BUTTON, y), (x + _BUTTON, y)), ((x, y - _BUTTON), (x, y + _BUTTON))
    return [circle(x, y, _BUTTON), *(lines_through(line) for line in cross)]


def _snap(x: float, y: float) -> list[Floats]:
    return [circle(x, y, _SNAP), circle(x, y, _BALL)]
