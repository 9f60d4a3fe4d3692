"""Where the levels of a piece are drawn: the height is the level's own, how far across is free.

Those of a nest stand below one another like the rungs of a ladder, or side by side where they would lie on one another;
all move across together, into every size, off the edges of pages and off what else is drawn.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import numpy as np

from draft.base.arrays import Floats
from draft.garment.garment import Mark
from draft.garment.marks import inner_legs
from draft.paper.piece.piece_lines import FLIP, Outlines
from draft.paper.piece.surface import Surface

LevelPlaces = tuple[tuple[str, tuple[tuple[float, float], ...]], ...]
"""The places of each level by its mark's name, on paper: one for each size, not finite where a size has none."""

RING, ARM, STEM = 3.0, 14.0, 6.0
"""The sign of a level: a ring with a long cross, mm."""
NEST_RING, NEST_ARM, NEST_STEM = 2.0, 6.0, 3.5
"""And where sizes lie on one another."""
_APART = 7.2
"""Of heights nearer than this, mm, the levels of two sizes are set side by side."""
_STEPS = (17.0, 14.0, 12.4)
"""From one to the next, mm: the widest that has room."""
_ALIKE = 0.2
"""Heights of all sizes within so many mm are one: they have one sign, that no size has a name at."""
_FOLD = 17.0
"""From a fold to a sign, mm: the bracket stands there."""
_ABOVE = 5.0
"""Room for the name above a sign, mm."""
_NAMED = 15.0
"""Room for the name beside a sign of a nest, mm."""
_SHIFTS = tuple(float(side * k) for k in (*range(0, 92, 4), *range(92, 212, 12)) for side in ((1, -1) if k else (1,)))
_OUTSIDE, _ON_EDGE, _ON_LINE = 6.0, 3.0, 1.0
"""How much worse a place is for each sign that lies outside its piece, on a page's edge, or on another line."""


def level_places(outlines: Sequence[Outlines], surface: Surface) -> LevelPlaces:
    """Where each level of a piece is drawn in each size."""
    found: list[tuple[str, tuple[tuple[float, float], ...]]] = []
    levels = [mark for mark in outlines[0].piece.marks if mark.line == "level"]
    taken = _others(outlines) if levels else []
    for mark in levels:
        points = _placed(mark, outlines, taken, surface)
        found.append((mark.name, tuple((float(x), float(y)) for x, y in points)))
        taken = [*taken, *_signs(points, outlines, surface)]
    return tuple(found)


def side_by_side(points: Floats, across: Floats) -> bool:
    """Whether levels at points `(n, 2)` are so near one another that each needs its place beside the others.

    `across` is the unit vector `(2,)` along their crosses.
    """
    along = np.array([-across[1], across[0]])
    wide, high = (np.abs((points[:, None] - points[None]) @ way) for way in (across, along))
    near = (wide < 2 * NEST_ARM + 1.0) & (high < _APART)
    return bool(near[~np.eye(len(points), dtype=bool)].any())


def _placed(mark: Mark, outlines: Sequence[Outlines], taken: Sequence[Any], surface: Surface) -> Floats:
    points = np.array([mark.points[one.body, 0] * FLIP for one in outlines])
    there = np.isfinite(points).all(axis=1)
    if not there.any():
        return points
    drawn = [one for one, known in zip(outlines, there, strict=True) if known]
    across = across_of(drawn[0])
    best, worst = points[there], np.inf
    for row in _rows(points[there], across):
        for shift in _SHIFTS:
            moved = row + shift * across
            bad = _faults(moved, drawn, taken, surface) + abs(shift) / 1000.0
            if bad < worst - 1e-9:
                best, worst = moved, bad
            if worst < _ON_LINE:
                break
        if worst < _ON_LINE:
            break
    points[there] = np.round(best, 6)
    return points


def across_of(one: Outlines) -> Floats:
    """The unit vector `(2,)` across a piece's grain, y down, to the right."""
    along = one.piece.grain[one.body] * FLIP
    across = np.array([-along[1], along[0]])
    return across if (across[0], across[1]) > (0.0, 0.0) else -across


def _rows(points: Floats, across: Floats) -> list[Floats]:
    """Each point on its height: all below one another, or with even steps from one size to the next."""
    if len(points) < 2:
        return [points]
    at = points @ across
    below = points + (at.mean() - at)[:, None] * across
    if np.ptp(below @ np.array([-across[1], across[0]])) < _ALIKE or not side_by_side(below, across):
        return [below]
    way = -1.0 if at[-1] < at[0] else 1.0
    rows = []
    for step in _STEPS:
        wished = at.mean() + way * step * (np.arange(len(points)) - (len(points) - 1) / 2)
        rows.append(points + (wished - at)[:, None] * across)
    return rows


def _faults(points: Floats, outlines: Sequence[Outlines], taken: Sequence[Any], surface: Surface) -> float:
    import shapely

    signs = np.array(_signs(points, outlines, surface))
    inside = shapely.contains(np.array([one.sewing_shape for one in outlines]), signs)
    hit = np.zeros(len(signs), dtype=bool)
    if len(taken):
        hit = shapely.intersects(signs[:, None], np.array(list(taken), dtype=object)[None]).any(axis=1)
    on_edge = np.zeros(len(signs), dtype=bool) if surface.edges is None else shapely.intersects(signs, surface.edges)
    return float(_OUTSIDE * (~inside).sum() + _ON_EDGE * on_edge.sum() + _ON_LINE * hit.sum())


def _signs(points: Floats, outlines: Sequence[Outlines], surface: Surface) -> list[Any]:
    """What each sign and its name take up, as shapely shapes."""
    import shapely

    along = outlines[0].piece.grain[outlines[0].body] * FLIP
    up = along if along[1] < 0 else -along
    across = across_of(outlines[0])
    arm, stem = (ARM, STEM) if len(outlines) == 1 else (NEST_ARM, NEST_STEM)
    right = arm + (_NAMED if len(outlines) > 1 and surface.quarters % 2 == 0 else 0.0)
    corners = [-arm * across - stem * up, right * across - stem * up, right * across + (stem + _ABOVE) * up]
    corners += [-arm * across + (stem + _ABOVE) * up, -arm * across - stem * up]
    return list(shapely.polygons([[point + corner for corner in corners] for point in points]))


def _others(outlines: Sequence[Outlines]) -> list[Any]:
    """What else is drawn within the sizes: darts and lines on which something is placed."""
    import shapely

    lines: list[Floats] = []
    for one in outlines:
        marks = [mark for mark in one.piece.marks if mark.line in ("", "fold") and len(mark.points[one.body]) > 1]
        lines += [mark.points[one.body] * FLIP for mark in marks if not mark.drill]
        for takeup in one.piece.takeups:
            if takeup.to is not None and one.has(takeup):
                mouth = one.sewing_ruler(takeup.edge).place(float(takeup.at[one.body]))[0]
                lines.append(np.stack([mouth, takeup.to[one.body]]) * FLIP)
        for dart in one.piece.inner_darts:
            lines += [leg[0, [0, 3]] * FLIP for leg in inner_legs(dart, one.body)] if one.has(dart) else []
    shapes = [shapely.LineString(line) for line in lines if np.isfinite(line).all()]
    return [*shapes, *(shapely.LineString(one.fold).buffer(_FOLD) for one in outlines if one.fold)]
