"""A waistband that buttons: the end that lies on top, and its button, on the wearer's left where the opening is.

It closes as zips and flies are drawn, left over right: in the middle of its front or back, or at the left side.
"""

from __future__ import annotations

import numpy as np

from draft.base.arrays import Floats
from draft.garment.marks import places
from draft.geometry.cubic import lines_through, norm, reverse, unit
from draft.geometry.ruler import Ruler
from draft.paper.flat.bands import Band
from draft.paper.flat.canvas import Canvas
from draft.paper.flat.lines_in_view import View, line_of
from draft.paper.flat.panels import outside
from draft.paper.flat.similar import MIRROR
from draft.paper.flat.strips import OUTLINE, PAPER, SEAM

_BUTTON = 9.0
"""Half of a waistband's button across, mm (common practice: 18 mm)."""
_MIDDLE = 0.5
"""An opening that begins no further from the middle, mm, is in it."""


def buttoned_bands(canvas: Canvas, view: View, from_behind: bool) -> None:
    """The buttons of the bands that are sewn to the panel of a view, once all is sewn."""
    for band in view.bands if view.done.everything else ():
        if band.piece.cut == 1 and not band.piece.on_fold:
            at_end = _at_end(band, view.body)
            line = _from_the_opening(view, band) if at_end is not None else None
            if line is not None and at_end is not None:
                _drawn(canvas, view, band, line, at_end, from_behind)


def _at_end(band: Band, body: int) -> float | None:
    """How far the buttonhole lies from the nearer end of the band's seam, mm; None where there is not just one."""
    holes = [mark for mark in band.piece.marks if mark.fastening == "buttonhole"]
    found = [point for mark in holes for point in places(mark, body)]
    parts = band.join.first if band.join.first[0].piece == band.piece.name else band.join.second
    if len(found) != 1 or len(parts) != 1:
        return None
    seam = band.piece.edge(parts[0].edge).segments[body]
    way = unit(seam[-1, 3] - seam[0, 0])
    return float(min((found[0] - seam[0, 0]) @ way, (seam[-1, 3] - found[0]) @ way))


def _from_the_opening(view: View, band: Band) -> Floats | None:
    """The panel's edge `(n, 4, 2)` that the band begins at, from there; None where that is on another panel."""
    first = band.edges[0]
    if first.piece != view.panel.piece.name:
        return None
    line = line_of(view, view.panel, view.panel.piece.edge(first.edge))
    return reverse(line) if first.reverse else line


def _drawn(canvas: Canvas, view: View, band: Band, line: Floats, at_end: float, from_behind: bool) -> None:
    """On the right of who looks at the front; at a side only there, for the end that lies on top is in front."""
    in_middle = abs(float(line[0, 0, 0])) < _MIDDLE
    if not in_middle and from_behind:
        return
    turned = view.panel.piece.edge(band.edges[0].edge).segments[view.body][0, 0]
    begins = norm(view.panel.move.points(turned) - line[0, 0]) < _MIDDLE
    side = outside(view.panel.piece, view.body, view.panel.move.over) * (1.0 if begins else -1.0)
    start, away = _beside(line, 0.0, side)
    at, up = _beside(line, at_end, side)
    ring = _circle(at + up * band.width / 2)
    shapes = [(ring, SEAM)] + ([(lines_through([start, start + away * band.width]), OUTLINE)] if in_middle else [])
    for shape, stroke in shapes:
        placed = MIRROR.points(shape) if from_behind else shape
        canvas.fill(placed, PAPER) if shape is ring else None
        canvas.line([placed], stroke)


def _beside(line: Floats, along: float, side: float) -> tuple[Floats, Floats]:
    """A point of a line so many mm from its start, and the way `(2,)` away from the panel there."""
    point, way = Ruler(line).place(along)
    return point, side * np.array([-way[1], way[0]])


def _circle(point: Floats) -> Floats:
    turn = np.linspace(0.0, 2 * np.pi, 25)[:-1]
    return lines_through(point + _BUTTON * np.stack([np.cos(turn), np.sin(turn)], axis=-1), closed=True)
