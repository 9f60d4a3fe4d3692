"""Outlines as shapely polygons, and polygons as cells of a grid: what searches for room work on."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from typing import Any

import numpy as np

from draft.base.arrays import Bools, Floats, repeated
from draft.geometry.flatten import polyline

_POLYGON = 3
"""What shapely calls the kind of a polygon."""


def polygon(outline: Floats) -> Any:
    """A closed outline `(S, 4, 2)` as a shapely polygon, mended if it touches itself."""
    return polygons([polyline(outline)])[0]


def polygons(outlines: Sequence[Floats]) -> list[Any]:
    """Closed polylines of points `(n, 2)`, each as a shapely polygon, mended where it touches itself."""
    import shapely

    shapes = shapely.polygons(rings(outlines))
    good = shapely.is_valid(shapes).tolist()
    return [shape if ok else shapely.make_valid(shape) for shape, ok in zip(shapes, good, strict=True)]


def rings(outlines: Sequence[Floats]) -> Any:
    """Closed polylines of points `(n, 2)` as shapely rings `(outlines,)`."""
    import shapely

    of = np.repeat(np.arange(len(outlines)), [len(points) for points in outlines])
    return shapely.linearrings(np.concatenate(outlines), indices=of)


def rings_of(shape: Any) -> list[Floats]:
    """All rings `(n, 2)` of a shapely shape, holes too, each closed."""
    import shapely

    parts = shapely.get_parts(shape)
    rings = shapely.get_rings(parts[(shapely.get_type_id(parts) == _POLYGON) & ~shapely.is_empty(parts)])
    ends = np.cumsum(shapely.get_num_coordinates(rings)).tolist()
    points = shapely.get_coordinates(rings)
    return [points[begin:end] for begin, end in pairwise([0, *ends])]


def mask(rings: list[Floats], origin: Floats, cell: tuple[float, float], shape: tuple[int, int]) -> Bools:
    """Which cells `(rows, columns)` of a grid have their middle inside the rings (even-odd rule)."""
    rows, columns = shape
    starts = np.concatenate([ring[:-1] for ring in rings])
    ends = np.concatenate([ring[1:] for ring in rings])
    y = origin[1] + (np.arange(rows) + 0.5) * cell[1]
    first = np.searchsorted(y, np.minimum(starts[:, 1], ends[:, 1]))  # a row is crossed from its lower end on
    which, after = repeated(np.searchsorted(y, np.maximum(starts[:, 1], ends[:, 1])) - first)
    row = first[which] + after
    a, b = starts[which], ends[which]
    x = a[:, 0] + (y[row] - a[:, 1]) * (b[:, 0] - a[:, 0]) / (b[:, 1] - a[:, 1])
    column = np.clip(np.ceil((x - origin[0]) / cell[0] - 0.5), 0, columns).astype(int)
    toggles = np.zeros((rows, columns + 1), dtype=np.uint8)  # which overflows evenly
    np.add.at(toggles, (row, column), 1)
    return np.asarray(np.bitwise_xor.accumulate(toggles & 1, axis=1)[:, :columns].view(np.bool_))
