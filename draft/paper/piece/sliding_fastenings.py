"""Buttonholes and buttons that lie over those of other sizes in a nest: of each size a stroke where the button sits.

Holes of several sizes on one line, drawn whole, are so many bars and rings that nobody can tell two ends of one. So
each has the line of its hole, which all share, and one stroke across it at the place of its button, with the size's
name.
Where all sizes have one place, and in a single size, the signs are whole.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import lru_cache
from itertools import combinations

import numpy as np

from draft.base.arrays import Floats
from draft.garment.garment import Mark, Piece
from draft.garment.marks import BEFORE, places
from draft.geometry.cubic import lines_through, unit
from draft.paper.piece.piece_lines import FLIP, Outlines

STROKE = 4.0
"""So far a stroke reaches on either side of its line, mm."""
_ARM = 1.5
"""And so far along it where no hole has a line there."""
_SAME = 0.3
"""Places nearer than this, mm, are one."""
_SIGN = 9.0
"""Signs whose places lie so many mm from one another are clear of each other, but for the length of a hole."""


def slide(mark: Mark, piece: Piece, bodies: Sequence[int]) -> frozenset[int]:
    """The numbers of the places of a fastening at which some bodies lie over others: they have strokes."""
    return _slide(piece, mark.name, tuple(bodies)) if mark.fastening and len(bodies) > 1 else frozenset()


def strokes_at(mark: Mark, place: int, outlines: Sequence[Outlines], one: Outlines) -> Floats:
    """The stroke of one size at one place `(2, 2)`, y down, square to the line on which the places of all sizes lie."""
    point, way = places(mark, one.body)[place], _way(mark, place, one, outlines)
    aside = np.array([-way[1], way[0]]) * STROKE
    return np.asarray(np.stack([point - aside, point + aside]) * FLIP)


def sliding_runs(mark: Mark, place: int, outlines: Sequence[Outlines], one: Outlines) -> tuple[Floats, ...]:
    """What is drawn of one size at such a place, y down: runs `(n, 4, 2)`; of a button in a hole nothing but that's."""
    hole = _hole_of(mark, one.piece, one.body, place)
    if hole is not None:
        return ()
    point, way = places(mark, one.body)[place], _way(mark, place, one, outlines)
    long = float(mark.length[one.body]) - BEFORE if mark.length is not None else _ARM
    begin = BEFORE if mark.length is not None else _ARM
    line = np.stack([point - begin * way, point + long * way]) * FLIP
    return lines_through(line), lines_through(strokes_at(mark, place, outlines, one))


def is_told_by_hole(mark: Mark, piece: Piece, body: int, place: int) -> bool:
    """Whether a mark is a button in a hole of its piece: the stroke is the hole's."""
    return _hole_of(mark, piece, body, place) is not None


def _hole_of(mark: Mark, piece: Piece, body: int, place: int) -> Mark | None:
    if mark.fastening == "buttonhole":
        return None
    point = places(mark, body)[place]
    holes = (one for one in piece.marks if one.fastening == "buttonhole")
    return next((one for one in holes if np.any(np.hypot(*(places(one, body) - point).T) < _SAME)), None)


def _way(mark: Mark, place: int, one: Outlines, outlines: Sequence[Outlines]) -> Floats:
    """The unit vector `(2,)`, y up, along a hole, or along which the places of all sizes lie."""
    if mark.way is not None:
        return np.asarray(mark.way[one.body])
    points = np.array([places(mark, each.body)[place] for each in outlines if len(places(mark, each.body)) > place])
    return np.asarray(unit(points[-1] - points[0]))


@lru_cache(maxsize=256)
def _slide(piece: Piece, name: str, bodies: tuple[int, ...]) -> frozenset[int]:
    """A button in a hole slides as that does, and the other way round."""
    mark = next(one for one in piece.marks if one.name == name)
    alike = [one for one in piece.marks if one.fastening and (one is mark or _share(one, mark, bodies))]
    return frozenset(place for one in alike for place in _over_another(one, bodies))


def _share(one: Mark, other: Mark, bodies: Sequence[int]) -> bool:
    """Whether two marks of a piece stand at the same places."""
    first, second = (np.concatenate([places(mark, body) for body in bodies]) for mark in (one, other))
    return first.shape == second.shape and bool(np.all(np.hypot(*(first - second).T) < _SAME))


def _over_another(mark: Mark, bodies: Sequence[int]) -> Iterator[int]:
    """The places at which the signs of two sizes lie over one another, and not in one place."""
    every = [(places(mark, body), body) for body in bodies]
    for place in range(max(len(points) for points, _ in every)):
        here = [(points[place], body) for points, body in every if len(points) > place]
        if any(_are_over(mark, one - other, body) for (one, body), (other, _) in combinations(here, 2)):
            yield place


def _are_over(mark: Mark, apart: Floats, body: int) -> bool:
    """Whether the signs of two sizes whose places lie so far apart `(2,)` touch, and are not one."""
    off = float(np.hypot(*apart))
    if mark.way is None or mark.length is None:
        return _SAME < off < _SIGN
    along = abs(float(apart @ mark.way[body]))
    aside = float(np.sqrt(max(off**2 - along**2, 0.0)))
    return off > _SAME and aside < _SIGN and along < max(float(mark.length[body]), _SIGN)
