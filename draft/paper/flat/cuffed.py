"""What is seen of a sleeve above its cuff: the slit at which the cuff begins and ends, and the folds of the pleats."""

from __future__ import annotations

import numpy as np

from draft.base.arrays import Floats
from draft.garment.garment import Piece, SidePart, Takeup
from draft.geometry.cubic import lines_through, norm
from draft.geometry.flatten import polyline
from draft.geometry.ruler import Ruler
from draft.paper.flat.bands import Band
from draft.paper.flat.canvas import Canvas
from draft.paper.flat.limbs import Limb
from draft.paper.flat.lines_in_view import View
from draft.paper.flat.panels import outside
from draft.paper.flat.strips import OUTLINE, SEAM

_TOUCH = 0.5
_PLEAT = 20.0
"""So long is the fold of a pleat drawn, mm, where no length is given."""


def slits_and_pleats(canvas: Canvas, view: View, one: Limb) -> None:
    """Both of a piece that hangs on the panel, as far as the half of it that a view shows has them."""
    for line in _slits(one.piece, view):
        _drawn(canvas, one, line, closes=True)
    for takeup in one.piece.takeups:
        if takeup.to is None and np.isfinite(takeup.at[view.body]) and takeup.width[view.body] > 0:
            _drawn(canvas, one, _fold(one.piece, takeup, view.body), closes=False)


def _slits(piece: Piece, view: View) -> list[Floats]:
    """Lines marked from where a band begins and ends, at one corner of the piece: the cloth is cut along them."""
    corners = [corner for band in view.bands if (corner := _where_it_closes(piece, band, view)) is not None]
    lines = [mark.points[view.body] for mark in piece.marks if not (mark.line or mark.fastening or mark.drill)]
    return [line for line in lines if any(norm(line[[0, -1]] - corner).min() < _TOUCH for corner in corners)]


def _where_it_closes(piece: Piece, band: Band, view: View) -> Floats | None:
    """Where a band on a piece begins, if it ends there as well and is sewn on."""
    if {part.piece for part in band.edges} != {piece.name} or not view.done.join(band.join.name):
        return None
    begin, end = _end(piece, band.edges[0], view.body, True), _end(piece, band.edges[-1], view.body, False)
    return begin if norm(begin - end) < _TOUCH else None


def _end(piece: Piece, part: SidePart, body: int, first: bool) -> Floats:
    """Where the seam begins or ends along an edge."""
    path = piece.edge(part.edge).segments[body]
    return np.asarray(path[0, 0] if first != part.reverse else path[-1, 3])


def _fold(piece: Piece, pleat: Takeup, body: int) -> Floats:
    """The line `(2, 2)` on which a pleat is folded."""
    start, way = Ruler(piece.edge(pleat.edge).segments[body]).place(float(pleat.at[body]))
    depth = float(pleat.length[body]) if pleat.length is not None else _PLEAT
    return np.stack([start, start + depth * outside(piece, body, over=False) * np.array([way[1], -way[0]])])


def _drawn(canvas: Canvas, one: Limb, line: Floats, closes: bool) -> None:
    """A line `(n, 2)` of the piece on both sides of the wearer, where the view shows it."""
    import shapely

    laid = one.move.points(line)
    if shapely.Polygon(polyline(one.outline)).buffer(_TOUCH).covers(shapely.Point(laid.mean(axis=0))):
        canvas.both([lines_through(laid)], OUTLINE if closes else SEAM)
