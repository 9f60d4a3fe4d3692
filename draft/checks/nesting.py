"""Sizes nest: laid on one another, the same edge of two neighbouring sizes does not cross.

It may where its end itself passes that of the next size: a deeper armhole of a wider size runs out past the smaller
one's end, and comes to it from the other side (common practice). Where most sizes cross their neighbours, that is how
the edge is graded: armholes and waists that deepen as they widen do. A size that breaks the others' rule is told.
"""

from __future__ import annotations

from typing import Any

import numpy as np

from draft.base.arrays import Floats
from draft.base.notes import Note, caution
from draft.garment.garment import Edge, Garment, Piece
from draft.geometry.cubic import cross, dot
from draft.geometry.ends import end_directions
from draft.geometry.flatten import sample

PLACES = 12  # on each segment
ASIDE = 10.0  # mm: how far beside a crossing it is looked at; crossings no further apart are one
APART = 0.05  # mm: lines that come no further apart than this lie on one another


def check(garment: Garment) -> list[Note]:
    """A note for each edge that crosses the same edge of the next size, unless their ends pass one another there."""
    return [note for piece in garment.pieces for note in _piece(garment, piece)]


def _piece(garment: Garment, piece: Piece) -> list[Note]:
    # its peaks lie elsewhere in every size
    peaked = {takeup.edge for takeup in piece.takeups if takeup.trued_over is not None}
    return [note for edge in piece.edges if edge.name not in peaked for note in _edge(garment, piece, edge)]


def _edge(garment: Garment, piece: Piece, edge: Edge) -> list[Note]:
    import shapely

    lines = shapely.linestrings(sample(edge.segments, PLACES))
    crossed = []
    for k in np.flatnonzero(shapely.crosses(lines[:-1], lines[1:])):
        places = _places(lines[k], lines[k + 1])
        if len(places) and not _ends_pass(edge.segments[k : k + 2], places, lines[k].length):
            crossed.append(f"{garment.sizes[k]} and {garment.sizes[k + 1]}")
    if not crossed or _is_the_rule(len(crossed), len(lines) - 1):
        return []
    fact = f"`{piece.name}.{edge.name}` crosses from size to size: {', '.join(crossed)}"
    return [caution(fact, edge.span, "let what places it grow steadily with the size")]


def _is_the_rule(crossed: int, neighbours: int) -> bool:
    """Whether so many of the pairs of neighbours cross that it is how the edge is graded."""
    return neighbours > 2 and 2 * crossed > neighbours


def _ends_pass(path: Floats, places: Floats, length: float) -> bool:
    """Whether two lines `(2, S, 4, 2)` cross once at most at either end, where the second runs on past the first.

    It runs on further than it lies aside, and they cross no further from the end than it runs on.
    """
    at_start = places < length / 2
    gaps = path[1, 0, 0] - path[0, 0, 0], path[1, -1, 3] - path[0, -1, 3]
    leave, arrive = (direction[0] for direction in end_directions(path[:1]))
    for which, gap, out in ((at_start, gaps[0], -leave), (~at_start, gaps[1], arrive)):
        near = np.minimum(places, length - places)[which]
        beyond, aside = float(dot(gap, out)), abs(float(cross(gap, out)))
        if len(near) > 1 or (len(near) and not max(aside, near[0]) <= beyond):
            return False
    return True


def _places(one: Any, other: Any) -> Floats:
    """How far along a line it crosses another, and parts from it on both sides: one upon another they only touch."""
    import shapely

    met = shapely.get_coordinates(shapely.intersection(one, other))
    places = np.sort(shapely.line_locate_point(one, shapely.points(met)))
    ways = [np.clip(places + way, 0.0, one.length) for way in (-ASIDE, ASIDE)]
    beside = shapely.distance(shapely.line_interpolate_point(one, ways), other)
    places = places[np.min(beside, axis=0) > APART]
    first: Floats = places[np.diff(places, prepend=-np.inf) > ASIDE]
    return first
