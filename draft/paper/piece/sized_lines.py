"""The lines of a piece in all the sizes that are drawn together, made at once: a nest asks for some thirty of each.

What stands here is by the number of the size among those. `Outlines` is one of them.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import cached_property, lru_cache
from itertools import pairwise
from typing import Any

import numpy as np

from draft.base.arrays import Bools, Floats
from draft.base.record import dataclass
from draft.garment.garment import Edge, Notch, Piece
from draft.geometry import cubic
from draft.geometry.area import ways_round
from draft.geometry.flatten import polyline_each
from draft.geometry.outline_parts import SMOOTH, kept_runs, on_line, parted_at_corners, turns_of
from draft.geometry.ruler import Ruler, places_on
from draft.paper.drawing.polygons import polygons, rings
from draft.paper.piece.notch_lines import strokes, strokes_at
from draft.seams.allowance import cutting_line, sewing_line

FLIP = np.array([1.0, -1.0])
"""Pieces are drafted with y up, paper has y down."""
_CORNER_REACH = 3.0
"""A corner of the cutting line is sought within this many allowances of the seam's corner: a longer spike is cut."""


@dataclass(frozen=True)
class SizedLines:
    """A piece for some of its bodies: the outlines of each as segments `(n, 4, 2)`, y down."""

    piece: Piece
    bodies: tuple[int, ...]
    sewing: tuple[Floats, ...]
    cutting: tuple[Floats, ...]

    @cached_property
    def sewing_shapes(self) -> list[Any]:
        """What is sewn, as shapely shapes."""
        return polygons(polyline_each(self.sewing))

    @cached_property
    def cutting_points(self) -> list[Floats]:
        """The cutting lines as points `(n, 2)`, y down."""
        return polyline_each(self.cutting)

    @cached_property
    def cutting_shapes(self) -> list[Any]:
        """What is cut, as shapely shapes."""
        return polygons(self.cutting_points)

    @cached_property
    def cutting_rings(self) -> Any:
        """The cutting lines as shapely rings `(sizes,)`, y up as the piece was drafted."""
        return rings([points * FLIP for points in self.cutting_points])

    @cached_property
    def cut_of_any(self) -> Any:
        """What is cut of any size, as a shapely shape."""
        import shapely

        return shapely.union_all(self.cutting_shapes)

    @cached_property
    def sewn_of_all(self) -> Any:
        """What lies inside the sewing lines of all sizes, as a shapely shape."""
        import shapely

        return shapely.intersection_all(self.sewing_shapes)

    @cached_property
    def outward(self) -> Floats:
        """1 where a drafted outline runs counterclockwise, so that outside is on its right; else -1: `(sizes,)`."""
        return ways_round(np.array([line * FLIP for line in self.sewing]))

    @cached_property
    def folds(self) -> tuple[tuple[Floats, Floats] | None, ...]:
        """Both ends `(2,)` of each sewn fold."""
        edge = next((edge for edge in self.piece.edges if edge.on_fold), None)
        return tuple(cubic.ends(edge.segments[body] * FLIP) if edge else None for body in self.bodies)

    @cached_property
    def cutting_edges(self) -> list[tuple[tuple[Edge, Floats], ...]]:
        """Each cutting line edge by edge `(n, 4, 2)`, without the fold; under one name if it has no clear corners."""
        corners = np.stack([edge.segments[list(self.bodies), 0, 0] for edge in self.piece.edges], axis=1) * FLIP
        turns = turns_of(self.cutting)
        return [self._parted(k, at, turn) for k, (at, turn) in enumerate(zip(corners, turns, strict=True))]

    def _parted(self, number: int, corners: Floats, turn: Floats) -> tuple[tuple[Edge, Floats], ...]:
        edges, cutting, fold = self.piece.edges, self.cutting[number], self.folds[number]
        reach = max(1.0, _CORNER_REACH * max(edge.allowance for edge in edges))
        lines = parted_at_corners(cutting, corners, reach, turn, self._smooth[number])
        if lines is not None:
            return tuple((e, line) for e, line in zip(edges, lines, strict=True) if not e.on_fold)
        first = next((edge for edge in edges if not edge.on_fold), edges[0])
        keep = ~on_line(cutting, *fold) if fold else np.ones(len(cutting), dtype=bool)
        return tuple((first, run) for run in kept_runs(cutting, keep))

    @cached_property
    def _smooth(self) -> Bools:
        """Whether each edge goes on from the one before, with no corner and as wide an allowance: `(sizes, edges)`."""
        edges, bodies = self.piece.edges, list(self.bodies)
        arriving = np.stack([cubic.end_tangent(edge.segments[bodies, -1]) for edge in edges], axis=1)
        leaving = np.stack([cubic.start_tangent(edge.segments[bodies, 0]) for edge in edges], axis=1)
        widths = np.array([edge.allowance for edge in edges])
        alike = (widths == np.roll(widths, 1)) & (widths > 0)
        return np.asarray(alike & (cubic.dot(np.roll(arriving, 1, axis=1), leaving) > np.cos(SMOOTH)))

    @cached_property
    def cutting_rulers(self) -> list[tuple[Ruler, ...]]:
        """For measuring along each of `cutting_edges`."""
        found = Ruler.each([line for parts in self.cutting_edges for _, line in parts])
        ends = np.cumsum([0, *(len(parts) for parts in self.cutting_edges)]).tolist()
        return [tuple(found[a:b]) for a, b in pairwise(ends)]

    @cached_property
    def _sewing_rulers(self) -> dict[str, list[Ruler]]:
        return {}

    def sewing_rulers(self, edge: str) -> list[Ruler]:
        """For measuring along the sewing line of an edge in each size, y up."""
        if edge not in self._sewing_rulers:
            segments = self.piece.edge(edge).segments
            self._sewing_rulers[edge] = Ruler.each([segments[body] for body in self.bodies])
        return self._sewing_rulers[edge]

    @cached_property
    def notch_strokes(self) -> list[tuple[tuple[int, Floats], ...]]:
        """The notches that each size has, by their number in the piece: the strokes of each `(n, 1, 4, 2)`, y up."""
        notches = self.piece.notches
        shown = [(k, n) for k, body in enumerate(self.bodies) for n in range(len(notches)) if _has(notches[n], body)]
        found: list[list[tuple[int, Floats]]] = [[] for _ in self.bodies]
        if shown:
            ends = np.cumsum([notches[n].strokes for _, n in shown])[:-1]
            for (size, number), part in zip(shown, np.split(self._strokes(shown), ends), strict=True):
                found[size].append((number, part))
        return [tuple(some) for some in found]

    def _strokes(self, shown: Sequence[tuple[int, int]]) -> Floats:
        """The strokes of all these notches of sizes, one after another, `(n, 1, 4, 2)`, y up."""
        notches = [self.piece.notches[number] for _, number in shown]
        rulers = [self.sewing_rulers(notch.edge)[k] for notch, (k, _) in zip(notches, shown, strict=True)]
        at = [strokes_at(notch, self.bodies[k]) for notch, (k, _) in zip(notches, shown, strict=True)]
        points, directions = places_on(rulers, at)
        counts, sizes = [notch.strokes for notch in notches], np.array([k for k, _ in shown])
        allowances = np.repeat([self.piece.edge(notch.edge).allowance for notch in notches], counts)
        of = np.repeat(sizes, counts)
        return strokes(points, directions, allowances, self.cutting_rings[of], self.outward[of])


def _has(notch: Notch, body: int) -> bool:
    return bool(np.isfinite(notch.at[body]))


@lru_cache(maxsize=128)  # ten pieces in ten sizes, and their nests
def sized_lines(piece: Piece, bodies: tuple[int, ...]) -> SizedLines:
    """The lines of a piece for these of its bodies."""
    sewing = tuple(sewing_line(piece, body) * FLIP for body in bodies)
    return SizedLines(piece, bodies, sewing, tuple(cutting_line(piece, body) * FLIP for body in bodies))
