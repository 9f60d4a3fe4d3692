"""The cutting line proved: clear of itself, around the piece, and nowhere nearer to it than the allowance.

It is an independent look, with shapely, at what `draft.seams.allowance` draws.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import numpy as np

from draft.base.arrays import Bools, Floats, Ints
from draft.garment.garment import Piece
from draft.geometry.cubic import cross, norm, unit
from draft.geometry.flatten import flatten_each

SLACK = 0.05  # mm: the flattening of both lines, and the tolerance of the parallel
FINE = 0.02  # mm
ON_FOLD = 0.01  # mm: the cutting line runs on the fold itself there
SAME = 1e-4  # mm: points nearer than this are one
CLOSED = 4  # points that a ring needs, the first once more at its end


def is_proved(piece: Piece, body: int, sewing: Floats, cutting: Floats) -> bool:
    """Whether a piece's closed cutting line `(N, 4, 2)` keeps its distance from its sewing line `(M, 4, 2)`.

    The distance is that of the narrowest allowance. Lines on the fold are left out.
    """
    return bool(are_proved([(piece, body)], [sewing], [cutting])[0])


def are_proved(outlines: Sequence[tuple[Piece, int]], sewing: Sequence[Floats], cutting: Sequence[Floats]) -> Bools:
    """Whether each cutting line keeps its distance, as `is_proved` says of one: `(K,)`."""
    import shapely

    if not outlines:
        return np.zeros(0, dtype=bool)
    points, of = flatten_each(cutting, FINE)
    sewn, sewn_of = flatten_each(sewing, FINE)
    proved = (np.bincount(of, minlength=len(outlines)) >= CLOSED) & (np.bincount(sewn_of, minlength=len(outlines)) >= 2)
    index = np.cumsum(proved) - 1
    points, of = points[proved[of]], index[of[proved[of]]]
    sewn, sewn_of = sewn[proved[sewn_of]], index[sewn_of[proved[sewn_of]]]
    rings = shapely.remove_repeated_points(shapely.linearrings(points, indices=of), SAME)
    lines = shapely.linestrings(sewn, indices=sewn_of)
    shapely.prepare(lines)
    sound = shapely.is_simple(rings) & _cover(shapely.polygons(rings), lines)
    sound &= _keep_off([one for one, there in zip(outlines, proved, strict=True) if there], points, of, lines)
    proved[proved] = sound
    return proved


def _narrowest(piece: Piece) -> float:
    return min((edge.allowance for edge in piece.edges if not edge.on_fold), default=0.0)


def _cover(shapes: Any, lines: Any) -> Bools:
    """Whether each shape has its line inside it, or beyond it by no more than the slack."""
    import shapely

    inside = np.asarray(shapely.covers(shapes, lines))
    left = np.nonzero(~inside)[0]
    inside[left] = shapely.covers(shapely.buffer(shapes[left], SLACK), lines[left])
    return inside


def _keep_off(outlines: Sequence[tuple[Piece, int]], points: Floats, of: Ints, lines: Any) -> Bools:
    """Whether each cutting line, its parts on the fold apart, keeps its distance from the sewing line."""
    import shapely

    on = _on_fold(outlines, points, of)
    drawn_out = (of[1:] == of[:-1]) & ~(on[1:] & on[:-1])
    before, after = np.append(False, drawn_out), np.append(drawn_out, False)
    there = before | after
    run = np.cumsum(after & ~before)[there] - 1
    runs = shapely.linestrings(points[there], indices=run)
    whose = of[after & ~before]
    least = np.array([_narrowest(piece) for piece, _ in outlines]) - SLACK
    close = (least[whose] > 0) & shapely.dwithin(lines[whose], runs, least[whose])
    return np.asarray(np.bincount(whose[close], minlength=len(outlines)) == 0)


def _on_fold(outlines: Sequence[tuple[Piece, int]], points: Floats, of: Ints) -> Bools:
    """Which points lie on the line of a fold of their piece."""
    folds = [(k, e.segments[body]) for k, (piece, body) in enumerate(outlines) for e in piece.edges if e.on_fold]
    on = np.zeros(len(points), dtype=bool)
    if folds:
        whose = np.array([k for k, _ in folds])
        starts, stops = (np.stack([path[k, n] for _, path in folds]) for k, n in ((0, 0), (-1, 3)))
        counts = np.bincount(of, minlength=len(outlines))[whose]
        which = np.repeat(np.arange(len(folds)), counts)
        at = np.arange(len(which)) + np.repeat(np.searchsorted(of, whose) - np.cumsum(counts) + counts, counts)
        way = unit(stops - starts)
        aside = np.abs(cross(way[which], points[at] - starts[which]))
        on[at[(aside <= ON_FOLD) & (norm(way) > 0)[which]]] = True
    return on
