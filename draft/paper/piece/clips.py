"""Clip marks: how far to snip where an allowance closes over a slit, a sharp inner corner or a tight hollow.

There the cutting line does not go in as far as the sewing line does, so that without a mark nobody sees on a nest of
cutting lines where the seam turns. Where the two sides of a slit are sewn to one another nothing is snipped.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import lru_cache
from itertools import islice
from typing import Any

import numpy as np

from draft.base.arrays import Bools, Floats
from draft.garment.garment import Piece
from draft.geometry.cubic import lines_through
from draft.geometry.flatten import polyline_each
from draft.paper.drawing import line_styles
from draft.paper.drawing.drawing import Path
from draft.paper.piece.piece_lines import Outlines
from draft.paper.piece.sized_lines import FLIP, SizedLines, sized_lines

_DEEPER = 1.5
"""Where the seam lies more than so many allowances, and a little, inside of the cutting line, that closes over it."""
_LITTLE = 0.5
_SOME = 8
"""Most points of a seam are near one in so many points of the cutting line; of the others the distance is measured."""
_AS_DEEP = 0.5
"""Points of a seam that lie as far from the mouth of a hollow, to so many mm, are as deep as one another,"""
_NEARLY = 0.8
"""if they are at least so deep as the deepest: a share."""
_SHORT_OF = 2.0
"""A snip ends so many mm before the seam (common practice)."""


def clip_items(one: Outlines, index: int, end: str) -> list[Path]:
    """The clip marks of one size; `index` is which of those drawn it is, and `end` closes each id."""
    stroke = line_styles.sign_stroke(line_styles.cutting_stroke(index).colour)
    data = (("piece", one.piece.name), ("mark", "clip"), ("size", one.size))
    name = f"{one.piece.name}.clip"
    return [
        Path((lines_through(line),), stroke, id=f"{name}{number}{end}", data=data)
        for number, line in enumerate(clips(one), 1)
    ]


def clips(one: Outlines) -> list[Floats]:
    """Each from the cutting line to just before the seam, as points `(2, 2)` with y down."""
    return _clips(one.piece, one.together.bodies)[one.number]


@lru_cache(maxsize=256)  # a garment of ten pieces in twenty sizes
def _clips(piece: Piece, bodies: tuple[int, ...]) -> list[list[Floats]]:
    """Those of each size."""
    together = sized_lines(piece, bodies)
    widths = np.array([edge.allowance for edge in piece.edges])
    over = _DEEPER * np.maximum(np.maximum(widths, np.roll(widths, 1)), np.roll(widths, -1)) + _LITTLE
    lines = iter(polyline_each([edge.segments[body] for body in bodies for edge in piece.edges]))
    return [_of_size(together, number, list(islice(lines, len(over))), over) for number in range(len(bodies))]


def _of_size(together: SizedLines, number: int, lines: Sequence[Floats], over: Floats) -> list[Floats]:
    import shapely

    deep = list(_edges(together, number, lines, over))
    if not deep:
        return []
    ring = shapely.LinearRing(together.cutting_points[number])
    runs = shapely.line_merge(shapely.union_all([_deep_part(line, ring, most) for line, most in deep]))
    return [line for run in shapely.get_parts(runs) if (line := _clip(run, ring)) is not None]


def _edges(together: SizedLines, number: int, lines: Sequence[Floats], over: Floats) -> Iterator[tuple[Any, float]]:
    """The line of each edge that somewhere lies deeper than so many mm `(edges,)`, and how many these are."""
    import shapely

    shut = _shut(together.piece)
    counts, ring = [len(line) for line in lines], together.cutting_rings[number]
    points, most = np.concatenate(lines), np.repeat(over, counts)
    found = ~_near_some(points, (together.cutting_points[number] * FLIP)[::_SOME], most)
    if not found.any():
        return
    shapely.prepare(ring)
    found[found] = ~shapely.dwithin(ring, shapely.points(points[found]), most[found])
    for edge, line, deep, far in zip(
        together.piece.edges, lines, np.split(found, np.cumsum(counts)[:-1]), over, strict=True
    ):
        if deep.any() and not edge.on_fold and edge.name not in shut:
            yield shapely.LineString(line * FLIP), float(far)


def _shut(piece: Piece) -> set[str]:
    """The edges that are sewn to the one beside them."""
    edges = piece.edges
    pairs = [(edge.name, edges[(k + 1) % len(edges)].name) for k, edge in enumerate(edges) if edge.shut]
    return {name for pair in pairs for name in pair}


def _near_some(points: Floats, others: Floats, within: Floats) -> Bools:
    """Which points `(n, 2)` lie within so many mm `(n,)` of any of some others `(m, 2)`."""
    off = np.square(points[:, :1] - others[:, 0])
    off += np.square(points[:, 1:] - others[:, 1])
    return np.asarray(off.min(axis=1) < np.square(within))


def _deep_part(line: Any, ring: Any, over: float) -> Any:
    return line.difference(ring.buffer(over, quad_segs=8))


def _clip(run: Any, ring: Any) -> Floats | None:
    """From the cutting line through the mouth of a run of the seam to just before where it is deepest."""
    import shapely

    points = shapely.get_coordinates(run)
    if len(points) < 2:
        return None
    mouth = (points[0] + points[-1]) / 2
    deepest = _deepest(points, mouth, ring)
    start = _out(deepest, mouth, ring)
    way = deepest - start
    long = float(np.hypot(*way))
    return np.stack([start, deepest - way / long * min(_SHORT_OF, long / 2)]) if long > _SHORT_OF else None


def _deepest(points: Floats, mouth: Floats, ring: Any) -> Floats:
    """The point of a run that lies deepest; where a slit ends square, the middle between its corners."""
    import shapely

    deep, away = shapely.distance(ring, shapely.points(points)), np.hypot(*(points - mouth).T)
    first = int(np.argmax(deep))
    level = points[(np.abs(away - away[first]) < _AS_DEEP) & (deep > _NEARLY * deep[first])]
    return np.asarray((level.min(axis=0) + level.max(axis=0)) / 2)


def _out(deepest: Floats, mouth: Floats, ring: Any) -> Floats:
    """Where the way out through the mouth meets the cutting line; the nearest place of it where there is no mouth."""
    import shapely

    nearest = np.asarray(shapely.get_coordinates(shapely.shortest_line(shapely.Point(deepest), ring))[1])
    way = mouth - deepest
    if float(np.hypot(*way)) < 1.0:
        return nearest
    far = deepest + way / float(np.hypot(*way)) * ring.length
    met = shapely.get_coordinates(shapely.LineString([deepest, far]).intersection(ring))
    return np.asarray(met[int(np.argmin(np.hypot(*(met - deepest).T)))]) if len(met) else nearest
