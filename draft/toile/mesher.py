"""A panel's outline filled with triangles: a hexagonal lattice inside, joined to the divided outline."""

from __future__ import annotations

import numpy as np
import shapely

from draft.base.arrays import Bools, Floats, Ints
from draft.toile.panel import Panel
from draft.toile.why_not import CannotDress

_LATTICE = 0.96  # of the edge length between points inside
_CLEAR = 0.62  # of that between points inside and the outline
_ROUNDS = 2  # of drawing each point inside to the middle of its neighbours
_BULGE = 0.05
"""mm by which the middle of each line is moved outwards while triangles are looked for: vertices that lie in one line
but for what a machine rounds off would else be corners of triangles without area alone."""
_TURNS = (0.0, 0.37, 1.13)  # radians
_SLIVER = 1e-4  # of the edge length squared: nothing that is drawn is as small


def mesh(panel: Panel, edge_length: float) -> None:
    """Fills in the panel's `rest`, `triangles` and `at`; every line is divided. Raises CannotDress where none is found.

    Its area is that of the divided outline, and each of the outline's divisions is the side of one triangle.
    """
    for line in panel.lines.values():
        line.divided(edge_length)
    outline, rings = _outline(panel)
    bulge = _bulge(panel, outline)
    area = shapely.Polygon(outline[rings[0]], [outline[ring] for ring in rings[1:]])
    if not area.is_valid:
        raise CannotDress("why_crosses_itself", name_piece=panel.name)
    points = np.concatenate([outline, _inside(area, edge_length)])
    sides = np.concatenate([np.stack([ring, np.roll(ring, -1)], axis=1) for ring in rings])
    triangles = _joined(points, bulge, area, sides)
    for _ in range(_ROUNDS if len(triangles) else 0):
        points = _drawn_together(points, triangles, len(outline))
        triangles = _joined(points, bulge, area, sides)
    whole = float(_areas(points, triangles).sum())
    if abs(whole - area.area) > 1e-6 * area.area:
        raise CannotDress("why_no_mesh", name_piece=panel.name)
    panel.rest, panel.triangles = points, triangles


def _outline(panel: Panel) -> tuple[Floats, list[Ints]]:
    """The vertices round the panel and its holes, `(n, 2)`, and their numbers round each; notes those of its lines."""
    points: list[Floats] = []
    rings = []
    count = 0
    for names in [panel.ring, *panel.holes]:
        first = count
        for name in names:
            found = panel.lines[name].vertices
            panel.at[name] = count + np.arange(len(found))
            points.append(found[:-1])
            count += len(found) - 1
        panel.at[names[-1]] = np.append(panel.at[names[-1]][:-1], first)
        rings.append(np.arange(first, count))
    return np.concatenate(points), rings


def _inside(area: shapely.Polygon, edge_length: float) -> Floats:
    """Points of a hexagonal lattice within the outline, not too near to it."""
    step = edge_length * _LATTICE
    x0, y0, x1, y1 = area.bounds
    rows = np.arange(int((y1 - y0) / (step * np.sqrt(0.75))) + 2)
    columns = np.arange(int((x1 - x0) / step) + 2)
    x = x0 + step * (columns[None, :] + (rows[:, None] % 2) / 2)
    y = np.broadcast_to(y0 + step * np.sqrt(0.75) * rows[:, None], x.shape)
    points = np.stack([x.ravel(), y.ravel()], axis=1)
    points = points[shapely.contains_xy(area, points[:, 0], points[:, 1])]
    clear = shapely.distance(area.boundary, shapely.points(points)) > _CLEAR * step
    return np.asarray(points[clear])


def _bulge(panel: Panel, outline: Floats) -> Floats:
    """By how much each vertex of the outline is moved outwards `(n, 2)`: most in the middle of its line."""
    found = np.zeros_like(outline)
    for names in [panel.ring, *panel.holes]:
        corners = np.concatenate([panel.lines[name].vertices[:-1] for name in names])
        after = np.roll(corners, -1, axis=0)
        turns = np.sign(_cross(corners, after).sum()) * (1.0 if names == panel.ring else -1.0)
        for name in names:
            vertices, way = outline[panel.at[name]], panel.lines[name].points[-1] - panel.lines[name].points[0]
            share = np.linspace(0.0, 1.0, len(vertices))[1:-1, None]
            out = turns * np.array([way[1], -way[0]]) / max(float(np.hypot(*way)), 1e-9)
            found[panel.at[name][1:-1]] = 4 * share * (1 - share) * _BULGE * out
    return found


def _joined(points: Floats, bulge: Floats, area: shapely.Polygon, sides: Ints) -> Ints:
    """The triangles `(t, 3)` between the points that lie within the outline, counterclockwise."""
    moved = points.copy()
    moved[: len(bulge)] += bulge
    triangles = with_sides(moved, _delaunay(moved), sides)
    middles = points[triangles].mean(axis=1)
    triangles = triangles[shapely.contains_xy(area, middles[:, 0], middles[:, 1])]
    double = 2 * _areas(points, triangles)
    turned = np.where((double < 0)[:, None], triangles[:, ::-1], triangles)
    return np.asarray(turned[np.abs(double) > _SLIVER])


def _delaunay(points: Floats) -> Ints:
    """The triangles `(t, 3)` between all points, turned a little where many lie in one line: GEOS trips there.

    None where it trips over all of them.
    """
    for angle in _TURNS:
        turned = points @ np.array([[np.cos(angle), np.sin(angle)], [-np.sin(angle), np.cos(angle)]])
        try:
            found = shapely.get_parts(shapely.delaunay_triangles(shapely.multipoints(turned)))
        except shapely.errors.GEOSException:
            continue
        return _numbers(turned, shapely.get_coordinates(found).reshape(-1, 4, 2)[:, :3])
    return np.zeros((0, 3), dtype=np.intp)


def _numbers(points: Floats, corners: Floats) -> Ints:
    """Which point each corner `(t, 3, 2)` is."""
    keys = points[:, 0] + 1j * points[:, 1]
    order = np.argsort(keys)
    found = np.searchsorted(keys[order], corners[..., 0] + 1j * corners[..., 1])
    return np.asarray(order[np.minimum(found, len(order) - 1)])


def with_sides(points: Floats, triangles: Ints, sides: Ints) -> Ints:
    """The triangles with their diagonals turned until each of the sides `(s, 2)` is one of theirs."""
    found = triangles.copy()
    for _ in range(20):
        missing = sides[~_has(found, sides, len(points))]
        if not len(missing):
            return found
        turned = False
        for side in missing:
            turned |= _turn_across(points, found, side)
        if not turned:
            break
    return found


def _has(triangles: Ints, sides: Ints, count: int) -> Bools:
    around = np.concatenate([triangles[:, [0, 1]], triangles[:, [1, 2]], triangles[:, [2, 0]]])
    known = np.sort(around, axis=1) @ np.array([count, 1])
    return np.isin(np.sort(sides, axis=1) @ np.array([count, 1]), known)


def _turn_across(points: Floats, triangles: Ints, side: Ints) -> bool:
    """Turns one diagonal that crosses a side, in place; whether there was one that could be turned."""
    a, b = points[side[0]], points[side[1]]
    off = _cross(b - a, points[triangles] - a)
    crossed = np.flatnonzero((off.max(axis=1) > 0) & (off.min(axis=1) < 0))
    edges: dict[tuple[int, int], list[int]] = {}
    for t in crossed:
        for k in range(3):
            p, q = int(triangles[t, k]), int(triangles[t, (k + 1) % 3])
            edges.setdefault((min(p, q), max(p, q)), []).append(int(t))
    for (p, q), owners in edges.items():
        if len(owners) == 2 and not {p, q} & set(side.tolist()) and _cuts(points[p], points[q], a, b):
            r, s = (int(next(v for v in triangles[t] if v not in (p, q))) for t in owners)
            if _cuts(points[r], points[s], points[p], points[q]):
                triangles[owners[0]], triangles[owners[1]] = [r, s, p], [s, r, q]
                return True
    return False


def _cross(way: Floats, other: Floats) -> Floats:
    return np.asarray(way[..., 0] * other[..., 1] - way[..., 1] * other[..., 0])


def _cuts(p: Floats, q: Floats, a: Floats, b: Floats) -> bool:
    """Whether two stretches cross, neither ending on the other."""
    return bool(_cross(b - a, p - a) * _cross(b - a, q - a) < 0 and _cross(q - p, a - p) * _cross(q - p, b - p) < 0)


def _drawn_together(points: Floats, triangles: Ints, fixed: int) -> Floats:
    """Each point inside moved to the middle of its neighbours."""
    around = np.concatenate([triangles[:, [0, 1]], triangles[:, [1, 2]], triangles[:, [2, 0]]])
    around = np.concatenate([around, around[:, ::-1]])
    total = np.stack([np.bincount(around[:, 0], points[around[:, 1], k], len(points)) for k in range(2)], axis=1)
    middle = total / np.maximum(np.bincount(around[:, 0], minlength=len(points)), 1)[:, None]
    moved = points.copy()
    moved[fixed:] = middle[fixed:]
    return moved


def _areas(points: Floats, triangles: Ints) -> Floats:
    p = points[triangles]
    return np.asarray(_cross(p[:, 1] - p[:, 0], p[:, 2] - p[:, 0]) / 2)


def least_angle(points: Floats, triangles: Ints) -> float:
    """The least angle in degrees of any of the triangles `(t, 3)` between points `(n, 2)`."""
    p = points[triangles]
    ways = [p[:, (k + 1) % 3] - p[:, k] for k in range(3)]
    long = [np.hypot(*way.T) for way in ways]
    angles = [
        np.arccos(np.clip(-(ways[k] * ways[k - 1]).sum(axis=1) / (long[k] * long[k - 1]), -1.0, 1.0)) for k in range(3)
    ]
    return float(np.degrees(np.min(angles)))
