"""An outline made into the one that is drafted: within its allowance, half of it on a fold, beginning at 0, 0."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from draft.base.arrays import Floats
from draft.base.notes import Problems, error
from draft.beginning.chosen import Found
from draft.beginning.joined import Outline
from draft.beginning.said_by_lines import FOLD
from draft.geometry.cubic import lines_through, norm, point, split
from draft.geometry.flatten import flatten

FINE = 0.005
ALIKE = 0.2
"""mm: halves that differ by more are not one another's mirror images."""
_MITRE = 10.0
_ON_FOLD = 0.01


def stop_if_crossing(found: Found, called: str, upwards: float) -> None:
    """Raises `Problems` for an outline that crosses itself, with the place in a drawing whose y points so."""
    import shapely

    shape = shapely.Polygon(flatten(found.outline.path, 0.02))
    if not shapely.is_valid(shape):
        where = shapely.is_valid_reason(shape).partition("[")[2].rstrip("]").split()
        at = f" at {float(where[0]):.1f}, {upwards * float(where[1]):.1f} mm" if len(where) == 2 else ""
        fix = "draw it once round; of lines that cross choose those of a layer with `--layer`"
        raise Problems([error(f"the outline of `{called}` crosses itself{at}", None, fix)])


def sewing_line(found: Found, allowance: float, called: str) -> Found:
    """The line so far (mm) within a cutting line; along a fold there is no allowance.

    Raises `Problems` where nothing, or more than one part, is left within.
    """
    import shapely

    points = flatten(found.outline.path, FINE)
    whole = shapely.Polygon(points)
    folds = [seg for seg, name in zip(found.outline.path, found.edges, strict=True) if name == FOLD]
    if folds:
        start, way = folds[0][0], folds[-1][3] - folds[0][0]
        whole = shapely.union_all([whole.buffer(1e-6), shapely.Polygon(_mirrored(points, start, way)).buffer(1e-6)])
    inner = shapely.buffer(whole, -allowance, join_style="mitre", mitre_limit=_MITRE)
    if folds:
        inner = shapely.intersection(inner, _side_of(start, way))
    if inner.geom_type != "Polygon" or inner.is_empty:
        fix = "give the allowance that it truly has, or none"
        raise Problems([error(f"within the allowance of `{called}` no one outline is left", None, fix)])
    ring = shapely.get_coordinates(shapely.remove_repeated_points(shapely.orient_polygons(inner).exterior, 1e-4))[:-1]
    path = lines_through(ring, closed=True)
    edges = tuple(FOLD if folds and _on(seg, start, way) else "" for seg in path)
    if folds and FOLD in edges and edges[0] == edges[-1] == FOLD:
        first = edges.index("") if "" in edges else 0
        path, edges = np.roll(path, -first, axis=0), (*edges[first:], *edges[:first])
    return replace(found, outline=Outline(path, tuple(range(len(path)))), edges=edges)


def _mirrored(points: Floats, start: Floats, way: Floats) -> Floats:
    along = way / norm(way)
    off = points - start
    return np.asarray(start + 2 * (off @ along)[:, None] * along - off)


def _side_of(start: Floats, way: Floats) -> object:
    """A large shape to the left of a line, where a piece lies that is run round counterclockwise."""
    import shapely

    along = way / norm(way) * 1e5
    left = np.array([-along[1], along[0]])
    return shapely.Polygon([start - along, start + along, start + along + left, start - along + left])


def _on(seg: Floats, start: Floats, way: Floats) -> bool:
    off = (seg[[0, 3]] - start) @ np.array([-way[1], way[0]]) / norm(way)
    return bool(np.abs(off).max() < _ON_FOLD)


def half_of(found: Found, called: str) -> Found:
    """The right or upper half of an outline that is its own mirror image, with a fold between.

    Raises `Problems` where it is not, with by how much.
    """
    import shapely

    points = flatten(found.outline.path, FINE)
    middle = (points.min(axis=0) + points.max(axis=0)) / 2
    ring, off = shapely.LineString(points), []
    for way in (np.array([0.0, 1.0]), np.array([1.0, 0.0])):
        other = shapely.points(_mirrored(points, middle, way))
        off.append(float(np.max(shapely.distance(other, ring))))
        if off[-1] <= ALIKE and (half := _half(found, middle, way)):
            return half
    fact = f"`{called}` is no mirror image of itself: its halves differ by {min(off):.1f} mm"
    raise Problems([error(fact, None, "leave `--fold` out")])


def _half(found: Found, middle: Floats, way: Floats) -> Found | None:
    """What lies to the right of a line up, or above a line across; None where it is crossed more than twice."""
    aside = np.array([way[1], way[0]])
    segments, edges = [], []
    for seg, name in zip(found.outline.path, found.edges, strict=True):
        for part in _parted(seg, middle, aside):
            segments.append(part)
            edges.append(name)
    path = np.array(segments)
    kept = (point(path, 0.5) - middle) @ aside > 0
    first = np.flatnonzero(kept & ~np.roll(kept, 1))
    if len(first) != 1:
        return None
    order = (np.arange(len(path)) + first[0]) % len(path)
    order = order[kept[order]]
    half = path[order]
    for at in ((0, 0), (-1, 3)):
        half[at] -= ((half[at] - middle) @ aside) * aside
    closing = lines_through(np.stack([half[-1, 3], half[0, 0]]))
    whole = np.concatenate([half, closing])
    return replace(found, outline=Outline(whole, tuple(range(len(whole)))), edges=(*(edges[k] for k in order), FOLD))


def _parted(seg: Floats, middle: Floats, aside: Floats) -> list[Floats]:
    """A segment parted where it crosses a line."""
    a, b, c, d = (seg - middle) @ aside
    roots = np.roots([d - 3 * c + 3 * b - a, 3 * (c - 2 * b + a), 3 * (b - a), a])
    at = sorted(float(root.real) for root in roots if abs(root.imag) < 1e-9 and 1e-6 < root.real < 1 - 1e-6)
    found, rest, done = [], seg, 0.0
    for t in at:
        first, rest = split(rest, (t - done) / (1 - done))
        found.append(first)
        done = t
    return [*found, rest]


def moved(found: Found, origin: Floats) -> Found:
    """The same with another place `(2,)` at 0, 0."""
    return replace(found, outline=replace(found.outline, path=found.outline.path - origin))


def origin_of(found: Found) -> Floats:
    """What becomes 0, 0 `(2,)`: the lower end of a fold, or the lower left of the whole."""
    path = found.outline.path
    on_fold = [k for k, name in enumerate(found.edges) if name == FOLD]
    some = path[on_fold] if on_fold else path
    return np.asarray(some.reshape(-1, 2).min(axis=0))
