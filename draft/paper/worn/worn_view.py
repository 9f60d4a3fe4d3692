"""One view of a garment on a form: the form in grey, the cloth in two scales, its seams and hems, and how it pulls.

Hidden parts are found in a picture of cells; what is drawn are the rings round its tones, so that a view takes some
hundred lines and not ten thousand triangles.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any

import numpy as np

from draft.base.arrays import Bools, Floats
from draft.base.record import dataclass
from draft.form.field import Field
from draft.geometry.cubic import lines_through
from draft.paper.drawing.drawing import Item, Path, Stroke, circle, straight_lines
from draft.paper.worn.level_rings import cover, level_rings, smoothed
from draft.paper.worn.nearest_seen import BESIDE, Body, Frame, Seen, Side, across, nearest_seen
from draft.paper.worn.worn_colours import (
    ACROSS,
    CLOTH,
    DOTS,
    DOUBT,
    DRAG,
    EDGE,
    FORM,
    LIT,
    OUTLINE,
    SEAM,
    SHADED,
    SKIN_LINE,
    STANDS_OFF,
    STRETCHED,
    Band,
    darker,
)
from draft.sitting.round_arms import round_arm
from draft.sitting.worn import Worn

SKIN, GARMENT = 0, 1
_LIFT = 9.0
"""mm by which cloth is seen nearer than it is, as it lies on the form, and triangles cut across curves."""
_NEAR = 20.0
"""mm that a seam may lie behind the cloth that is drawn over it."""
_STROKES, _DOTS, _SLANTS = 1.5, 1.7, 1.5  # mm of paper between them
_SHARP = 20.0
"""How much steeper a share is made to be beside the border of what is covered, which it is cut off at."""


@dataclass(frozen=True)
class Place:
    """Where a view stands on paper: the picture's left and top, mm, and mm of paper to mm of the body."""

    x: float
    y: float
    scale: float

    def points(self, out: Floats, frame: Frame) -> Floats:
        """Points `(n, 2)` across and up as they are seen, on paper."""
        return np.stack([self.x + (out[:, 0] - frame.left) * self.scale, self.down(out[:, 1], frame)], axis=1)

    def down(self, height: Floats, frame: Frame) -> Floats:
        """Where heights `(n,)` lie down the paper."""
        return np.asarray(self.y + (frame.high - height) * self.scale)


@dataclass(frozen=True, eq=False)
class _Canvas:
    """A view's cells, and where they come to lie on paper."""

    seen: Seen
    frame: Frame
    place: Place

    def rings(self, figure: Floats) -> list[Floats]:
        """Rings on paper round where a figure of the cells passes nothing."""
        return [self.place.points(self.frame.out(ring), self.frame) for ring in level_rings(figure)]


def trunk_seen(worn: Worn, side: Side) -> Field:
    """The form without arms of the half that is seen from a side."""
    return worn.right if side == "right" and worn.right is not None else worn.trunk


def view_items(worn: Worn, side: Side, frame: Frame, place: Place) -> list[Item]:
    """All that is drawn of one view."""
    beside = side in BESIDE
    skin = (worn.bare, worn.bare_triangles) if beside or worn.from_waist else (worn.skin, worn.skin_triangles)
    bodies = [Body(*skin, skin[0][:, 2:])]
    if len(worn.triangles):
        figures = np.stack([worn.stretched, worn.off, worn.doubtful], axis=1)
        cut = np.maximum(round_arm(worn.points, trunk_seen(worn, side)), -1e3) if beside else None
        bodies.append(Body(worn.points, worn.triangles, figures, cut, _LIFT))
    canvas = _Canvas(nearest_seen(bodies, side, frame), frame, place)
    items = list(_form(canvas))
    if canvas.seen.shows(GARMENT).any():
        items += [*_cloth(canvas), *_lines(worn, canvas, side)]
    return items


def _filled(rings: Sequence[Floats], colour: str, stroke: Stroke | None = None) -> list[Item]:
    if not rings:
        return []
    return [Path(tuple(lines_through(ring, closed=True) for ring in rings), stroke, colour, closed=True)]


# ---- tones ----------------------------------------------------------------------------------------------------------


def _form(canvas: _Canvas) -> Iterator[Item]:
    """The form in its tones; under the garment too, so that no white shows between them."""
    there = canvas.seen.which >= 0
    skin = canvas.seen.shows(SKIN)
    around = cover(there)
    light = smoothed(canvas.seen.light, skin, 2)
    yield from _filled(canvas.rings(around), FORM[0])
    for tone, least in zip(FORM[1:], LIT, strict=True):
        yield from _filled(canvas.rings(np.minimum((light - least) * _SHARP / 4, around)), tone)
    yield from _filled(canvas.rings(around), "", SKIN_LINE)


def _cloth(canvas: _Canvas) -> Iterator[Item]:
    """The garment in both scales, in light and shade, with the marks that tell them apart."""
    there = canvas.seen.shows(GARMENT)
    around, light = cover(there), smoothed(canvas.seen.light, there, 2)
    stretched, off, doubt = (smoothed(canvas.seen.figures[..., k], there) for k in range(3))
    shades = [(1.0, around)]
    shades += [(times, np.minimum(around, (most - light) * _SHARP / 4)) for most, times in SHADED]
    bands = list(_bands(stretched, off))
    plain = -np.max([figure for _, figure in bands], axis=0)
    for times, within in shades:
        cloth = within if times == 1.0 else np.minimum(within, plain)  # else a pale rim shows round what is in shade
        yield from _filled(canvas.rings(cloth), darker(CLOTH, times))
        for band, figure in bands:
            yield from _filled(canvas.rings(np.minimum(figure, within)), darker(band.colour, times))
    trusted = doubt < 0.5
    for band, figure in bands:
        if band.mark:
            rings = canvas.rings(np.minimum(figure, np.where(trusted, around, -1.0)))
            yield from _strokes(rings, band.mark) if band in STRETCHED else _dots(rings, band.mark)
    yield from _slants(canvas.rings(np.minimum(around, (doubt - 0.5))))
    yield from _filled(canvas.rings(around), "", OUTLINE)


def _bands(stretched: Floats, off: Floats) -> Iterator[tuple[Band, Floats]]:
    """Each band with where it is, above nothing there.

    Cloth that hangs free is stretched a little by its own weight: there it is shown to stand off, and elsewhere not
    where it is stretched.
    """
    least, more = STRETCHED[0].least, STRETCHED[1].least
    hangs = STANDS_OFF[0].least - off
    free = np.minimum(off, (more - stretched) * 1e4)
    stretched = np.where(stretched < more, np.minimum(stretched, least + hangs * 1e-3), stretched)
    for bands, figure, sharp in ((STANDS_OFF, free, 1 / 20.0), (STRETCHED, stretched, _SHARP)):
        for k, band in enumerate(bands):
            end = (bands[k + 1].least - figure) * sharp if k + 1 < len(bands) else np.inf
            yield band, np.minimum((figure - band.least) * sharp, end)


def _area(rings: Sequence[Floats]) -> Any:
    import shapely

    area = shapely.Polygon()
    for ring in rings:
        area = area.symmetric_difference(shapely.make_valid(shapely.Polygon(ring)))
    return area


def _strokes(rings: Sequence[Floats], width: float) -> list[Item]:
    """Level strokes within rings: the cloth is stretched."""
    return _ruled(rings, Stroke(width, colour=ACROSS), _STROKES, 0.0)


def _slants(rings: Sequence[Floats]) -> list[Item]:
    """Slanting strokes within rings: nothing is to be trusted there."""
    return _ruled(rings, DOUBT, _SLANTS, 1.0)


def _ruled(rings: Sequence[Floats], stroke: Stroke, apart: float, slope: float) -> list[Item]:
    import shapely

    area = _area(rings)
    if area.is_empty:
        return []
    left, top, right, bottom = area.bounds
    first = np.floor((top - slope * right) / apart) * apart
    starts = np.arange(first, bottom - slope * left + apart, apart * (1.4 if slope else 1.0))
    ruled = shapely.linestrings([[(left, y + slope * left), (right, y + slope * right)] for y in starts])
    parts = shapely.get_parts(shapely.intersection(ruled, area))
    lines = [shapely.get_coordinates(part) for part in parts if part.geom_type == "LineString" and part.length > 0.2]
    return [straight_lines(lines, stroke)] if lines else []


def _dots(rings: Sequence[Floats], radius: float) -> list[Item]:
    """Dots within rings, in rows that are set off by half: the cloth stands off."""
    import shapely

    area = _area(rings)
    if area.is_empty:
        return []
    left, top, right, bottom = area.bounds
    rows = np.arange(np.floor(top / _DOTS), np.ceil(bottom / _DOTS) + 1)
    columns = np.arange(np.floor(left / _DOTS), np.ceil(right / _DOTS) + 1)
    row, column = (one.ravel() for one in np.meshgrid(rows, columns, indexing="ij"))
    x, y = (column + (row % 2) / 2) * _DOTS, row * _DOTS
    inside = shapely.contains_xy(area.buffer(-radius), x, y)
    circles = tuple(circle(float(a), float(b), radius) for a, b in zip(x[inside], y[inside], strict=True))
    return [Path(circles, fill=DOTS, closed=True)] if circles else []


# ---- lines ----------------------------------------------------------------------------------------------------------


def _lines(worn: Worn, canvas: _Canvas, side: Side) -> Iterator[Item]:
    """Seams, edges and strokes of tension where they are seen."""
    trunk = trunk_seen(worn, side)
    for lines, stroke in ((worn.seams, SEAM), (worn.edges, EDGE)):
        parts = [part for line in lines for part in _seen_parts(line, canvas, side, trunk)]
        if parts:
            yield Path(tuple(lines_through(part) for part in parts), stroke)
    drags = [part for drag in worn.drags for part in _seen_parts(drag, canvas, side, trunk)]
    if drags:
        yield Path(tuple(lines_through(part) for part in drags), DRAG)


def _seen_parts(line: Floats, canvas: _Canvas, side: Side, trunk: Field) -> list[Floats]:
    """The parts of a line `(n, 3)` that no cloth or form hides, on paper; from the side those round an arm are not."""
    fine = _finely(line, canvas.frame.cell * 2)
    seen = across(fine, side)
    visible = _is_seen(seen, canvas)
    if side in BESIDE:
        visible &= round_arm(fine, trunk) < 0
    points = canvas.place.points(seen[:, [0, 2]], canvas.frame)
    breaks = np.flatnonzero(np.diff(visible.astype(int))) + 1
    parts = np.split(np.arange(len(points)), breaks)
    return [_plain(points[part]) for part in parts if visible[part[0]] and len(part) > 1]


def _plain(points: Floats) -> Floats:
    import shapely

    return np.asarray(shapely.get_coordinates(shapely.simplify(shapely.linestrings(points), 0.06)))


def _finely(line: Floats, step: float) -> Floats:
    long = np.concatenate([[0.0], np.cumsum(np.linalg.norm(np.diff(line, axis=0), axis=1))])
    at = np.linspace(0.0, long[-1], max(int(long[-1] / step), 1) + 1)
    return np.stack([np.interp(at, long, line[:, k]) for k in range(3)], axis=1)


def _is_seen(seen: Floats, canvas: _Canvas) -> Bools:
    """Whether points are as near as what is drawn in their cells, or in one beside them."""
    cells = np.round(canvas.frame.cells(seen)).astype(np.intp)
    rows, columns = canvas.seen.away.shape
    column, row = np.clip(cells[:, 0], 1, columns - 2), np.clip(cells[:, 1], 1, rows - 2)
    around = [canvas.seen.away[row + i, column + j] for i in (-1, 0, 1) for j in (-1, 0, 1)]
    farthest = np.max([np.where(np.isfinite(away), away, -np.inf) for away in around], axis=0)
    return np.asarray(seen[:, 1] <= farthest + _NEAR)
