"""A lay made shorter by moving all its pieces at once, each a little, as far as one linear program lets them.

Between two pieces that lie near one another stand walls, straight lines that part where one of them lies beside the
other from where it may not; the strip's length is the least that the walls allow. Walls are set up anew where the
pieces have come to lie, until that gives nothing more (Li and Milenkovic, "Compaction and separation algorithms for
non-convex polygons and their applications", 1995, from memory). The same lay always gives the same one.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from functools import cached_property
from importlib.util import find_spec
from typing import Any, TypeAlias

import numpy as np

from draft.base.arrays import Floats
from draft.base.record import dataclass
from draft.cloth.batches import Shelf
from draft.cloth.search import StripLay
from draft.geometry.cubic import dot, norm

_REACH = 40.0
"""How far each piece may move at a time, across and along, mm."""
_ROUNDS = 12
_WORTH = 0.3
"""A round that gives less, mm, is the last."""
_WALLS = 4
"""Where so many straight lines do not part two pieces, they keep their places to one another."""
_DEEP = 0.003
"""Regions where pieces may not lie may be entered by so many mm: with their slack, half of what a check lets pass."""
_SLIVER = 1e-3
_SAME = 1e-3
_FAR = 1e4
_LOWER = 1e-3
"""The weight of the mean height of the pieces, beside the length: what may sink, sinks."""

_Wall: TypeAlias = tuple[Floats, float]
"""The way out of a region, a unit vector `(2,)`, and how far in the other piece may come against it, mm."""


def installed() -> bool:
    """Whether the library for linear programs is there."""
    return find_spec("scipy") is not None


def compacted(laid: StripLay, width: float, shelf: Shelf) -> StripLay:
    """The lay of single cloth `width` mm wide, shorter if it can be; shapes are this shelf's."""
    for _ in range(_ROUNDS):
        moved = _Near(laid, width, shelf).moved()
        if moved is None or moved.length >= laid.length:
            return laid
        laid, before = moved, laid.length
        if before - laid.length < _WORTH:
            break
    return laid


@dataclass(frozen=True)
class _Near:
    """The pieces of a lay, and which lie near enough to one another to meet."""

    laid: StripLay
    width: float
    shelf: Shelf

    @cached_property
    def at(self) -> Floats:
        """Where each piece lies, `(n, 2)`."""
        return np.array([(put.x, put.y) for put in self.laid.puts])

    @cached_property
    def boxes(self) -> tuple[Floats, Floats]:
        """The low and high corners of all true outlines, `(n, 2)` each, about their own places."""
        shapes = [put.shape for put in self.laid.puts]
        return np.array([shape.low for shape in shapes]), np.array([shape.high for shape in shapes])

    @cached_property
    def pairs(self) -> list[tuple[int, int]]:
        """Pieces that may meet while each moves as far as it may."""
        low, high = (corner + self.at for corner in self.boxes)
        near = (low[:, None] - 2 * _REACH < high[None]).all(axis=-1)
        return [(int(j), int(k)) for j, k in np.argwhere(near & near.T) if j < k]

    @cached_property
    def regions(self) -> Any:
        """For each pair where the second may not lie beside the first, shapely shapes `(pairs,)`."""
        puts = self.laid.puts
        return np.array([self.shelf.no_fit(puts[j].shape, puts[k].shape) for j, k in self.pairs], dtype=object)

    @cached_property
    def walls(self) -> list[list[_Wall] | None]:
        """For each pair what parts it, None where it must be kept as it is."""
        import shapely

        beside = np.array([self.at[k] - self.at[j] for j, k in self.pairs])
        about = shapely.box(*(beside - 2 * _REACH).T, *(beside + 2 * _REACH).T)
        return [_walls(*one) for one in zip(shapely.intersection(self.regions, about), beside, strict=True)]

    def moved(self) -> StripLay | None:
        """The pieces where they make the shortest lay; None where nothing was found that keeps them apart."""
        stiff = {number for number, walls in enumerate(self.walls) if walls is None}
        for _ in range(_ROUNDS):
            at = self._solved(stiff)
            meeting = set() if at is None else self._meeting(at) - stiff
            if at is not None and not meeting:
                puts = self.laid.puts
                return StripLay.of([replace(put, x=x, y=y) for put, (x, y) in zip(puts, at.tolist(), strict=True)])
            if not meeting:
                return None
            stiff |= meeting
        return None

    def _meeting(self, at: Floats) -> set[int]:
        """The numbers of the pairs that lie on one another."""
        import shapely

        points = shapely.points(np.array([at[k] - at[j] for j, k in self.pairs]))
        within = np.flatnonzero(shapely.contains(self.regions, points))
        deep = shapely.distance(shapely.boundary(self.regions[within]), points[within]) > _DEEP
        return set(within[deep].tolist())

    def _solved(self, stiff: set[int]) -> Floats | None:
        """Where the pieces come to lie `(n, 2)`, with stiff pairs as they are to one another; None for no answer."""
        from scipy.optimize import linprog
        from scipy.sparse import coo_array

        count = 2 * len(self.at)
        rows = [*self._tops(), *(row for number in range(len(self.pairs)) for row in self._rows(number, stiff))]
        entries = [(number, column, by) for number, (terms, _) in enumerate(rows) for column, by in terms]
        row, column, by = (np.array(part) for part in zip(*entries, strict=True))
        matrix = coo_array((by, (row, column)), shape=(len(rows), count + 1)).tocsr()
        weights = np.zeros(count + 1)
        weights[1:count:2], weights[count] = _LOWER / len(self.at), 1.0
        bounds = [*self._bounds(), (0.0, None)]
        found = linprog(weights, matrix, [limit for _, limit in rows], bounds=bounds, method="highs")
        return None if found.x is None else self.at + found.x[:count].reshape(-1, 2)

    def _tops(self) -> Iterator[tuple[list[tuple[int, float]], float]]:
        """No piece ends above the strip's end: terms by their columns, and what they come to at most."""
        end, tops = 2 * len(self.at), self.at[:, 1] + self.boxes[1][:, 1]
        for k, top in enumerate(tops.tolist()):
            yield [(2 * k + 1, 1.0), (end, -1.0)], -top

    def _rows(self, number: int, stiff: set[int]) -> Iterator[tuple[list[tuple[int, float]], float]]:
        """The same of one pair: both keep to their sides of each wall, or to one another."""
        j, k = self.pairs[number]
        walls = self.walls[number]
        if number in stiff or walls is None:
            walls = [(np.array(way), 0.0) for way in ((1.0, 0.0), (-1.0, 0.0), (0.0, 1.0), (0.0, -1.0))]
        for (x, y), room in walls:
            yield [(2 * k, -x), (2 * k + 1, -y), (2 * j, x), (2 * j + 1, y)], room

    def _bounds(self) -> Iterator[tuple[float, float]]:
        """How far each piece may move across and along."""
        low, high = (corner + self.at for corner in self.boxes)
        for (left, foot), (right, _) in zip(low.tolist(), high.tolist(), strict=True):
            yield max(-_REACH, min(-left, 0.0)), min(_REACH, max(self.width - right, 0.0))
            yield max(-_REACH, min(-foot, 0.0)), _REACH


def _walls(region: Any, beside: Floats) -> list[_Wall] | None:
    """What parts a place from a region near it: the line of the nearest side first, then of what lies beyond that."""
    import shapely

    found: list[_Wall] = []
    while shapely.area(region) > _SLIVER:
        nearest = _nearest_side(region, beside)
        if nearest is None or len(found) == _WALLS:
            return None
        way, at = nearest
        found.append((way, max(float(dot(way, beside)) - at, 0.0)))
        along = np.array([-way[1], way[0]]) * _FAR
        line = way * (at + _SAME / 10)
        beyond = [line - along, line + along, line + along + way * _FAR, line - along + way * _FAR]
        region = shapely.intersection(region, shapely.Polygon(beyond))
    return found


def _nearest_side(region: Any, beside: Floats) -> tuple[Floats, float] | None:
    """The way out of the side that is nearest to a place, and how far out it stands; None if the place lies within."""
    import shapely

    parts = [part for part in shapely.get_parts(region) if part.geom_type == "Polygon"]
    rings = [shapely.get_coordinates(ring) for part in parts for ring in shapely.get_rings(shapely.normalize(part))]
    starts, ends = (np.concatenate([ring[some] for ring in rings]) for some in (slice(None, -1), slice(1, None)))
    sides = ends - starts
    long = norm(sides)
    starts, sides, long = starts[long > _SLIVER], sides[long > _SLIVER], long[long > _SLIVER]
    out = np.stack([-sides[:, 1], sides[:, 0]], axis=1) / long[:, None]  # rings run clockwise about what they enclose
    before = dot(out, beside - starts)
    share = np.clip(dot(sides, beside - starts) / long**2, 0.0, 1.0)
    far = np.where(before < -2 * _DEEP, np.inf, norm(starts + share[:, None] * sides - beside))
    if not len(far) or not np.isfinite(far.min()):
        return None
    near = np.flatnonzero(far < far.min() + _SAME)
    best = near[int(np.argmax(before[near]))]
    return out[best], float(dot(out[best], starts[best]))
