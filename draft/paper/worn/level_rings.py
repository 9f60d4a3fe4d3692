"""The rings round all of a picture where a figure is above a level: smooth lines between cells (marching squares).

Rings run with what is above on their left, and round holes the other way, so that a fill leaves these open.
"""

from __future__ import annotations

import numpy as np

from draft.base.arrays import Bools, Floats, Ints

_CELLS = 3
"""Cells on either side over which an edge is smoothed before a line is drawn along it."""


def level_rings(figure: Floats, simple: float = 0.3) -> list[Floats]:
    """Closed rings `(n, 2)` in columns and rows where `figure` `(rows, columns)` passes nothing.

    They lie within `simple` cells of the line; what is smaller than that is left out.
    """
    import shapely

    padded = np.pad(figure, 1, constant_values=min(float(figure.min()), -1e-3))
    rings = [ring - 1.0 for ring in _chained(padded)]
    rings = [ring for ring in rings if len(ring) > 3]
    if not rings:
        return []
    plain = shapely.simplify(shapely.linestrings([]) if not rings else _closed(rings), simple)
    found = [np.asarray(shapely.get_coordinates(one))[:-1] for one in plain]
    return [ring for ring in found if len(ring) > 2]


def _closed(rings: list[Floats]) -> list[object]:
    import shapely

    return [shapely.linestrings(np.concatenate([ring, ring[:1]])) for ring in rings]


def _chained(figure: Floats) -> list[Floats]:
    """Rings through the places where lines between neighbouring cells' middles pass nothing."""
    rows, columns = figure.shape
    starts, ends = _segments(figure > 0)
    after = np.full(2 * rows * columns, -1)
    after[starts] = ends
    places = _places(figure)
    follow: list[int] = after.tolist()
    rings = []
    for start in starts.tolist():
        if follow[start] < 0:
            continue
        ring, at = [], start
        while follow[at] >= 0:
            ring.append(at)
            follow[at], at = -1, follow[at]
        rings.append(places[np.array(ring)])
    return rings


def _segments(above: Bools) -> tuple[Ints, Ints]:
    """Where the line enters and leaves each square of four cells, as numbers of the edges between two cells."""
    rows, columns = above.shape
    a, b, c, d = above[:-1, :-1], above[:-1, 1:], above[1:, 1:], above[1:, :-1]
    case = a + 2 * b + 4 * c + 8 * d
    number = np.arange(rows * columns).reshape(rows, columns)
    level, upright = number, number + rows * columns
    top, bottom = level[:-1, :-1], level[1:, :-1]
    left, right = upright[:-1, :-1], upright[:-1, 1:]
    edge = {"t": top, "b": bottom, "l": left, "r": right}
    starts, ends = [], []
    for value, ways in _CASES.items():
        at = case == value
        for way in ways:
            starts.append(edge[way[0]][at])
            ends.append(edge[way[1]][at])
    return np.concatenate(starts), np.concatenate(ends)


_CASES = {
    1: ("lt",),
    2: ("tr",),
    3: ("lr",),
    4: ("rb",),
    5: ("lt", "rb"),
    6: ("tb",),
    7: ("lb",),
    8: ("bl",),
    9: ("bt",),
    10: ("tr", "bl"),
    11: ("br",),
    12: ("rl",),
    13: ("rt",),
    14: ("tl",),
}
"""By which corners are above (1 upper left, 2 upper right, 4 lower right, 8 lower left), from which edge to which."""


def _places(figure: Floats) -> Floats:
    """Where the line crosses each edge, in columns and rows; anything where it does not."""
    rows, columns = figure.shape
    row, column = np.mgrid[:rows, :columns].astype(float)
    right, down = np.zeros_like(figure), np.zeros_like(figure)
    right[:, :-1], down[:-1] = figure[:, 1:], figure[1:]
    with np.errstate(divide="ignore", invalid="ignore"):
        level = np.stack([column + figure / (figure - right), row], axis=-1)
        upright = np.stack([column, row + figure / (figure - down)], axis=-1)
    return np.concatenate([level.reshape(-1, 2), upright.reshape(-1, 2)])


def smoothed(values: Floats, where: Bools, cells: int = _CELLS) -> Floats:
    """Values `(rows, columns)` averaged with those near them that are there, and carried on where none are."""
    weight, total = where.astype(float), np.where(where, values, 0.0)
    for _ in range(2):
        weight, total = _averaged(weight, cells), _averaged(total, cells)
    return np.asarray(np.where(weight > 1e-6, total / np.maximum(weight, 1e-6), 0.0))


def cover(where: Bools) -> Floats:
    """How far each cell `(rows, columns)` lies within what is covered: above nothing there, smooth at its border."""
    soft = where.astype(float)
    for cells in (2, 2, 1):
        soft = _averaged(soft, cells)
    return np.asarray(soft - 0.5)


def _averaged(values: Floats, cells: int) -> Floats:
    for axis in (0, 1):
        wide = [(0, 0), (0, 0)]
        wide[axis] = (cells + 1, cells)
        sums = np.cumsum(np.pad(values, wide), axis=axis)
        length, span = values.shape[axis], 2 * cells + 1
        ahead, behind = (np.take(sums, range(k, k + length), axis) for k in (span, 0))
        values = (ahead - behind) / span
    return values
