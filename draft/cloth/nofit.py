"""Where one outline may not lie beside another: the no-fit region of two rings, found once and used at every place.

The region is the Minkowski sum of one ring and the other turned end for end. Its boundary is part of the reduced
convolution of the two: each side of one, carried by the corners of the other that it can touch (Behar and Lien, "Fast
and robust 2D Minkowski sum using reduced convolution", 2011, from memory). The faces of those lines are then told apart
by laying the one ring on the other, so that no winding number is needed.
"""

from __future__ import annotations

from typing import Any

import numpy as np

from draft.base.arrays import Floats
from draft.geometry.cubic import cross, dot, unit

SLACK = 0.002
"""Outlines may lie so many mm deeper than touching, or a gap just as wide as a piece would be lost."""
_GRID = 1e-4
"""Sides lie on a grid of so many mm."""
_BESIDE = 10 * _GRID
_SLIVER = 1e-9


def region(fixed: Floats, moving: Floats) -> Any:
    """The moves `(x, y)` that lay the ring `moving` on the ring `fixed`: a shapely polygon, smaller by `SLACK`."""
    import shapely

    sides = np.round(_convolution(fixed, -moving) / _GRID) * _GRID
    faces = shapely.get_parts(shapely.polygonize(_net(shapely.linestrings(sides))))
    whole = faces[0] if len(faces) == 1 else _lying_on(fixed, moving, faces)
    closed = whole.buffer(_GRID, join_style="mitre")  # no crack is left between two faces
    return closed.buffer(-_GRID - SLACK, join_style="mitre")


def _net(lines: Any) -> Any:
    """The lines parted wherever they meet, so that every face is closed.

    Crossings are as exact as numbers are, which is six times as quick as on the grid. Where nearly parallel sides would
    then miss one another by a hair, an end that meets nothing lies beside a line: such nets are found on the grid.
    """
    import shapely

    net = shapely.get_parts(shapely.union_all(lines))
    if _nearly_meet(net):
        net = shapely.get_parts(shapely.union_all(lines, grid_size=_GRID))
    return net


def _nearly_meet(net: Any) -> bool:
    """Whether an end that meets no other line of the net lies within some steps of the grid from one."""
    import shapely

    points, counts = shapely.get_coordinates(net), shapely.get_num_points(net)
    last = np.cumsum(counts)
    ends = np.concatenate([points[last - counts], points[last - 1]])
    _, first, meeting = np.unique(ends @ [1, 1j], return_index=True, return_counts=True)
    loose = shapely.points(ends[first[meeting == 1]])
    beside = shapely.STRtree(net).query(loose, predicate="dwithin", distance=_BESIDE)
    return bool(beside.shape[1] > len(loose))


def _lying_on(fixed: Floats, moving: Floats, faces: Any) -> Any:
    """The faces of the net whose moves lay one ring on the other, as one; they share whole sides, on the grid."""
    import shapely

    inside = shapely.get_coordinates(shapely.point_on_surface(faces))
    still = shapely.Polygon(fixed)
    shapely.prepare(still)
    return shapely.union_all(faces[shapely.intersects(still, shapely.polygons(moving[None] + inside[:, None]))])


def reversed_region(found: Any) -> Any:
    """The region of the same two rings with the other one moving."""
    import shapely

    return shapely.transform(found, lambda points: -points)


def _convolution(a: Floats, b: Floats) -> Floats:
    """The sides of each ring at the bulging corners of the other whose turn they lie within: `(n, 2, 2)`."""
    return np.concatenate([_carried(a, b), _carried(b, a)])


def _carried(sides: Floats, corners: Floats) -> Floats:
    side = np.roll(sides, -1, axis=0) - sides
    leaving = np.roll(corners, -1, axis=0) - corners
    arriving = np.roll(leaving, 1, axis=0)
    bulges = cross(arriving, leaving) >= -_SLIVER
    after, before = cross(arriving[None], side[:, None]), cross(side[:, None], leaving[None])
    same_way = dot((unit(arriving) + unit(leaving))[None], side[:, None]) > 0
    i, j = np.nonzero((after >= -_SLIVER) & (before >= -_SLIVER) & same_way & bulges[None])
    return np.stack([sides[i] + corners[j], np.roll(sides, -1, axis=0)[i] + corners[j]], axis=1)
